"""[legs]: how many, of what kind, where, how they are held, and what the table has to carry."""

from __future__ import annotations

import math

from ..errors import LayoutError
from ..geometry.tolerance import SAME_PLACE
from ..keys.key import Values
from ..keys.place import Place
from ..legs.fixings import Screw, screw_in
from ..legs.foot import MASONRY, Foot, FootShape
from ..legs.movement import SWING
from ..legs.placing import require_footing
from ..legs.room import FOOT_INSET, SHARE_OF_SIZE
from ..legs.table_wish import TableWish
from ..legs.tipping import IN_A_ROW
from ..legs.wish import COUNTS, Fixing, FixingPlate, LegsWish
from ..panel.build import Kind
from .panel import thickness_of
from .sections import LEGS, read_section


def read_legs(
    raw: object, place: Place, panel: Values, narrow: float
) -> tuple[LegsWish, TableWish] | None:
    """Return the legs under a top of such a panel, at most `narrow` mm wide, and their table."""
    values = read_section(raw, LEGS, place)
    foot = _foot(values)
    whole = values.only_one_of("density", "material")
    whole &= values.only_one_of("height", "table_height")
    whole &= values.only_one_of("count", "counts")
    insets = ("inset_side", "inset_end")
    whole &= values.not_with("inset", insets, "inset is for all round")
    whole &= values.not_with("at", ("inset", *insets, "goal", "counts"), "at says where they go")
    at, count = values["at"] or (), values["count"]
    if at and count is not None and count != len(at):
        values.at("count").wrong(f"{count} legs, but at gives {len(at)} places: leave count out")
        whole = False
    if foot is not None:
        whole &= _stand(values, foot)
        whole = whole and _finds_room(values, foot, narrow)
    height = _height(values, thickness_of(panel))
    table = _table(values, panel, _compared(values, foot))
    if foot is None or height is None or table is None or not whole:
        return None
    count = len(at) or count or (2 if foot.shape is FootShape.SLAB else LegsWish().count)
    side, end = _insets(values)
    made = {"foot": foot, "height": height, "plate": _plate(values), "count": count}
    wish = values.made(LegsWish, **made, inset_side=side, inset_end=end)
    return None if wish is None else (wish, table)


def _insets(values: Values) -> tuple[float | None, float | None]:
    """Return how far feet stand inside sides and ends, as far as it is said."""
    all_round = values["inset"]
    return (values["inset_side"], values["inset_end"]) if all_round is None else (all_round,) * 2


def _compared(values: Values, foot: Foot | None) -> tuple[int, ...]:
    """Return the counts of legs to compare; none where the legs stand as they are wished."""
    if values["at"]:
        return ()
    if values["count"] is not None:
        return (values["count"],) if values["goal"] is not None else ()
    usual = (2,) if foot is not None and foot.shape is FootShape.SLAB else COUNTS
    return tuple(values["counts"] or usual)


def _stand(values: Values, foot: Foot) -> bool:
    """Return whether so many legs stand, apart and not in a row; note it otherwise."""
    at = values["at"] or ()
    told = {"at": len(at), "count": values["count"] or 0, "counts": min(values["counts"] or (0,))}
    few = [name for name, count in told.items() if count == 2 and foot.shape is not FootShape.SLAB]
    for name in few:
        values.at(name).wrong(
            f"fewer than 3 {foot.shape.value} feet do not stand: take 3 at least, or 2 slabs"
        )
    try:
        if at and not few:
            require_footing(foot, at)
    except LayoutError as error:
        values.at("at").wrong(str(error))
        return False
    return not few


def _finds_room(values: Values, foot: Foot, narrow: float) -> bool:
    """Return whether feet may find room under such a top, and beside each other; else note it."""
    length, wide = values.place.length, values.place.length(narrow)
    is_slab, name = foot.shape is FootShape.SLAB, "inset" if values.has("inset") else "inset_side"
    usual = 0.0 if is_slab else min(FOOT_INSET, narrow * SHARE_OF_SIZE)
    side, end = _insets(values)
    inset = min(usual if side is None else side, math.inf if end is None else end)
    most = narrow - 2 * inset
    if foot.thin > most + SAME_PLACE:
        values.at("size").wrong(
            f"a foot {length(foot.thin)} wide finds no room {length(inset)} inside the edges of a "
            f"top at most {wide} wide: "
            + (f"at most {length(most)}" if most > 0 else "make the inset smaller too")
        )
        return False
    beside = IN_A_ROW if values["count"] == 3 else max(foot.width, IN_A_ROW)
    most = (narrow - foot.width - beside) / 2
    if side is None or is_slab or side <= most + SAME_PLACE:
        return True
    values.at(name).wrong(
        f"{length(side)} from both sides of a top at most {wide} wide leaves feet "
        f"{length(foot.width)} wide no room beside each other: "
        + (f"at most {length(most)}" if most > SAME_PLACE else "take smaller feet")
    )
    return False


def _height(values: Values, thickness: float) -> float | None:
    """Return from the floor to the underside of the top, mm; None where no leg is left."""
    name = "height" if values["table_height"] is None else "table_height"
    height: float | None = values[name]
    if height is None or not values.sound("plate_thickness", "table_height"):
        return None
    height -= thickness if name == "table_height" else 0.0
    plate = _plate(values)
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


def _foot(values: Values) -> Foot | None:
    shape, size, wall = values["foot"], values["size"], values["wall"]
    if shape is None or size is None or not values.sound("wall"):
        return None
    called, name, wrong = shape.value, "size", ""
    if shape.has_wall and wall is None:
        name, wrong = "wall", f"wall is missing: a {called} needs the thickness of its wall"
    elif not shape.has_wall and wall is not None:
        name = "wall"
        wrong = 'only a ring or a tube has a wall: leave it out, or say foot = "ring"'
    elif shape.has_two_sizes and len(size) == 1 and shape is not FootShape.TUBE:
        wrong = f"a {called} foot has two sizes: write size = [length, width]"
    elif not shape.has_two_sizes and size[0] != size[-1]:
        wrong = f'a {called} foot has one size: write a single length, or foot = "rectangular"'
    if wrong:
        values.at(name).wrong(wrong)
        return None
    place = values.at("wall" if wall else "size")
    return place.made(Foot, shape, size[0], size[-1], wall or 0.0)


def _plate(values: Values) -> FixingPlate | None:
    """Return the plate on the head of each leg."""
    if values["plate"] is None or values["plate_thickness"] is None:
        return None
    return FixingPlate(values["plate"][0], values["plate"][-1], values["plate_thickness"])


def _table(values: Values, panel: Values, counts: tuple[int, ...]) -> TableWish | None:
    """Return what is asked of the table; None where something is wrong with it."""
    whole = _plate_suits(values) & _fixing_suits(values)
    screw = _screw(values, panel)
    if not whole or (values["screw"] is not None and screw is None):
        return None
    imperial, moisture = values.place.units.is_imperial, panel["moisture"]
    usual = TableWish.usual(imperial=imperial, material=values["material"] or "")
    return values.made(
        TableWish,
        counts=counts,
        place=values["place"] or usual.place,
        screw=screw,
        glue=values["glue"] or usual.glue,
        swing=SWING if moisture is None else moisture[1] - moisture[0],
        quartered=panel["sawn"] == "quarter",
    )


def _plate_suits(values: Values) -> bool:
    """Return whether everything about a plate goes with one; note it otherwise."""
    if values.has("plate"):
        plate, holes = values["plate"], values["plate_holes"]
        if plate and holes and (holes[0] >= plate[0] or holes[-1] >= plate[-1]):
            values.at("plate_holes").wrong("the holes lie apart by less than the plate's own size")
            return False
        return True
    lost = [name for name in ("plate_thickness", "plate_holes") if values.has(name)]
    for name in lost:
        values.at(name).wrong("there is no plate: give its size too, plate = [90, 90]")
    return not lost


def _fixing_suits(values: Values) -> bool:
    """Return whether screws and glue go with the way the legs are held; note it otherwise."""
    fixing: Fixing | None = values["fixing"]
    if values["material"] in MASONRY and not values.has("fixing"):
        fixing = Fixing.LOOSE  # where nothing is said
    if fixing is Fixing.SCREWED and values["material"] in MASONRY:
        values.at("fixing").wrong(
            f'{values["material"]} takes no screw: lay the top on, fixing = "loose", or glue it'
        )
        return False
    whole = True
    for name, needed in (("screw", Fixing.SCREWED), ("glue", Fixing.GLUED)):
        if values.has(name) and fixing is not None and fixing is not needed:
            whole = False
            values.at(name).wrong(
                f'the legs are {fixing.value}: leave it out, or say fixing = "{needed.value}"'
            )
    return whole


def _screw(values: Values, panel: Values) -> Screw | None:
    """Return the wished screw; note one that is none, or comes through the top."""
    screw = values.at("screw").made(Screw, *values["screw"]) if values["screw"] else None
    if screw is None:
        return None
    plate = _plate(values)
    thickness, kind = thickness_of(panel), panel["build"] or Kind.SOLID
    held = screw_in(screw, plate.thickness if plate else 0.0, thickness, kind)
    if held.is_refused:
        length = values.place.length
        values.at("screw").wrong(
            f"{length(screw.length)} comes through a top {length(thickness)} thick: at most "
            f"{length(held.longest)}"
        )
        return None
    return screw
