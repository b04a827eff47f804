"""What is the same for every straight cut: its ends as a maker finds them, depths, what falls off.

An end is where the line meets an edge of the wood, found with a tape.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from ..geometry import Path, Point, Region
from ..geometry.alike import at_most, first_of_best
from ..geometry.intersect import crossings
from ..geometry.tolerance import CHORD, ROUNDING, SAME_PLACE, SAME_POINT
from ..panel.datum import Datum
from ..panel.edges import STRAIGHT, Edge, edges_of
from ..panel.panel import Panel
from ..panel.reference import Reference
from .bench import Bench
from .cut import EdgePoint, Guide, StraightCut, Trim
from .strips import SawLine, Strip, extent_of


def edge_points(
    panel: Panel, datum: Datum, at: Point, way: Point
) -> tuple[EdgePoint, EdgePoint] | None:
    """Return where the line through `at` along `way` enters and leaves the panel.

    None where it misses the panel.
    """
    found = crossings(panel.boundary, at, way)
    if len(found) < 2:
        return None
    return (
        edge_point(panel, datum, found[0].point),
        edge_point(panel, datum, found[-1].point),
    )


def edge_point(panel: Panel, datum: Datum, point: Point) -> EdgePoint:
    """Return a place by its offsets, and from the nearer corner where it lies on an edge."""
    offsets = datum.coordinates(point)
    edges = edges_of(panel.boundary)
    held = [r for edge in edges if _lies_on(point, edge) for r in _references_on(edge, datum)]
    if not held:
        return EdgePoint(point, offsets.along, offsets.square)
    nearest = first_of_best(held, lambda r: -r.point.distance_to(point), tolerance=SAME_PLACE)
    distance = nearest.point.distance_to(point)
    return EdgePoint(point, offsets.along, offsets.square, nearest.name, distance)


def _lies_on(point: Point, edge: Edge) -> bool:
    """Return whether a point of the boundary belongs to an edge: a square line meets it there."""
    across = edge.direction.left
    found = crossings(Path(edge.segments), point, across)
    return any(abs(crossing.reach) <= 10 * SAME_POINT for crossing in found)


def _references_on(edge: Edge, datum: Datum) -> Iterator[Reference]:
    """Yield the reference points at the ends of an edge, or struck on it."""
    for reference in datum.references:
        ends = (edge.start, edge.end)
        at_end = any(reference.point.distance_to(p) <= 10 * SAME_POINT for p in ends)
        off = abs(edge.direction.cross(reference.point - edge.start))
        if at_end or (not datum.struck and reference.name in "PQ" and off <= STRAIGHT):
            yield reference


ONE_PASS = 50.0
"""A saw set deeper than this cuts in two passes, mm (common practice)."""

THIN_WALL = 20.0
"""Wood beside a hole that is thinner than this breaks when its piece falls, mm (our choice)."""

Ends = tuple[EdgePoint, EdgePoint]


@dataclass(frozen=True, slots=True)
class Sawn:
    """A saw line and what is there when it is sawn."""

    line: SawLine
    wood: Region
    """What is left by then."""
    strip: Strip
    """How wide the wood beyond the line is."""
    allowance: float
    """From the line that is kept to the saw line, mm."""
    thickness: float
    """Of the wood by then, mm."""
    ends: Ends
    """Of the saw line, the kept wood on its left, show face up."""
    falls: bool = True
    """Whether something falls off."""


def fields_of(bench: Bench, sawn: Sawn, label: str) -> dict[str, Any]:
    """Return the fields of a straight cut but for its guide."""
    tools, line, wood = bench.tools, sawn.line, sawn.wood
    extent, depth = extent_of(wood), sawn.thickness + tools.below
    fallen = wood.meet(line.moved(tools.kerf).beyond(extent)).pieces if sawn.falls else ()
    strip = sawn.strip
    heaviest = max((piece.area for piece in fallen), default=0.0)
    keeps_left = pushed_left(bench, line)
    start, end = sawn.ends if keeps_left else sawn.ends[::-1]
    spans = wood.chord(*line.ends(extent))
    if not keeps_left:
        spans = tuple((b, a) for a, b in reversed(spans))
    half = math.ceil(depth / 2 - ROUNDING)
    return {
        "label": label,
        "start": start,
        "end": end,
        "waste": line.waste,
        "allowance": sawn.allowance,
        "kerf": tools.kerf,
        "depths": (depth,) if at_most(depth, ONE_PASS) else (half, depth),
        "narrowest": max(0.0, strip.narrowest - tools.kerf),
        "widest": strip.widest - tools.kerf,
        "fallen": fallen,
        "heaviest": bench.top.panel.substance.mass(heaviest, sawn.thickness),
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


def guide_of(
    bench: Bench, line: SawLine, ends_of: Callable[[SawLine], Ends | None]
) -> Guide | None:
    """Return the guide of a line; None where it has none.

    Parameters
    ----------
    ends_of : callable
        Where a line enters and leaves the wood, in the order of its own way.
    """
    keeps_left = pushed_left(bench, line)
    offset, side = bench.guide(keeps_left=keeps_left)
    ends = None if offset is None else ends_of(line.moved(-offset))
    if offset is None or ends is None:
        return None
    return Guide(offset, side, *(ends if keeps_left else ends[::-1]))


def pushed_left(bench: Bench, line: SawLine) -> bool:
    """Return whether a saw is pushed with the kept wood on its left, seen show face up.

    A cut that stops at a hollow corner starts at the edge: no blade is let into the wood there.
    """
    low, high = line.reach
    return math.isfinite(high) if math.isfinite(low) or math.isfinite(high) else bench.keeps_left


def _wall(bench: Bench, line: SawLine, fallen: tuple[Region, ...]) -> float | None:
    """Return the thinnest wood beside a cut-out in what falls off, mm, where it is thin."""
    walls = list(_walls(bench, line, fallen))
    return min(walls, default=None)


def _walls(bench: Bench, line: SawLine, fallen: tuple[Region, ...]) -> Iterator[float]:
    for hole in bench.top.panel.cut_outs:
        edge = [*map(Point.of, hole.points(CHORD))]
        off = [(p - line.at).dot(line.waste) - bench.tools.kerf for p in edge]
        nearest = min(off)
        beside = (p for p, wall in zip(edge, off, strict=True) if wall <= nearest + SAME_PLACE)
        if SAME_PLACE < nearest < THIN_WALL and any(
            piece.edge_distance(p) <= SAME_PLACE for p in beside for piece in fallen
        ):
            yield nearest
