"""How much a solid top moves across its grain, and how its fixings let it.

ΔD = D·C·ΔM (*Wood Handbook* (2010), eq. 13-2): width, coefficient of the species, change of
moisture. One fixing of a row across the grain stays fast, the others get slots; a batten keeps a
top flat and is fixed the same way. Boards hardly move; they want a little play where damp gets in.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ..errors import LegsError
from ..geometry.point import Point
from ..outlines import Outline
from ..panel.build import Kind
from ..panel.materials import Material, material_named
from .foot import Foot
from .wish import Fixing

SWING = 4.0
"""How far moisture swings in a heated room over a year, % (common practice)."""

BOARD_SWELL = 0.003
"""What a board may swell in damp, as a share (common practice)."""

SETTING_OUT = 1.0
"""Added to a slot for what drilling and setting miss, mm (our choice)."""

BATTEN_SHORT = 75.0
"""A batten stops this far from each edge, mm (common practice)."""

GLUE_FIGHTS = 1.0
"""Movement under one rigid joint above this, mm, breaks the joint or the wood (our choice)."""


def width_change(width: float, coefficient: float, moisture: float) -> float:
    """Return how much wider wood becomes, mm, when its moisture rises by `moisture`, %.

    >>> round(width_change(232, 0.00245, 3), 1)
    1.7
    """
    return width * coefficient * moisture


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
class Batten:
    """A strip across the grain underneath.

    Attributes
    ----------
    length : float
        mm; from `BATTEN_SHORT` inside one edge to the same inside the other.
    slot : float
        Of its outer screws, mm; the middle one is fixed.
    """

    length: float
    slot: float


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
    slots : tuple of Slot
        One for each fixing.
    batten : Batten or None
        Where the top is solid and wide enough to carry one.
    joint : float
        Movement under one leg's rigid joint, mm.
    glue_fights : bool
        Whether the legs are glued and their joints too wide for that.
    """

    across: float = field(metadata={"unit": "rad"})
    width: float
    change: float
    coefficient: float = field(metadata={"unit": ""})
    source: str
    slots: tuple[Slot, ...]
    batten: Batten | None
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


def movement_of(
    outline: Outline, wood: Wood, fixings: Sequence[Point], foot: Foot, fixing: Fixing, screw: float
) -> MovementPlan:
    """Return how the top moves and what its fixings need.

    Parameters
    ----------
    fixings : sequence of Point
        Where the top is fixed, mm from its centre; the one nearest to the middle stays fast.
    foot : Foot
        What a leg's joint covers.
    screw : float
        Diameter of the screws, mm.
    """
    across = wood.grain + math.pi / 2
    way = Point.polar(1.0, across)
    width = outline.support(across) + outline.support(across + math.pi)
    coefficient, share, source = _coefficient(wood)
    solid = not wood.kind.is_board
    joint = (foot.reach(across) + foot.reach(across + math.pi)) * share
    length = width - 2 * BATTEN_SHORT
    outer = (length / 2) * share * 2
    return MovementPlan(
        across,
        width,
        width * share,
        coefficient,
        source,
        _slots(fixings, way, share, screw) if solid else (),
        Batten(length, slot_for(outer, screw)) if solid and length > 2 * BATTEN_SHORT else None,
        joint,
        solid and fixing is Fixing.GLUED and joint > GLUE_FIGHTS,
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
    if wood.kind.is_board:
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
    rows = [round(place.dot(way), 6) for place in fixings]
    fast = min(rows, key=lambda row: (abs(row), row))
    return tuple(
        Slot(place, screw, fixed=True)
        if row == fast
        else Slot(place, slot_for(2 * abs(row - fast) * share, screw), fixed=False)
        for place, row in zip(fixings, rows, strict=True)
    )
