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

from ..errors import LegsError
from ..geometry.alike import first_of_best
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE
from ..outlines import Outline
from ..panel.build import Kind
from ..panel.materials import Material, material_named
from .foot import Foot

SWING = 4.0
"""How far moisture swings in a heated room over a year, % (common practice)."""

BOARD_SWELL = 0.003
"""What a board may swell in damp, as a share (common practice)."""

SETTING_OUT = 1.0
"""Added to a slot for what drilling and setting miss, mm (our choice)."""

GLUE_FIGHTS = 1.0
"""Movement under one rigid joint above this, mm, breaks the joint or the wood (our choice)."""


@dataclass(frozen=True, slots=True)
class Slot:
    """How one fixing lets the top move.

    Attributes
    ----------
    place : Point
        mm from the centre of the top.
    length : float
        Of its slot across the grain, mm; the screw's own diameter where it is fixed.
    fixed : bool
        Whether it is the one that stays fast.
    """

    place: Point
    length: float
    fixed: bool


@dataclass(frozen=True, slots=True)
class MovementPlan:
    """What the seasons do to the top.

    Attributes
    ----------
    across : float
        Direction across the grain, radians from the length of the top.
    width : float
        Of the top that way, mm.
    change : float
        How much wider it is when damp than when dry, mm.
    coefficient : float
        Share for each 1 % of moisture; for boards of the whole swing.
    source : str
    solid : bool
        Whether it is solid wood; board wants no slots, only a little play.
    slots : tuple of Slot
        One for each fixing of a solid top, in their order.
    joint : float
        Movement under one leg's rigid joint, mm.
    glue_fights : bool
        Whether a rigid glue holds the legs and their joints are too wide for that.
    """

    across: float = field(metadata={"unit": "rad"})
    width: float
    change: float
    coefficient: float = field(metadata={"unit": ""})
    source: str
    solid: bool
    slots: tuple[Slot, ...]
    joint: float
    glue_fights: bool


@dataclass(frozen=True, slots=True)
class Wood:
    """What moves.

    Attributes
    ----------
    kind : Kind
    material : Material
    grain : float
        Direction of the grain from the length of the top, radians.
    quartered : bool
        Whether it is sawn on the quarter; else the larger, tangential figure counts.
    swing : float
        Of its moisture, %.
    """

    kind: Kind
    material: Material
    grain: float = field(default=0.0, metadata={"unit": "rad"})
    quartered: bool = False
    swing: float = field(default=SWING, metadata={"unit": "%"})

    def __post_init__(self) -> None:
        if not 0 <= self.swing <= 30:
            raise LegsError(f"a moisture swing of {self.swing:g} % is not from 0 to 30 %")


@dataclass(frozen=True, slots=True)
class Held:
    """What holds the top, as far as its movement cares.

    Attributes
    ----------
    groups : tuple of tuples of Point
        The fixings that something rigid joins, mm from the centre of the top.
    foot : Foot
        What a leg's joint covers.
    glued : bool
        Whether a rigid glue holds the legs.
    screw : float
        Diameter of the screws, mm.
    """

    groups: tuple[tuple[Point, ...], ...]
    foot: Foot
    glued: bool
    screw: float


def movement_of(outline: Outline, wood: Wood, held: Held) -> MovementPlan:
    """Return how the top moves and what its fixings need.

    Of each group of fixings the row nearest to the middle of the top stays fast.
    """
    across = wood.grain + math.pi / 2
    way = Point.polar(1.0, across)
    width = outline.support(across) + outline.support(across + math.pi)
    coefficient, share, source = _coefficient(wood)
    solid = wood.kind is Kind.SOLID
    joint = (held.foot.reach(across) + held.foot.reach(across + math.pi)) * share
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


def _coefficient(wood: Wood) -> tuple[float, float, str]:
    """Return the coefficient, what it makes of the whole swing, and its source."""
    if wood.kind is not Kind.SOLID:
        return BOARD_SWELL, BOARD_SWELL, "common practice: what a board may swell in damp"
    known = wood.material.movement
    source = known.source if known else "not known for this wood: as oak"
    if known is None:
        usual = material_named("solid wood")
        assert usual is not None  # it is in the table
        known = usual.movement
        assert known is not None
    coefficient = known.radial if wood.quartered else known.tangential
    return coefficient, coefficient * wood.swing, source


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
