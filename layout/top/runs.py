"""The line of a top in parts: what of it is cut, and what lies on edges of the panel that stay.

The line that is cut is broken where the panel's own edge takes over. A live edge is the line itself
there; a straight factory edge may stand a little proud of it, for no edge is dead straight.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry.path import Path
from ..geometry.placement import Points
from ..geometry.point import Point
from ..geometry.segments import Line, Segment
from ..geometry.tolerance import CHORD
from ..panel.edges import STRAIGHT, Edge

_ON_IT = 0.1
"""A line that lies no farther from an edge than this is that edge, mm: proofs take less off."""

_PROUD = 2 * STRAIGHT + _ON_IT
"""A straight edge stands at most so far off the straight side that lies on it, mm: it may bow both
ways."""

_ALONG = math.cos(math.radians(30))
"""A part of the line that turns farther from an edge does not lie on it."""

MOST_SIDES = 16
"""An outline of more straight sides than this is a curve drawn by points (our choice)."""

_FACING = math.cos(math.radians(45))

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True, slots=True)
class Runs:
    """A closed line in parts that are kept and parts that are cut, in turn and anticlockwise.

    Attributes
    ----------
    kept : tuple of Path
        ``kept[i]`` comes before ``cut[i]``; empty where all of the line is cut.
    cut : tuple of Path
    edges : tuple of Path
        The panel's edge that each kept part lies on, the wood on its left.
    """

    kept: tuple[Path, ...]
    cut: tuple[Path, ...]
    edges: tuple[Path, ...]

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All that is cut."""
        return tuple(segment for path in self.cut for segment in path.segments)

    @property
    def is_straight(self) -> bool:
        """Whether all that is cut is straight, in no more sides than a saw goes round."""
        segments = self.segments
        return len(segments) <= MOST_SIDES and all(isinstance(s, Line) for s in segments)

    def keeps(self, outwards: Point) -> bool:
        """Return whether a kept part faces that way, within 45°."""
        return any(_outwards(path).dot(outwards) > _FACING for path in self.kept)


def runs_of(line: Path, edges: Sequence[Path]) -> Runs:
    """Return a closed line broken where it lies on edges that are kept."""
    drawn = [(edge.points(CHORD), Edge(edge.segments).is_straight) for edge in edges]
    lies: list[Path | None] = []
    for segment in line.segments:
        on = (
            edge
            for edge, (points, straight) in zip(edges, drawn, strict=True)
            if _lies_on(segment, points, straight=straight)
        )
        lies.append(next(on, None))
    count = len(lies)
    starts = [i for i in range(count) if lies[i] is not None and lies[i] is not lies[i - 1]]
    if not starts:
        return Runs((), (line,), ())
    kept, cut, held = [], [], []
    for which, first in enumerate(starts):
        following = starts[(which + 1) % len(starts)]
        size = (following - first) % count or count
        chain = [(first + k) % count for k in range(size)]
        edge = lies[first]
        assert edge is not None
        kept.append(Path(tuple(line.segments[i] for i in chain if lies[i] is edge)))
        cut.append(Path(tuple(line.segments[i] for i in chain if lies[i] is None)))
        held.append(edge)
    return Runs(tuple(kept), tuple(cut), tuple(held))


def _outwards(path: Path) -> Point:
    return -(path.segments[-1].end - path.segments[0].start).unit().left


def _lies_on(segment: Segment, edge: Points, *, straight: bool) -> bool:
    """Return whether a segment lies on an edge, given as points."""
    near = _PROUD if straight and isinstance(segment, Line) else _ON_IT
    places = np.array([tuple(segment.at(share)) for share in _SHARES])
    ways = np.diff(edge, axis=0)
    squared = np.maximum((ways * ways).sum(axis=1), 1e-18)
    to = places[:, None, :] - edge[None, :-1, :]
    shares = np.clip((to * ways).sum(axis=2) / squared, 0.0, 1.0)
    off = np.hypot(*np.moveaxis(to - shares[:, :, None] * ways, 2, 0))
    if float(off.min(axis=1).max()) > near:
        return False
    nearest = int(off[2].argmin())
    way = Point(float(ways[nearest, 0]), float(ways[nearest, 1])).unit()
    return (segment.end - segment.start).unit().dot(way) > _ALONG
