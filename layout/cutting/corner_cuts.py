"""Corner cuts: straight cuts off the corners of a blank that halve the work of sawing a curve."""

from __future__ import annotations

import math
from functools import partial

from ..geometry import Point, Region, at_least
from ..geometry.intersect import meeting_of_lines
from ..geometry.tolerance import SAME_PLACE, SIZE_SLACK
from ..units import nearest_whole
from .bench import Bench
from .cut import CornerCut
from .sawn import (
    Ends,
    SawLine,
    Sawn,
    Strip,
    edge_point,
    extent_of,
    fields_of,
    guide_of,
    line_of,
    strip_beyond,
)
from .straight import StraightCuts, crossed
from .tools import Stroke

LEAST_DEEP = 12.0
"""A corner cut that takes off less than this beside its kerf is not worth setting up, mm: about 20
along both edges (common practice)."""

LEAST_RUN = 200.0
"""A shorter cut gives a saw's base no run along a guide, mm: it is made with a handsaw (our choice:
bases are 250 to 300 long)."""


def corner_cuts_of(bench: Bench, cuts: StraightCuts) -> tuple[CornerCut, ...]:
    """Return the corner cuts in order round the top, from the corner nearest the datum's start.

    None where the saw would cross what no blade may cross, or where little stands outside the line:
    the jigsaw goes round there anyway.
    """
    blank = cuts.blank
    made: list[CornerCut] = []
    if bench.top.runs.is_straight:
        return ()
    for corner in _corners(bench):
        line = _line(bench, corner)
        strip = strip_beyond(blank, line)
        enough = at_least(strip.widest - bench.tools.kerf, LEAST_DEEP, SIZE_SLACK)
        if not enough or crossed(bench, line, blank):
            continue
        made.append(_cut(cuts, (line, strip, blank), len(made) + 1))
        blank = blank.minus(line.beyond(extent_of(blank)))
    return tuple(made)


def _corners(bench: Bench) -> list[Point]:
    """Return the signs of the four corners in the own frame, from the one nearest the datum."""
    around = [Point(-1, -1), Point(1, -1), Point(1, 1), Point(-1, 1)]
    quarters = nearest_whole((bench.turn - bench.datum.frame.turn) / (math.pi / 2)) % 4
    return [around[(i - quarters) % 4] for i in range(4)]


def _line(bench: Bench, corner: Point) -> SawLine:
    waste = Point.polar(1.0, corner.angle + bench.turn)
    reach = _tangent(bench, corner) + bench.left_by(Stroke.CORNER)
    return SawLine(bench.top.placement.centre + waste * reach, waste)


def _tangent(bench: Bench, corner: Point) -> float:
    return bench.top.outline.support(corner.angle) - bench.top.lipping


def _cut(cuts: StraightCuts, where: tuple[SawLine, Strip, Region], number: int) -> CornerCut:
    bench, (line, strip, blank) = cuts.bench, where
    ends = _ends(bench, blank, line)
    handsaw = ends[0].point.distance_to(ends[1].point) < LEAST_RUN
    guide = None if handsaw else guide_of(bench, line, partial(_ends, bench, blank))
    sawn = Sawn(line, blank, strip, bench.left_by(Stroke.CORNER), bench.top.thickness, ends)
    fields = fields_of(bench, sawn, f"Corner cut {number}")
    return CornerCut(**fields, guide=guide, leg=_leg(cuts, ends), handsaw=handsaw)


def _ends(bench: Bench, blank: Region, line: SawLine) -> Ends:
    """Return where a line enters and leaves the blank, found from the panel's edges."""
    extent = extent_of(blank)
    spans = blank.chord(*line.ends(extent))
    start, end = spans[0][0], spans[-1][1]
    return edge_point(bench, start), edge_point(bench, end)


def _leg(cuts: StraightCuts, ends: Ends) -> float | None:
    """Return how far both ends lie from the corner of the blank, where that is sawn and there."""
    through = [trim for trim in cuts.trims if not trim.kind.stops]
    sides = [
        [trim for trim in through if abs(line_of(trim).past(end.point)) <= SAME_PLACE]
        for end in ends
    ]
    if not all(len(held) == 1 for held in sides):
        return None
    (one,), (other,) = sides
    at, far = one.start.point, other.start.point
    corner = meeting_of_lines(at, one.waste.left, far, other.waste.left)
    if corner is None:
        return None
    legs = [corner.distance_to(end.point) for end in ends]
    in_wood = cuts.blank.distance_to(Region.at(corner)) <= SAME_PLACE
    return legs[0] if in_wood and abs(legs[0] - legs[1]) <= SAME_PLACE else None
