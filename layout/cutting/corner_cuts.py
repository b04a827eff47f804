"""Corner cuts: straight cuts off the corners of a blank that halve the work of sawing a curve."""

from __future__ import annotations

import math

from ..geometry import Point, Region, at_least
from ..geometry.intersect import meeting_of_lines
from ..geometry.tolerance import SAME_PLACE, SIZE_SLACK
from ..units import nearest_whole
from .bench import Bench
from .cut import CornerCut
from .sawn import Ends, SawLine, Sawn, line_of
from .straight import StraightCuts
from .tools import Stroke

LEAST_DEEP = 12.0
"""A corner cut that takes off less than this beside its kerf is not worth setting up, mm: about 20
along both edges (common practice)."""

LEAST_RUN = 200.0
"""A shorter cut gives a saw's base no run along a guide, mm: it is made with a handsaw (our choice:
bases are 250 to 300 long)."""


def corner_cuts_of(cuts: StraightCuts) -> tuple[tuple[CornerCut, ...], Region]:
    """Return the corner cuts in order round the top, and what they leave of the blank.

    They go round from the corner nearest the datum's start. None where the saw would cross what no
    blade may cross, or where little stands outside the line: the jigsaw goes round there anyway.
    """
    bench, blank, made = cuts.bench, cuts.blank, list[CornerCut]()
    if bench.top.runs.is_straight:
        return (), blank
    left, top = bench.left_by(Stroke.CORNER), bench.top
    for corner in _corners(bench):
        waste = Point.polar(1.0, corner.angle + bench.turn)
        reach = top.outline.support(corner.angle) - top.lipping + left
        line = SawLine(top.placement.centre + waste * reach, waste)
        cut = Sawn(bench, line, blank, left, top.thickness, in_blank=True)
        if not at_least(cut.off, LEAST_DEEP, SIZE_SLACK) or cut.crossed:
            continue
        handsaw = cut.spans[0][0].distance_to(cut.spans[-1][1]) < LEAST_RUN
        ends, guide = cut.ends(line), None if handsaw else cut.guide
        assert ends is not None  # or nothing would fall off
        fields, leg = cut.fields(f"Corner cut {len(made) + 1}"), _leg(cuts, ends)
        made.append(CornerCut(**fields, guide=guide, leg=leg, handsaw=handsaw))
        blank = cut.left
    return tuple(made), blank


def _corners(bench: Bench) -> list[Point]:
    """Return the signs of the four corners in the own frame, from the one nearest the datum."""
    around = [Point(-1, -1), Point(1, -1), Point(1, 1), Point(-1, 1)]
    quarters = nearest_whole((bench.turn - bench.datum.frame.turn) / (math.pi / 2)) % 4
    return [around[(i - quarters) % 4] for i in range(4)]


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
