"""A path: segments end to end, open or closed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from itertools import pairwise
from typing import Self

import numpy as np

from ..errors import GeometryError
from .bounds import Bounds
from .placement import Placement, Points, array_of
from .point import Point
from .segments import Arc, EllipticArc, Line, Segment
from .stepping import Side, corners_of
from .tolerance import SAME_POINT


@dataclass(frozen=True, slots=True)
class Path:
    """Exact segments, each starting where the one before it ends.

    A closed path that bounds something runs anticlockwise, so that outside lies to its right.
    Raises a GeometryError if there is no segment, or two neighbours do not meet.
    """

    segments: tuple[Segment, ...]
    """At least one."""

    def __post_init__(self) -> None:
        if not self.segments:
            raise GeometryError("a path needs at least one segment")
        for one, other in pairwise(self.segments):
            gap = one.end.distance_to(other.start)
            if gap > SAME_POINT:
                raise GeometryError(
                    f"a path breaks off at {one.end}: the next segment is {gap:g} mm away"
                )

    @classmethod
    def through(cls, points: Iterable[Point], *, closed: bool = False) -> Path:
        """Return the straight-sided path through the points."""
        held = list(points)
        if closed:
            held += held[:1]
        return cls(tuple(Line(a, b) for a, b in pairwise(held)))

    @classmethod
    def through_ring(cls, ring: Points) -> Path:
        """Return the closed straight-sided path through the points of a ring, (n, 2) mm."""
        return cls.through(map(Point.of, ring), closed=True)

    @classmethod
    def round_box(cls, box: Bounds) -> Path:
        """Return the edge of an upright box, anticlockwise from its lower left."""
        return cls.through(box.corners, closed=True)

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.segments[-1].end

    @property
    def is_closed(self) -> bool:
        """Whether it ends where it starts."""
        return self.end.distance_to(self.start) <= SAME_POINT

    @property
    def length(self) -> float:
        """The length along it."""
        return sum(segment.length for segment in self.segments)

    @property
    def area(self) -> float:
        """The area that a closed path bounds; negative where it runs clockwise."""
        return sum(segment.swept_area for segment in self.segments)

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        return reduce(Bounds.joined, (segment.bounds for segment in self.segments))

    def reversed(self) -> Self:
        """Return the same path run the other way."""
        return replace(self, segments=tuple(s.reversed() for s in reversed(self.segments)))

    def placed(self, placement: Placement) -> Path:
        """Return the path moved and turned."""
        return Path(tuple(segment.placed(placement) for segment in self.segments))

    def scaled(self, factor: float) -> Path:
        """Return the path scaled about the origin by a positive factor."""
        return Path(tuple(segment.scaled(factor) for segment in self.segments))

    def mirrored(self) -> Path:
        """Return the path with left and right swapped; a boundary still runs anticlockwise."""
        return Path(tuple(segment.mirrored() for segment in self.segments)).reversed()

    def without(self, others: Iterable[Path]) -> tuple[Path, ...]:
        """Return what is left when the segments of others, wherever they are the same, are dropped.

        Of a closed path that comes first which holds its last segment.

        >>> from .point import Point
        >>> box = Path.through((Point(0, 0), Point(2, 0), Point(2, 1), Point(0, 1)), closed=True)
        >>> [part.length for part in box.without([Path(box.segments[1:2])])]
        [5.0]
        """
        dropped = {segment for other in others for segment in other.segments}
        left = self.runs(lambda segment: segment not in dropped)
        at_end = bool(left) and self.segments[-1] in left[-1].segments
        return (*left[-1:], *left[:-1]) if at_end and self.is_closed else left

    def runs(self, test: Callable[[Segment], bool]) -> tuple[Path, ...]:
        """Return runs of segments that pass a test, in order; on a closed path over its start."""
        runs: list[list[Segment]] = [[]]
        for segment in self.segments:
            if test(segment):
                runs[-1].append(segment)
            else:
                runs.append([])
        if self.is_closed and len(runs) > 1 and runs[-1]:
            runs.append(runs.pop() + runs.pop(0))
        return tuple(Path(tuple(run)) for run in runs if run)

    def broken(self, starts: Sequence[int]) -> tuple[Path, ...]:
        """Return a closed path in pieces, one from each of some segments up to the next."""
        twice, count = self.segments * 2, len(self.segments)
        ends = [*starts[1:], *(start + count for start in starts[:1])]
        return tuple(Path(twice[a:b]) for a, b in zip(starts, ends, strict=True))

    def reached(self, way: float) -> tuple[Segment, float]:
        """Return the segment that lies `way`, mm, along the path, and the share of it there."""
        for segment in self.segments:
            length = segment.length
            if way <= length:
                return segment, _share_after(segment, way / length)
            way -= length
        return self.segments[-1], 1.0

    def at(self, way: float) -> Point:
        """Return the point `way`, mm, along the path; at most its end."""
        segment, share = self.reached(way)
        return segment.at(share)

    def part(self, first: float, last: float) -> Path:
        """Return what of it lies between two places, each so far along it, mm.

        >>> Path.through((Point(0, 0), Point(4, 0), Point(4, 4))).part(3.0, 6.0).length
        3.0
        """
        kept, passed = [], 0.0
        for segment in self.segments:
            length = segment.length
            low, high = max(first - passed, 0.0), min(last - passed, length)
            if high - low > SAME_POINT:
                cut = (_share_after(segment, way / length) for way in (low, high))
                whole = low == 0.0 and high == length
                kept.append(segment if whole else segment.part(*cut))
            passed += length
        return Path(tuple(kept))

    def stations(self, count: int) -> Iterator[tuple[Segment, float]]:
        """Yield places at even steps of a closed path: each segment, and the share of it."""
        step, walked, passed = self.length / count, 0.0, 0
        for segment in self.segments:
            length = segment.length
            while passed < count and passed * step < walked + length - SAME_POINT / 1000:
                yield segment, _share_after(segment, (passed * step - walked) / length)
                passed += 1
            walked += length

    def points(self, tolerance: float, side: Side = "inside") -> Points:
        """Return an (n, 2) array of points along the path, mm.

        No point between two of them lies farther than `tolerance` from the path. For a boundary
        that runs anticlockwise the polygon stays inside it, or outside it, as `side` says. A closed
        path does not repeat its first point; an open one holds its last.
        """
        held = corners_of([segment.swept for segment in self.segments], tolerance, side)
        end = [] if self.is_closed else [array_of([self.end])]
        return np.concatenate([held, *end])


def circle(centre: Point, radius: float) -> Path:
    """Return a whole circle, anticlockwise from its rightmost point, as two half circles."""
    return Path((Arc(centre, radius, 0.0, math.pi), Arc(centre, radius, math.pi, math.pi)))


def four_quarters(quarter: Sequence[Segment]) -> Path:
    """Return the closed path that both axes mirror, from its first quarter: from +x to +y."""
    upper = [*quarter, *(segment.mirrored().reversed() for segment in reversed(quarter))]
    return Path((*upper, *(segment.placed(Placement(turn=math.pi)) for segment in upper)))


def _share_after(segment: Segment, passed: float) -> float:
    """Return the share of a segment at which this share of its length is passed."""
    return segment.share_after(passed) if isinstance(segment, EllipticArc) else passed
