"""How much a solid top moves across its grain, how its fixings let it, and what keeps it flat.

ΔD = D·C·ΔM (*Wood Handbook* (2010), eq. 13-2): width, coefficient of the species, change of
moisture. Of the fixings that something rigid joins – the screws of one plate, of a trestle, of all
legs under an apron – one row across the grain stays fast and the others get slots. Boards and
framed doors hardly move; they want a little play where damp gets in.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from ..geometry import ORIGIN, Bounds, Path, Placement, Point, Region, at_least, first_of_best
from ..geometry.intersect import way_out
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SIZE_SLACK
from ..panel import SoundWood
from ..panel.build import Kind
from ..panel.materials import MATERIALS
from ..top import Top
from .foot import Foot

SWING, BOARD_SWELL = 4.0, 0.003
"""How far moisture swings in a heated room over a year, %, and what a board may swell in damp, as a
share (common practice)."""

SETTING_OUT = 1.0
"""Added to a slot for what drilling and setting miss, mm (our choice)."""

METAL_LEFT = 1.0
"""A slot leaves so many diameters of its screw between itself and the edge of its plate: its end's
middle lies 1.5 of them inside (*EN 1993-1-8*, table 3.3, from memory)."""

GLUE_FIGHTS = 1.0
"""Movement under one rigid joint above this, mm, breaks the joint or the wood (our choice)."""

SIZE, SHORT = (60.0, 20.0), 75.0
"""Width and thickness of a batten, and how far it stops from each edge, mm (common practice)."""

APART, LEAST = 900.0, 150.0
"""A top longer along its grain than two of the first gets a third batten, and so on; one shorter
than the second keeps nothing flat, mm (our choice)."""

BESIDE, AROUND_SCREW = 20.0, 15.0
"""Kept between a batten and a leg or its plate; sound wood wanted round its screws, mm (ours)."""

_STEP = 10.0
"""By how much it is moved at a time, mm."""


@dataclass(frozen=True, slots=True)
class Slot:
    """How one fixing lets the top move."""

    place: Point
    """mm from the centre of the top."""
    length: float
    """Of its slot across the grain, mm; the screw's own diameter where it is fixed."""
    fixed: bool
    left: float | None = None
    """Metal from it to the edge of its plate, mm; below 0 where it runs out, None without one."""


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
    inside: tuple[float, float] | None = None
    """How far in from its ends and its sides a plate has its holes, mm; None without one."""


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
    solid, wood = top.panel.build.kind is Kind.SOLID, top.panel.substance.movement
    share = coefficient = BOARD_SWELL
    source = "common practice: what a board may swell in damp"
    if solid:
        known = wood or MATERIALS["solid wood"].movement
        assert known is not None  # it is in the table
        source = known.source if wood else "not known for this wood: as oak"
        coefficient = known.radial if quartered else known.tangential
        share = coefficient * swing
    joint = 2 * held.foot.reach(across) * share
    slots = (slot for group in held.groups for slot in _slots(group, way, share, held))
    moves = (across, width, width * share, coefficient, source, solid)
    fights = solid and held.glued and joint > GLUE_FIGHTS
    return MovementPlan(*moves, tuple(slots) if solid else (), joint, fights)


def slot_for(movement: float, screw: float) -> float:
    """Return the length of a slot, mm: the screw, its movement both ways, and what setting misses.

    >>> slot_for(4.5, 5.0), slot_for(9.5, 5.0)
    (11.0, 17.0)
    """
    return screw + 2 * math.ceil((movement + SETTING_OUT) / 2 - 1e-9)


def _slots(fixings: Sequence[Point], way: Point, share: float, held: Held) -> Iterator[Slot]:
    """Yield a slot for each fixing; whichever lies nearest to the middle across stays fast."""
    if not fixings:
        return
    rows = [place.dot(way) for place in fixings]
    fast = first_of_best(rows, lambda row: -abs(row), lambda row: (row,), tolerance=SAME_PLACE)
    for place, row in zip(fixings, rows, strict=True):
        off = abs(row - fast)
        fixed = off <= SAME_PLACE
        length = held.screw if fixed else slot_for(2 * off * share, held.screw)
        left = None
        if held.inside is not None:
            x, y = (abs(part) * (length - held.screw) / 2 + held.screw / 2 for part in way)
            left = min(held.inside[0] - x, held.inside[1] - y)
        yield Slot(place, length, fixed, left)


@dataclass(frozen=True, slots=True)
class Batten:
    """A strip across the grain underneath, not glued."""

    middle: Point
    """mm from the centre of the top."""
    length: float
    width: float
    thickness: float
    """mm; it stops `SHORT` inside the edge."""
    slot: float
    """Length of the slots of its outer screws across the grain, mm; its middle screw is fixed."""
    screws: tuple[Point, Point, Point]
    """Its middle screw and its outer ones, mm from the centre of the top."""
    print: Path


def battens_under(
    top: Top,
    bearing: SoundWood,
    movement: MovementPlan,
    heads: Sequence[Path],
    screw: float,
    apron: Region | None = None,
) -> tuple[Batten, ...]:
    """Return the battens of a solid top; none for board, which stays flat without.

    They lie evenly along the grain, each moved as little as clears legs and spoilt wood. Their
    slots take what the whole top moves, which errs on the long side. `heads` is what the legs and
    their plates cover, and `apron` what its rails leave free between them, in the frame of the top.
    """
    if not movement.solid or (apron is not None and apron.is_empty):
        return ()
    outline, placement = top.outline, top.placement
    along = Point.polar(1.0, movement.across - math.pi / 2)
    reach = outline.support(along.angle) + outline.support(along.angle + math.pi)
    count = max(2, math.ceil((reach - SIZE_SLACK) / APART))
    steps = math.floor(max(reach / (2 * count) - SIZE[0], 0.0) / _STEP + ROUNDING)
    slot = slot_for(movement.change, screw)
    taken = [Region.of(head, "outside").grown(BESIDE) for head in heads]
    ends = [(outline.path(), SHORT)]
    if apron is not None:
        ends.append((Path.through_ring(apron.exterior), BESIDE))

    def fits(batten: Batten) -> bool:
        own = Region.of(batten.print)
        holes = (Region.disk(placement(s), AROUND_SCREW, around=True) for s in batten.screws)
        return not any(own.touches_or_crosses(head) for head in taken) and all(
            bearing.inner.holds(hole) for hole in holes
        )

    found = []
    for k in range(count):
        wanted = reach * ((k + 0.5) / count - 0.5)
        inwards = -math.copysign(_STEP, wanted)
        offsets = [0.0, *(by for n in range(1, steps + 1) for by in (n * inwards, -n * inwards))]
        tried = (_at(ends, along, wanted + off, slot) for off in offsets)
        best = next((batten for batten in tried if batten is not None and fits(batten)), None)
        if best is not None:
            found.append(replace(best, print=best.print.placed(placement)))
    return tuple(found)


def _at(
    ends: Sequence[tuple[Path, float]], along: Point, offset: float, slot: float
) -> Batten | None:
    """Return the batten, in the frame of the top, so far along the grain; None if short."""
    base, across = along * offset, along.left
    edges = [base + along * (side * SIZE[0] / 2) for side in (-1, 1)]
    sides = [
        [way_out(line, edge, way) - short for line, short in ends for edge in edges]
        for way in (across, -across)
    ]
    up, down = map(min, sides)
    if not (math.isfinite(sum(map(sum, sides))) and at_least(up + down, LEAST)):
        return None  # an edge of it lies outside the top, or it is short
    middle, half = base + across * ((up - down) / 2), (up + down) / 2
    outer = across * (half - SIZE[0] / 2)
    box = Path.round_box(Bounds.about(ORIGIN, SIZE[0] / 2, half))
    screws, covered = (middle, middle + -outer, middle + outer), Placement(middle, along.angle)
    return Batten(middle, up + down, *SIZE, slot, screws, box.placed(covered))
