"""Battens: strips across the grain underneath that keep a solid top flat and let it move."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..geometry import ORIGIN, Bounds, Path, Placement, Point, Region, at_least
from ..geometry.intersect import way_out
from ..geometry.tolerance import ROUNDING, SIZE_SLACK
from ..panel import SoundWood
from ..top import Top
from .movement import MovementPlan, slot_for

SHORT = 75.0
"""A batten stops this far from each edge, mm (common practice)."""

SIZE = (60.0, 20.0)
"""Width and thickness of a batten, mm (common practice)."""

APART = 900.0
"""A top longer along its grain than two of these gets a third batten, and so on, mm (ours)."""

BESIDE = 20.0
"""Kept between a batten and a leg or its plate, mm (our choice)."""

LEAST = 150.0
"""A batten shorter than this keeps nothing flat, mm (our choice)."""

AROUND_SCREW = 15.0
"""Sound wood wanted round each of its screws, mm (our choice)."""

_STEP = 10.0


@dataclass(frozen=True, slots=True)
class Batten:
    """A strip across the grain underneath, not glued."""

    middle: Point
    """mm from the centre of the top."""
    length: float
    """mm; it stops `SHORT` inside the edge."""
    width: float
    thickness: float
    """mm."""
    slot: float
    """Length of the slots of its outer screws across the grain, mm; its middle screw is fixed."""
    screws: tuple[Point, Point, Point]
    """Its middle screw and its outer ones, mm from the centre of the top."""
    print: Path
    """What it covers on the panel."""


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
    slots take what the whole top moves, which errs on the long side. Inside an apron they end short
    of its rails, which go from leg to leg.

    `heads` is what the legs and their plates cover, and `apron` what its rails leave free between
    them, in the frame of the top; `screw` is the diameter of the screws, mm.
    """
    if not movement.solid or (apron is not None and apron.is_empty):
        return ()
    outline, placement = top.outline, top.placement
    along = Point.polar(1.0, movement.across - math.pi / 2)
    reach = outline.support(along.angle) + outline.support(along.angle + math.pi)
    count = max(2, math.ceil((reach - SIZE_SLACK) / APART))
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
        tried = (
            _at(ends, along, wanted + off, slot)
            for off in _offsets(reach / (2 * count) - SIZE[0], inwards=-math.copysign(1.0, wanted))
        )
        best = next((batten for batten in tried if batten is not None and fits(batten)), None)
        if best is not None:
            found.append(replace(best, print=best.print.placed(placement)))
    return tuple(found)


def _offsets(most: float, inwards: float) -> Iterator[float]:
    """Yield even steps up to `most` either way, near ones first, inwards before outwards."""
    yield 0.0
    for k in range(1, math.floor(max(most, 0.0) / _STEP + ROUNDING) + 1):
        yield k * _STEP * inwards
        yield -k * _STEP * inwards


def _at(
    ends: Sequence[tuple[Path, float]], along: Point, offset: float, slot: float
) -> Batten | None:
    """Return the batten at a distance along the grain from the middle; None where it is short.

    It stops so far inside each of some closed lines, mm. Its print is in the frame of the top.
    """
    base, across = along * offset, along.left
    edges = [base + along * (side * SIZE[0] / 2) for side in (-1, 1)]
    sides = [
        [way_out(line, edge, way) - short for line, short in ends for edge in edges]
        for way in (across, -across)
    ]
    up, down = map(min, sides)
    if not (math.isfinite(sum(map(sum, sides))) and at_least(up + down, LEAST)):
        return None  # an edge of it lies outside the top, or it is short
    middle = base + across * ((up - down) / 2)
    half = (up + down) / 2
    outer = across * (half - SIZE[0] / 2)
    box = Bounds.about(ORIGIN, SIZE[0] / 2, half)
    return Batten(
        middle,
        up + down,
        *SIZE,
        slot,
        (middle, middle + -outer, middle + outer),
        Path.round_box(box).placed(Placement(middle, along.angle)),
    )
