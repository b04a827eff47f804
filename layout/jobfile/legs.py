"""[legs]: how many, of what kind, where, and what the table has to carry."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry.tolerance import SAME_PLACE
from ..keys.place import Place
from ..keys.values import Values
from ..legs.foot import Foot, FootShape
from ..legs.plan import require_footing
from ..legs.room import FOOT_INSET, SHARE_OF_SIZE
from ..legs.stability import IN_A_ROW
from ..legs.table_wish import TableWish
from ..legs.wish import COUNTS, LegsWish
from .legs_held import Under, plate_of, table_values
from .section import read_section
from .sections import LEGS


@dataclass(frozen=True, slots=True)
class LegsRead:
    """The legs, and what is asked of the table on them."""

    wish: LegsWish
    table: TableWish


def read_legs(raw: object, place: Place, under: Under) -> LegsRead | None:
    """Return the legs under such a top; None where something is wrong with them."""
    values = read_section(raw, LEGS, place)
    foot = _foot(values)
    whole = values.only_one_of("density", "material")
    whole &= values.only_one_of("height", "table_height")
    whole &= values.only_one_of("count", "counts")
    whole &= values.not_with("inset", ("inset_side", "inset_end"), "inset is for all round")
    whole &= values.not_with(
        "at", ("inset", "inset_side", "inset_end", "goal", "counts"), "at says where they go"
    )
    at, count = values["at"] or (), values["count"]
    if at and count is not None and count != len(at):
        values.at("count").wrong(f"{count} legs, but at gives {len(at)} places: leave count out")
        whole = False
    if foot is not None:
        whole &= _enough(values, foot) and _spread_out(values, foot)
        whole = whole and _fits(values, foot, under) and _room(values, foot, under)
    height = _height(values, under)
    table = table_values(values, under, _compared(values, foot))
    if foot is None or height is None or table is None or not whole:
        return None
    wish = values.made(
        LegsWish,
        count=len(at) or count or (2 if _is_slab(foot) else LegsWish().count),
        foot=foot,
        inset_side=values["inset_side"] if values["inset"] is None else values["inset"],
        inset_end=values["inset_end"] if values["inset"] is None else values["inset"],
        height=height,
        plate=plate_of(values),
    )
    return None if wish is None else LegsRead(wish, table)


def _compared(values: Values, foot: Foot | None) -> tuple[int, ...]:
    """Return the counts of legs to compare; none where the legs stand as they are wished."""
    if values["at"]:
        return ()
    if values["count"] is not None:
        return (values["count"],) if values["goal"] is not None else ()
    usual = (2,) if foot is not None and _is_slab(foot) else COUNTS
    counts: tuple[int, ...] = values["counts"] or usual
    return counts


def _enough(values: Values, foot: Foot) -> bool:
    """Return whether so many legs stand; note it otherwise."""
    if _is_slab(foot):
        return True
    told = {"at": len(values["at"] or ()), "count": values["count"] or 0}
    told["counts"] = min(values["counts"] or (0,))
    few = [name for name, count in told.items() if count == 2]
    for name in few:
        values.at(name).wrong(
            f"fewer than 3 {foot.shape.value} feet do not stand: take 3 at least, or 2 slabs"
        )
    return not few


def _spread_out(values: Values, foot: Foot) -> bool:
    """Return whether the places given are apart and not in a row; note it otherwise."""
    at = values["at"]
    if not at:
        return True
    try:
        require_footing(foot, at)
    except LayoutError as error:
        values.at("at").wrong(str(error))
        return False
    return True


def _fits(values: Values, foot: Foot, under: Under) -> bool:
    """Return whether one foot may find room under such a top; note it where none can."""
    usual = 0.0 if _is_slab(foot) else min(FOOT_INSET, under.narrow * SHARE_OF_SIZE)
    side = values["inset_side"] if values["inset"] is None else values["inset"]
    end = values["inset_end"] if values["inset"] is None else values["inset"]
    inset = min(usual if side is None else side, math.inf if end is None else end)
    thin = min(foot.length, foot.width)
    if thin + 2 * inset <= under.narrow + SAME_PLACE:
        return True
    length = values.place.length
    most = under.narrow - 2 * inset
    values.at("size").wrong(
        f"a foot {length(thin)} wide finds no room {length(inset)} inside the edges of a top at "
        f"most {length(under.narrow)} wide: "
        + (f"at most {length(most)}" if most > 0 else "make the inset smaller too")
    )
    return False


def _room(values: Values, foot: Foot, under: Under) -> bool:
    """Return whether the insets leave feet room beside each other; note it otherwise."""
    name = "inset_side" if values["inset"] is None else "inset"
    inset = values[name]
    if inset is None or _is_slab(foot):
        return True
    beside = IN_A_ROW if values["count"] == 3 else max(foot.width, IN_A_ROW)
    most = (under.narrow - foot.width - beside) / 2
    if inset <= most + SAME_PLACE:
        return True
    length = values.place.length
    values.at(name).wrong(
        f"{length(inset)} from both sides of a top at most {length(under.narrow)} wide leaves feet "
        f"{length(foot.width)} wide no room beside each other: "
        + (f"at most {length(most)}" if most > SAME_PLACE else "take smaller feet")
    )
    return False


def _height(values: Values, under: Under) -> float | None:
    """Return from the floor to the underside of the top, mm; None where no leg is left."""
    height: float | None = values["height"]
    name = "height"
    if values["table_height"] is not None:
        name, height = "table_height", values["table_height"] - under.thickness
    if height is None or not values.sound("plate_thickness", "table_height"):
        return None
    plate = plate_of(values)
    rest = height - (plate.thickness if plate else 0.0)
    if rest <= 0:
        wanted = values.place.length(values[name] - rest)
        values.at(name).wrong(
            f"{values.place.length(values[name])} leaves no leg: top and plate take {wanted}"
            if name == "table_height"
            else f"{values.place.length(height)} leaves no leg under a plate of {wanted}"
        )
        return None
    return height


def _is_slab(foot: Foot) -> bool:
    return foot.shape is FootShape.SLAB


def _foot(values: Values) -> Foot | None:
    shape, size, wall = values["foot"], values["size"], values["wall"]
    if shape is None or size is None or not values.sound("wall"):
        return None
    wrong = _mismatch(shape, size, wall)
    if wrong is not None:
        values.at(wrong[0]).wrong(wrong[1])
        return None
    try:
        return Foot(shape, size[0], size[-1], wall or 0.0)
    except LayoutError as error:
        values.at("wall" if wall else "size").wrong(str(error))
        return None


def _mismatch(
    shape: FootShape, size: tuple[float, ...], wall: float | None
) -> tuple[str, str] | None:
    """Return the key that does not suit the shape of the foot, and what to do."""
    if shape.has_wall and wall is None:
        return "wall", f"wall is missing: a {shape.value} needs the thickness of its wall"
    if not shape.has_wall and wall is not None:
        return "wall", 'only a ring or a tube has a wall: leave it out, or say foot = "ring"'
    if shape.has_two_sizes and len(size) == 1 and shape is not FootShape.TUBE:
        return "size", f"a {shape.value} foot has two sizes: write size = [length, width]"
    if not shape.has_two_sizes and size[0] != size[-1]:
        return "size", (
            f'a {shape.value} foot has one size: write a single length, or foot = "rectangular"'
        )
    return None
