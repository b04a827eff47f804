"""How much a solid top moves across its grain, and how its fixings let it.

ΔD = D·C·ΔM (*Wood Handbook* (2010), eq. 13-2): width, coefficient of the species, change of
moisture. Of the fixings that something rigid joins – the screws of one plate, of a trestle, of all
legs under an apron – one row across the grain stays fast and the others get slots. Boards
hardly move, nor does a framed door, whose panels move in their grooves; they want a little play
where damp gets in.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ..geometry import Point, first_of_best
from ..geometry.tolerance import SAME_PLACE
from ..panel.build import Kind
from ..panel.materials import MATERIALS, Material
from ..top import Top
from .foot import Foot

SWING = 4.0
"""How far moisture swings in a heated room over a year, % (common practice)."""

BOARD_SWELL = 0.003
"""What a board may swell in damp, as a share (common practice)."""

_BOARD = (BOARD_SWELL, "common practice: what a board may swell in damp")
"""As for wood: a share, and where it comes from."""

SETTING_OUT = 1.0
"""Added to a slot for what drilling and setting miss, mm (our choice)."""

GLUE_FIGHTS = 1.0
"""Movement under one rigid joint above this, mm, breaks the joint or the wood (our choice)."""


@dataclass(frozen=True, slots=True)
class Slot:
    """How one fixing lets the top move."""

    place: Point
    """mm from the centre of the top."""
    length: float
    """Of its slot across the grain, mm; the screw's own diameter where it is fixed."""
    fixed: bool
    """Whether it is the one that stays fast."""


@dataclass(frozen=True, slots=True)
class MovementPlan:
    """What the seasons do to the top."""

    across: float = field(metadata={"unit": "rad"})
    """Direction across the grain, radians from the length of the top."""
    width: float
    """Of the top that way, mm."""
    change: float
    """How much wider it is when damp than when dry, mm."""
    coefficient: float = field(metadata={"unit": ""})
    """Share for each 1 % of moisture; for boards of the whole swing."""
    source: str
    solid: bool
    """Whether it is solid wood; board wants no slots, only a little play."""
    slots: tuple[Slot, ...]
    """One for each fixing of a solid top, in their order."""
    joint: float
    """Movement under one leg's rigid joint, mm."""
    glue_fights: bool
    """Whether a rigid glue holds the legs and their joints are too wide for that."""


@dataclass(frozen=True, slots=True)
class Held:
    """What holds the top, as far as its movement cares."""

    groups: tuple[tuple[Point, ...], ...]
    """The fixings that something rigid joins, mm from the centre of the top."""
    foot: Foot
    """What a leg's joint covers."""
    glued: bool
    """Whether a rigid glue holds the legs."""
    screw: float
    """Diameter of the screws, mm."""


def movement_of(
    top: Top, held: Held, *, quartered: bool = False, swing: float = SWING
) -> MovementPlan:
    """Return how the top moves and what its fixings need.

    Of each group of fixings the row nearest to the middle of the top stays fast. Of wood that is
    not sawn on the quarter the larger, tangential figure counts; `swing` is that of moisture, %.
    """
    outline, across = top.outline, top.grain + math.pi / 2
    way = Point.polar(1.0, across)
    width = outline.support(across) + outline.support(across + math.pi)
    solid = top.panel.build.kind is Kind.SOLID
    coefficient, source = _coefficient(top.panel.substance, quartered) if solid else _BOARD
    share = coefficient * swing if solid else coefficient
    joint = 2 * held.foot.reach(across) * share
    slots = (slot for group in held.groups for slot in _slots(group, way, share, held.screw))
    return MovementPlan(
        across,
        width,
        width * share,
        coefficient,
        source,
        solid,
        tuple(slots) if solid else (),
        joint,
        solid and held.glued and joint > GLUE_FIGHTS,
    )


def slot_for(movement: float, screw: float) -> float:
    """Return the length of a slot, mm: the screw, its movement both ways, and what setting misses.

    Rounded up to whole two millimetres beyond the screw.

    >>> slot_for(4.5, 5.0), slot_for(9.5, 5.0)
    (11.0, 17.0)
    """
    return screw + 2 * math.ceil((movement + SETTING_OUT) / 2 - 1e-9)


def _coefficient(material: Material, quartered: bool) -> tuple[float, str]:
    """Return the coefficient of solid wood, and its source."""
    known = material.movement or MATERIALS["solid wood"].movement
    assert known is not None  # it is in the table
    source = known.source if material.movement else "not known for this wood: as oak"
    return known.radial if quartered else known.tangential, source


def _slots(fixings: Sequence[Point], way: Point, share: float, screw: float) -> tuple[Slot, ...]:
    """Return a slot for each fixing; whichever lies nearest to the middle across stays fast."""
    if not fixings:
        return ()
    rows = [place.dot(way) for place in fixings]
    fast = first_of_best(rows, lambda row: -abs(row), lambda row: (row,), tolerance=SAME_PLACE)
    return tuple(
        Slot(place, screw, fixed=True)
        if abs(row - fast) <= SAME_PLACE
        else Slot(place, slot_for(2 * abs(row - fast) * share, screw), fixed=False)
        for place, row in zip(fixings, rows, strict=True)
    )
