"""The ways to draw circles, capsules and rounded corners, and large arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry.point import Point
from ..outlines import Capsule, Circle, RoundedRectangle
from .arcs import ArchTrammel, LargeArc, SprungLath
from .instruments import Ordinate, Swing
from .method import (
    BAR_PLAY,
    PENCIL_LEAN,
    ROUTER_PLAY,
    SETTING,
    HandTool,
    Method,
    Workshop,
    together,
)
from .places import swept_by


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Heights at stations from the middle, mm."""

    ordinates: tuple[Ordinate, ...]


def swung_ways(outline: Circle | Capsule | RoundedRectangle, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw the arcs of an outline, each of its radii in turn."""
    corners = len(outline.corners)
    joins = corners + 1 if corners and outline.arc_centres else 0  # of a D end they are marks
    for swing in swept_by(outline):
        yield from (replace(method, joins=joins) for method in swings(swing, shop))
        if isinstance(outline, RoundedRectangle):
            yield Method("corner template", (HandTool.TEMPLATE,), swing)


def swings(swing: Swing, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to swing a radius about its centres, with what is there to swing it."""
    names = {f"centre {i}": at for i, at in enumerate(swing.centres, start=1)}
    pivots = shop.pivots(**names)
    lean = together(PENCIL_LEAN, shop.stretch * swing.radius)
    for name, tool, hand in (
        ("string compass", HandTool.STRING, lean),
        ("trammel bar", HandTool.BAR, BAR_PLAY),
        ("router trammel", HandTool.ROUTER, ROUTER_PLAY),
    ):
        hand_error = together(hand, SETTING)
        draws = tool is not HandTool.ROUTER
        yield Method(name, (tool,), swing, pivots, 0.0, hand_error, True, draws_line=draws)


def arc_ways(arc: LargeArc, stations: int, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw a large arc.

    Pivots are counted from the middle of the chord, the arc lying up from it.
    """
    ends = {"nail 1": Point(-arc.chord / 2, 0.0), "nail 2": Point(arc.chord / 2, 0.0)}
    yield Method(
        "swung radius",
        (HandTool.BAR,),
        arc,
        shop.pivots(centre=Point(0.0, -arc.centre_below)),
        0.0,
        together(BAR_PLAY, SETTING),
        leaves_hole=True,
    )
    trammel = ArchTrammel.for_arc(arc)
    nails = shop.pivots(**ends)
    yield Method("arch trammel", (HandTool.LATHS,), trammel, nails, leaves_hole=True)
    if arc.is_flat:
        points = arc.ordinates(stations)
        sag = max(_sag(arc, one, other) for one, other in pairwise(points))
        yield Method("ordinates", (HandTool.TAPE,), Ordinates(points), line_error=sag)
        lath = SprungLath.for_arc(arc, stations)
        out = lath.farthest
        yield Method("sprung lath", (HandTool.LATH,), lath, line_error=out, leaves_hole=True)


def _sag(arc: LargeArc, one: Ordinate, other: Ordinate) -> float:
    """Return how far the arc stands off the straight line between two points, r(1 − cos), mm."""
    half = Point(one.out, one.up).distance_to(Point(other.out, other.up)) / 2
    return arc.radius - math.sqrt(max(arc.radius**2 - half**2, 0.0))
