"""The rough line: what the jigsaw follows, and what it turns to dust; and the edges that stay.

It runs parallel to the line that is kept. Where edges of the panel stay, it runs on past them into
the air: the top is thought to bulge out over such an edge, the parallel of that is drawn, and what
lies beyond the edge is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ..geometry import EllipticArc, Line, Path, Point, Region, Segment, union
from ..geometry.intersect import meetings, share_of
from ..geometry.oval_parallels import arcs_along
from ..geometry.parallel import parallel_of_path
from ..geometry.tolerance import CURVE, SAME_POINT
from ..panel.edges import Edge
from ..panel.named_edges import named_edges
from ..top import Top
from ..top.runs import Runs, out_of
from .bench import Bench
from .tools import Stroke

RING = 0.02
"""How near a polygon of the jigsaw's cut follows it, mm: the blade does not keep to that."""

_BULGE, _PAST_EDGE = 100.0, 15.0
"""How far the top is thought to bulge out over an edge that is kept, and a blade runs on past one,
so that a slanting kerf is through everywhere, mm."""


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
    """Return the rough line, parallel to the core line."""
    return _line_outside(bench, rough_allowance(bench))


def rough_allowance(bench: Bench) -> float:
    """Return how far the rough line runs outside the core line, mm: a jigsaw's or a saw's."""
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
    """Return the line so far outside another, mm, but on kept edges, past which cuts run on."""
    bulges = [_bulge(kept) for kept in runs.kept]
    pairs = zip(bulges, runs.cut, strict=True)
    outline = Path(tuple(s for bulge, cut in pairs for s in (*bulge, *cut.segments)))
    middles = [far.parallel(distance).at(0.5) for _, far, _ in bulges]
    chains = _broken(parallel_of_path(outline, distance, CURVE), middles)
    edges = [_longer(edge) for edge in runs.edges]
    ends = [_ends(chain, edges[i], edges[(i + 1) % len(edges)]) for i, chain in enumerate(chains)]
    cuts = [
        chain.part(a.here - past, b.here + past) for chain, (a, b) in zip(chains, ends, strict=True)
    ]
    kept_parts = [
        edge.part(*sorted((ends[i - 1][1].there, ends[i][0].there))) for i, edge in enumerate(edges)
    ]
    parts = [path for pair in zip(kept_parts, cuts, strict=True) for path in pair]
    return RoughLine(_joined(parts), tuple(cuts), tuple(kept_parts))


class _Met(NamedTuple):
    """Where a chain meets an edge: how far along each, mm."""

    here: float
    there: float


def _bulge(kept: Path) -> tuple[Line, Line, Line]:
    start, end = kept.segments[0].start, kept.segments[-1].end
    out = out_of(kept) * _BULGE
    return Line(start, start + out), Line(start + out, end + out), Line(end + out, end)


def _broken(path: Path, places: Sequence[Point]) -> list[Path]:
    """Return a closed path in pieces, each from the middle of one segment to that of another."""
    lengths, at = [segment.length for segment in path.segments], []
    for place in places:
        off = [segment.at(0.5).distance_to(place) for segment in path.segments]
        k = off.index(min(off))
        at.append(sum(lengths[:k]) + lengths[k] / 2)
    twice = Path((*path.segments, *path.segments))
    return [
        twice.part(start, end if end > start else end + path.length)
        for start, end in zip(at, [*at[1:], at[0]], strict=True)
    ]


def _ends(chain: Path, before: Path, after: Path) -> tuple[_Met, _Met]:
    """Return where a chain comes into the wood over one edge and leaves it over the next."""
    half = chain.length / 2
    entries = (met for met in _meetings(chain, before) if met.here <= half)
    exits = (met for met in _meetings(chain, after) if met.here > half)
    entry = max(entries, default=_Met(0.0, before.length))
    return entry, min(exits, default=_Met(chain.length, 0.0))


def _meetings(chain: Path, edge: Path) -> list[_Met]:
    found, here = [], 0.0
    for one in chain.segments:
        box, there = one.bounds.grown(SAME_POINT), 0.0
        for other in edge.segments:
            if min(box.shared(other.bounds)) >= 0:
                assert not isinstance(one, EllipticArc)
                assert not isinstance(other, EllipticArc)
                for at in meetings(one, other):
                    ways = share_of(one, at) * one.length, share_of(other, at) * other.length
                    found.append(_Met(here + ways[0], there + ways[1]))
            there += other.length
        here += one.length
    return found


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


@dataclass(frozen=True, slots=True)
class KeptEdge:
    """A part of the finished edge that is the panel's own."""

    name: str
    """By the letters of its corners: ``AB``."""
    stretch: Path
    """Of the finish line, on the panel, the wood on its left."""
    edge: Path
    """The panel's edge there, as far as the rough line; a straight one may stand a little proud."""
    live: bool
    """Whether it is neither straight nor one even bow."""


def kept_edges(top: Top, rough: Sequence[Path]) -> tuple[KeptEdge, ...]:
    """Return the parts that are kept, by name, with the panel's edge to the rough line."""
    runs = top.runs
    names = {held.path: held.name for held in named_edges(top.panel)} if runs.kept else {}
    return tuple(
        KeptEdge(names.get(edge, ""), path, piece, live=not Edge(edge.segments).is_clean)
        for path, edge, piece in zip(runs.kept, runs.edges, rough, strict=True)
    )
