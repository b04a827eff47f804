"""The rough line: what the jigsaw follows, and what it turns to dust.

It runs parallel to the line that is kept. Where edges of the panel stay, it runs on past them into
the air: the top is thought to bulge out over such an edge, the parallel of that is drawn, and what
lies beyond the edge is left out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..geometry.ellipse import arcs_along
from ..geometry.intersect import meetings, share_of
from ..geometry.parallel import parallel_of_path
from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region, union
from ..geometry.segments import EllipticArc, Line, Segment
from ..geometry.tolerance import CURVE, SAME_POINT
from ..top.runs import Runs
from .bench import Bench
from .tools import Stroke

RING = 0.02
"""How near a polygon of the jigsaw's cut follows it, mm: the blade does not keep to that."""

_BULGE = 100.0
"""How far the top is thought to bulge out over an edge that is kept, mm."""

_PAST_EDGE = 15.0
"""A blade runs on past the edge of the wood, mm: a slanting kerf is then through everywhere."""


@dataclass(frozen=True, slots=True)
class RoughLine:
    """The rough line on the panel."""

    closed: Path
    """All round, along the panel's own edge where that is kept."""
    cut: tuple[Path, ...]
    """What of it is sawn."""
    kept: tuple[Path, ...] = ()
    """What of it is the panel's edge."""


def rough_line(bench: Bench) -> RoughLine:
    """Return the rough line: parallel to the core line at the jigsaw's allowance.

    A top whose cut edges are all straight is sawn at the saw's allowance instead.
    """
    return _line_outside(bench, rough_allowance(bench))


def rough_allowance(bench: Bench) -> float:
    """Return how far the rough line runs outside the core line, mm."""
    return bench.left_by(Stroke.SIDE if bench.top.runs.is_straight else Stroke.CURVE)


def rough_region(bench: Bench) -> Region:
    """Return what lies within the rough line, as a polygon that holds it."""
    return Region.of(rough_line(bench).closed, "outside", RING)


def jigsaw_kerf(bench: Bench) -> Region:
    """Return what the jigsaw turns to dust: a ring outside the rough line, open at kept edges."""
    kerf, allowance = bench.tools.jigsaw_kerf, rough_allowance(bench)
    if not bench.top.runs.kept:
        around = bench.top.line(allowance - bench.top.lipping + kerf)
        return Region.of(around, "outside", RING).minus(rough_region(bench))
    middle = _line_outside(bench, allowance + kerf / 2, _PAST_EDGE)
    bands = [Region.along(p.points(RING), kerf / 2, around=False) for p in middle.cut]
    return union(bands)


def _line_outside(bench: Bench, distance: float, past: float = 0.0) -> RoughLine:
    """Return the line so far outside the core; `past` lets what is cut run on past kept edges."""
    if bench.top.runs.kept:
        return beside_runs(bench.top.runs, distance, past)
    closed = bench.top.line(distance - bench.top.lipping)
    return RoughLine(closed, (closed,))


def beside_runs(runs: Runs, distance: float, past: float = 0.0) -> RoughLine:
    """Return the line `distance`, mm, outside a line (inside, where negative), but on kept edges.

    Parameters
    ----------
    runs : Runs
        With at least one edge that is kept.
    past : float
        How far what is cut runs on past those, mm.
    """
    middles = []
    segments: list[Segment] = []
    for kept, cut in zip(runs.kept, runs.cut, strict=True):
        bulge = _bulge(kept)
        middles.append(bulge[1].at(0.5) + _right(bulge[1]) * distance)
        segments += [*bulge, *cut.segments]
    round_it = parallel_of_path(Path(tuple(segments)), distance, CURVE)
    chains = _broken(round_it, middles)
    edges = [_longer(edge) for edge in runs.edges]
    ends = [_ends(chain, edges[i], edges[(i + 1) % len(edges)]) for i, chain in enumerate(chains)]
    cuts = [
        _part(chain, _back(chain, a.here, past), _on(chain, b.here, past))
        for chain, (a, b) in zip(chains, ends, strict=True)
    ]
    kept_parts = [_along(edges[i], ends[i - 1][1], ends[i][0]) for i in range(len(edges))]
    parts = [path for pair in zip(kept_parts, cuts, strict=True) for path in pair]
    return RoughLine(_joined(parts), tuple(cuts), tuple(kept_parts))


@dataclass(frozen=True, slots=True)
class _Met:
    """Where a chain meets an edge: how many segments along each, with the share of the last."""

    here: float
    there: float


def _bulge(kept: Path) -> tuple[Line, Line, Line]:
    start, end = kept.segments[0].start, kept.segments[-1].end
    out = -(end - start).unit().left * _BULGE
    corners = (start, start + out, end + out, end)
    first, far, last = (Line(a, b) for a, b in pairwise(corners))
    return first, far, last


def _right(line: Line) -> Point:
    return -line.direction.left


def _broken(path: Path, places: Sequence[Point]) -> list[Path]:
    """Return a closed path in pieces, each from one of the places on it to the next."""
    at = [_position(path, place) for place in places]
    twice = Path((*path.segments, *path.segments))
    count = len(path.segments)
    following = [*at[1:], at[0]]
    return [
        _part(twice, start, end if end > start else end + count)
        for start, end in zip(at, following, strict=True)
    ]


def _position(path: Path, place: Point) -> float:
    """Return where a point lies on a straight part of a path."""
    best = (math.inf, 0.0)
    for i, line in enumerate(path.segments):
        if isinstance(line, Line):
            share = min(max(share_of(line, place), 0.0), 1.0)
            best = min(best, (line.at(share).distance_to(place), i + share))
    return best[1]


def _part(path: Path, first: float, last: float) -> Path:
    """Return what of a path lies between two positions."""
    kept = []
    for i in range(math.floor(first), min(math.ceil(last), len(path.segments))):
        low, high = max(first - i, 0.0), min(last - i, 1.0)
        segment = path.segments[i]
        whole = low <= 0.0 and high >= 1.0
        if (high - low) * segment.length > SAME_POINT:
            kept.append(segment if whole else segment.part(low, high))
    return Path(tuple(kept))


def _ends(chain: Path, before: Path, after: Path) -> tuple[_Met, _Met]:
    """Return where a chain comes into the wood over one edge and leaves it over the next."""
    half = _half_way(chain)
    entries = [met for met in _meetings(chain, before) if met.here <= half]
    exits = [met for met in _meetings(chain, after) if met.here > half]
    count, length = len(chain.segments), len(before.segments)
    entry = max(entries, key=lambda met: met.here, default=_Met(0.0, float(length)))
    return entry, min(exits, key=lambda met: met.here, default=_Met(float(count), 0.0))


def _half_way(path: Path) -> float:
    return _on(path, 0.0, path.length / 2)


def _meetings(chain: Path, edge: Path) -> list[_Met]:
    found = []
    for i, one in enumerate(chain.segments):
        box = one.bounds.grown(SAME_POINT)
        for k, other in enumerate(edge.segments):
            if min(box.shared(other.bounds)) < 0:
                continue
            assert not isinstance(one, EllipticArc)
            assert not isinstance(other, EllipticArc)
            found += [
                _Met(i + share_of(one, at), k + share_of(other, at)) for at in meetings(one, other)
            ]
    return found


def _on(path: Path, position: float, by: float) -> float:
    """Return the position `by`, mm, farther along a path, at most its end."""
    i = min(math.floor(position), len(path.segments) - 1)
    share = position - i
    while i < len(path.segments):
        left = path.segments[i].length * (1 - share)
        if by <= left:
            return i + share + by / path.segments[i].length
        by, share, i = by - left, 0.0, i + 1
    return float(len(path.segments))


def _back(path: Path, position: float, by: float) -> float:
    """Return the position `by`, mm, before another one, at least the start."""
    count = len(path.segments)
    return count - _on(path.reversed(), count - position, by)


def _along(edge: Path, start: _Met, end: _Met) -> Path:
    """Return the part of an edge from where a chain left the wood to where the next one enters."""
    return _part(edge, min(start.there, end.there), max(start.there, end.there))


def _joined(parts: Sequence[Path]) -> Path:
    """Return the closed path of parts, with a straight step where one does not end at the next."""
    segments: list[Segment] = []
    for part, following in zip(parts, [*parts[1:], parts[0]], strict=True):
        segments += part.segments
        end, start = part.segments[-1].end, following.segments[0].start
        if end.distance_to(start) > SAME_POINT:
            segments.append(Line(end, start))
    return Path(tuple(segments))


def _longer(edge: Path) -> Path:
    """Return an edge as lines and arcs, run on straight past both ends."""
    pieces: list[Segment] = []
    for segment in edge.segments:
        pieces += arcs_along(segment, CURVE) if isinstance(segment, EllipticArc) else (segment,)
    first, last = pieces[0], pieces[-1]
    back = Line(first.start - first.pace(0.0).unit() * _BULGE, first.start)
    on = Line(last.end, last.end + last.pace(1.0).unit() * _BULGE)
    return Path((back, *pieces, on))
