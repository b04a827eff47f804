"""Facets: straight cuts off the corners of a blank that halve the work of sawing a curve."""

from __future__ import annotations

import math

from ..geometry.alike import at_least
from ..geometry.point import Point
from ..geometry.tolerance import SIZE_SLACK
from ..outlines import RoundedRectangle
from ..units import nearest_whole
from .bench import Bench
from .cut import Facet
from .straight import StraightCuts, crossed
from .strips import SawLine, extent_of, strip_beyond

ROUND_END_CLEAR = 4.0
"""Left between a facet and a round end, mm: the jigsaw follows outside the line (common practice:
3 or 4)."""

CORNER_CLEAR = 3.0
"""Left between a facet and a rounded corner, mm: the router follows (common practice: 3 or 4)."""

LEAST_LEG = 20.0
"""A facet shorter along the edges than this is not worth setting up, mm (common practice)."""


def facet_leg(half_length: float, half_width: float, tangent: float, clear: float) -> float:
    """Return how far from a corner of a blank, along both edges, a 45° facet starts, mm.

    From the middle of a blank of these half-sizes the corner stands (u + v)/√2 away towards 45°
    and the facet ``tangent + clear``; the corner that it takes off has legs √2 times the rest.

    Parameters
    ----------
    tangent : float
        From the same middle to the 45° tangent of the curve, mm: R for an arc about it,
        √((a² + b²)/2) for an ellipse.
    clear : float
        Left between the curve and the facet, mm.

    Examples
    --------
    >>> round(facet_leg(302.0, 302.0, 300.0, 4.0))
    174
    """
    return half_length + half_width - math.sqrt(2) * (tangent + clear)


def facets_of(bench: Bench, cuts: StraightCuts) -> tuple[Facet, ...]:
    """Return the facets in order round the top, from the corner nearest the datum's start.

    None where the saw would cross what no blade may cross: the jigsaw goes round there.
    """
    blank = cuts.blank
    facets: list[Facet] = []
    if bench.top.runs.is_straight:
        return ()
    for corner in _corners(bench):
        line, clear = _line(bench, corner)
        strip = strip_beyond(blank, line)
        least = max(LEAST_LEG / math.sqrt(2), bench.tools.thinnest)
        if not at_least(strip.widest, least, SIZE_SLACK):
            continue
        if crossed(bench, line, blank):
            continue
        extent = extent_of(blank)
        spans = blank.chord(line.at - line.way * extent, line.at + line.way * extent)
        facets.append(
            Facet(
                label=f"Facet {len(facets) + 1}",
                start=spans[0][0],
                end=spans[-1][1],
                waste=line.waste,
                leg=_leg(bench, cuts, corner, clear),
                clear=clear,
                guide_offset=bench.tools.guide,
                fallen=blank.meet(line.moved(bench.tools.kerf).beyond(extent)).pieces,
            )
        )
        blank = blank.minus(line.beyond(extent))
    return tuple(facets)


def _corners(bench: Bench) -> list[Point]:
    """Return the signs of the four corners in the own frame, from the one nearest the datum."""
    around = [Point(-1, -1), Point(1, -1), Point(1, 1), Point(-1, 1)]
    quarters = nearest_whole((bench.turn - bench.datum.frame.turn) / (math.pi / 2)) % 4
    return [around[(i - quarters) % 4] for i in range(4)]


def _line(bench: Bench, corner: Point) -> tuple[SawLine, float]:
    """Return the saw line at a corner, and how far it clears the curve."""
    usual = CORNER_CLEAR if isinstance(bench.top.outline, RoundedRectangle) else ROUND_END_CLEAR
    clear = usual if bench.tools.facet_clear is None else bench.tools.facet_clear
    tangent = bench.top.outline.support(corner.angle) - bench.top.lipping
    waste = Point.polar(1.0, corner.angle + bench.turn)
    return SawLine(bench.top.placement.centre + waste * (tangent + clear), waste), clear


def _leg(bench: Bench, cuts: StraightCuts, corner: Point, clear: float) -> float | None:
    """Return the facet's distance from the crossing of two saw lines, where both sides are sawn."""
    length = bench.top.core_length / 2 + bench.tools.left_by_saw(end=True)
    width = bench.top.core_width / 2 + bench.tools.left_by_saw(end=False)
    towards = corner.turned(bench.turn)
    if any(side.waste.dot(towards) > 0.5 for side in cuts.skipped) or bench.top.runs.kept:
        return None
    tangent = bench.top.outline.support(corner.angle) - bench.top.lipping
    return facet_leg(length, width, tangent, clear)
