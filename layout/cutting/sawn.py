"""What is the same for every straight cut: its line, its ends, its depths, and what falls off.

An end is where the line meets an edge of the wood, as a maker finds the place with a tape.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from ..geometry import Path, Point, Region, array_of, at_most, first_of_best
from ..geometry.intersect import crossings
from ..geometry.tolerance import CHORD, ROUNDING, SAME_PLACE, SAME_POINT
from ..panel.datum import Datum
from ..panel.edges import STRAIGHT, Edge, Reference, edges_of
from .bench import Bench
from .cut import EdgePoint, Guide, StraightCut, Trim

_STATIONS, _BESIDE = 33, 0.01
"""Places along a cut at which the width of what falls off is measured, and mm before and behind a
corner: square to a line it may be as wide as on either side of it."""


@dataclass(frozen=True, slots=True)
class SawLine:
    """A saw line: a point, the unit vector towards the waste, and how far it is sawn, mm."""

    at: Point
    waste: Point
    reach: tuple[float, float] = (-math.inf, math.inf)

    @property
    def stops(self) -> bool:
        """Whether it ends at a hollow corner, so that nothing falls off yet."""
        return any(map(math.isfinite, self.reach))

    @property
    def way(self) -> Point:
        """The way the saw is pushed with the kept wood on its left."""
        return self.waste.left

    def moved(self, towards_waste: float) -> SawLine:
        """Return the parallel line that lies nearer the waste by so much, mm."""
        return replace(self, at=self.at + self.waste * towards_waste)

    def past(self, point: Point) -> float:
        """Return how far a point lies on the waste side, mm; negative on the kept side."""
        return (point - self.at).dot(self.waste)

    def ends(self, extent: float) -> tuple[Point, Point]:
        """Return where it starts and ends, at most `extent` mm from its point."""
        low, high = (min(max(reach, -extent), extent) for reach in self.reach)
        return self.at + self.way * low, self.at + self.way * high

    def beyond(self, extent: float) -> Region:
        """Return all that lies on the waste side, out to `extent` mm each way."""
        return self.band(extent, extent)

    def band(self, width: float, extent: float) -> Region:
        """Return the strip `width` wide on the waste side, `extent` mm long each way."""
        start, end = self.ends(extent)
        far_start, far_end = self.moved(width).ends(extent)
        corners = (start, far_start, far_end, end)
        return Region.from_rings(array_of(corners))


@dataclass(frozen=True, slots=True)
class Strip:
    """Wood beyond a line: how wide it is at stations along the stretch where it is sawn, mm."""

    widths: tuple[float, ...]
    """At even stations."""
    narrowest: float = 0.0
    widest: float = 0.0
    """The least and the greatest width anywhere along it, mm."""


def extent_of(region: Region) -> float:
    """Return a length that reaches across a region from any point of it, mm."""
    bounds = region.bounds
    return 2 * math.hypot(bounds.width, bounds.height)


def _widest(beyond: Region, line: SawLine, last: Point, extent: float) -> float:
    """Return how far the wood beside a line that hangs together with it reaches, mm."""
    first, out = line.at, line.waste * extent
    beside = beyond.meet(Region.from_rings(array_of((first, first + out, last + out, last))))
    sawn = Region.line(array_of((first, last)))
    held = (piece for piece in beside.pieces if piece.distance_to(sawn) < 1e-3)
    return max((line.past(Point.of(row)) for piece in held for row in piece.exterior), default=0.0)


def strip_beyond(wood: Region, line: SawLine) -> Strip:
    """Return how wide the wood beyond a line is where it runs in wood; not what is past a gap."""
    extent = extent_of(wood)
    beyond = wood.meet(line.beyond(extent))
    spans = wood.chord(*line.ends(extent))
    if beyond.is_empty or not spans:
        return Strip(())
    first, last = spans[0][0], spans[-1][1]
    inset = min(1.0, first.distance_to(last) / 100)
    start, end = first + line.way * inset, last - line.way * inset
    far = start.distance_to(end)

    def width(way: float) -> float:
        foot = start + line.way * way
        out = beyond.chord(foot, foot + line.waste * extent)
        reaches = [(b - foot).dot(line.waste) for a, b in out if a.distance_to(foot) < 1e-3]
        return max(reaches, default=0.0)

    corners = {round((Point.of(c) - start).dot(line.way), 6) for c in beyond.corners}
    beside = (way + side * _BESIDE for way in corners for side in (-1, 0, 1))
    even = tuple(width(far * step / (_STATIONS - 1)) for step in range(_STATIONS))
    narrowest = min((*even, *(width(way) for way in beside if 0 < way < far)))
    return Strip(even, narrowest, _widest(beyond, SawLine(first, line.waste), last, extent))


def edge_point(bench: Bench, point: Point) -> EdgePoint:
    """Return a place by its offsets, and from the nearer corner where it lies on an edge."""
    datum, held = bench.datum, list[Reference]()
    for edge in edges_of(bench.top.panel.boundary):
        # it belongs to an edge where a line square to that meets it
        met = crossings(Path(edge.segments), point, edge.direction.left)
        if any(abs(crossing.reach) <= 10 * SAME_POINT for crossing in met):
            held += _references_on(edge, datum)
    place = EdgePoint.at(point, datum)
    if not held:
        return place
    nearest = first_of_best(held, lambda r: -r.point.distance_to(point), tolerance=SAME_PLACE)
    return replace(place, corner=nearest.name, distance=nearest.point.distance_to(point))


def _references_on(edge: Edge, datum: Datum) -> Iterator[Reference]:
    """Yield the reference points at the ends of an edge, or struck on it."""
    for reference in datum.references:
        ends = (edge.start, edge.end)
        at_end = any(reference.point.distance_to(p) <= 10 * SAME_POINT for p in ends)
        off = abs(edge.direction.cross(reference.point - edge.start))
        if at_end or (not datum.struck and reference.name in "PQ" and off <= STRAIGHT):
            yield reference


ONE_PASS, THIN_WALL = 50.0, 20.0
"""A saw set deeper cuts in two passes, mm (common practice); wood beside a hole that is thinner
breaks when its piece falls, mm (our choice)."""

Ends = tuple[EdgePoint, EdgePoint]


@dataclass(frozen=True)
class Sawn:
    """A saw line and what is there when it is sawn."""

    bench: Bench
    line: SawLine
    wood: Region
    """What is left by then."""
    allowance: float
    """From the line that is kept to the saw line, mm."""
    thickness: float
    """Of the wood by then, mm."""
    in_blank: bool = False
    """Whether its ends are those in what is left, and not on the edges of the panel."""

    @cached_property
    def strip(self) -> Strip:
        """How wide the wood beyond the line is."""
        return strip_beyond(self.wood, self.line)

    @property
    def off(self) -> float:
        """The most that falls off beside the kerf, mm."""
        return self.strip.widest - self.bench.tools.kerf

    @cached_property
    def spans(self) -> tuple[tuple[Point, Point], ...]:
        """The stretches on which the saw is in wood, the kept wood on its left."""
        return self.wood.chord(*self.line.ends(extent_of(self.wood)))

    @property
    def crossed(self) -> tuple[str, ...]:
        """The names of what no blade may cross and this cut would."""
        kerf = self.line.band(self.bench.tools.kerf, extent_of(self.wood)).meet(self.wood)
        return tuple(defect.name for defect in self.bench.top.panel.crossed_by(kerf))

    @property
    def left(self) -> Region:
        """What it leaves: where it stops, nothing but its kerf is gone."""
        extent, line = extent_of(self.wood), self.line
        gone = line.band(self.bench.tools.kerf, extent) if line.stops else line.beyond(extent)
        return self.wood.minus(gone)

    def ends(self, line: SawLine) -> Ends | None:
        """Return where a line enters and leaves the wood, or stops; None where it misses it."""
        if self.in_blank:
            found = [p for span in self.wood.chord(*line.ends(extent_of(self.wood))) for p in span]
        else:
            met = crossings(self.bench.top.panel.boundary, line.at, line.way)
            found = [crossing.point for crossing in met]
        if len(found) < 2:
            return None
        return edge_point(self.bench, found[0]), edge_point(self.bench, found[-1])

    @property
    def keeps_left(self) -> bool:
        """Whether the kept wood lies left of the saw: no blade is let in at a hollow corner."""
        stops, end = self.line.stops, self.line.reach[1]
        return math.isfinite(end) if stops else self.bench.keeps_left

    @property
    def guide(self) -> Guide | None:
        """Where its straightedge stands; None where the saw is not measured, or without wood."""
        offset, side = self.bench.guide(keeps_left=self.keeps_left)
        if offset is not None and (ends := self.ends(self.line.moved(-offset))):
            return Guide(offset, side, *(ends if self.keeps_left else ends[::-1]))
        return None

    def fields(self, label: str) -> dict[str, Any]:
        """Return the fields of a straight cut but for its guide."""
        bench, line, kerf = self.bench, self.line, self.bench.tools.kerf
        depth = self.thickness + bench.tools.below
        half = math.ceil(depth / 2 - ROUNDING)
        beyond = self.wood.meet(line.moved(kerf).beyond(extent_of(self.wood)))
        fallen = () if line.stops else beyond.pieces
        heaviest = max((piece.area for piece in fallen), default=0.0)
        ends, spans = self.ends(line), self.spans
        assert ends is not None  # there is wood on both sides of the line
        stopped = [
            EdgePoint.at(line.at + line.way * reach, bench.datum) if math.isfinite(reach) else end
            for reach, end in zip(line.reach, ends, strict=True)
        ]
        if not self.keeps_left:
            stopped.reverse()
            spans = tuple((b, a) for a, b in reversed(spans))
        return {
            "label": label,
            "start": stopped[0],
            "end": stopped[1],
            "waste": line.waste,
            "allowance": self.allowance,
            "kerf": kerf,
            "depths": (depth,) if at_most(depth, ONE_PASS) else (half, depth),
            "narrowest": max(0.0, self.strip.narrowest - kerf),
            "widest": self.off,
            "fallen": fallen,
            "heaviest": bench.top.panel.substance.mass(heaviest, self.thickness),
            "wall": _wall(bench, line, fallen),
            "spans": spans,
        }


def line_of(cut: StraightCut) -> SawLine:
    """Return the line of a straight cut: endless, but where it stops at a hollow corner."""
    start, end = cut.start.point, cut.end.point
    if not isinstance(cut, Trim) or not cut.kind.stops:
        return SawLine(start, cut.waste)
    back = (start - end).dot(cut.waste.left) > 0
    return SawLine(end, cut.waste, (0.0, math.inf) if back else (-math.inf, 0.0))


def _wall(bench: Bench, line: SawLine, fallen: tuple[Region, ...]) -> float | None:
    """Return the thinnest wood beside a cut-out in what falls off, mm, where it is thin."""
    walls, kerf_end = [], line.moved(bench.tools.kerf)
    for hole in bench.top.panel.cut_outs:
        off = {p: kerf_end.past(p) for p in map(Point.of, hole.points(CHORD))}
        nearest = min(off.values())
        beside = (p for p, wall in off.items() if wall <= nearest + SAME_PLACE)
        if SAME_PLACE < nearest < THIN_WALL and any(
            piece.edge_distance(p) <= SAME_PLACE for p in beside for piece in fallen
        ):
            walls.append(nearest)
    return min(walls, default=None)
