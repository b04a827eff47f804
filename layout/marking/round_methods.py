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
    ranked,
    together,
)
from .places import swept_by


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Heights at stations from the middle, mm."""

    ordinates: tuple[Ordinate, ...]


def swung_methods(
    outline: Circle | Capsule | RoundedRectangle, workshop: Workshop | None = None
) -> tuple[Method, ...]:
    """Return the ways to draw the arcs of an outline; the first is the one to use.

    An outline with several corner radii is drawn with each of them in turn; none for square
    corners.
    """
    shop = workshop or Workshop()
    found = [m for swing in swept_by(outline) for m in _swung(swing, outline, shop)]
    if outline.arc_centres and outline.corners:  # a D end's corners are marks, and so joined
        found = [replace(m, joins=len(outline.corners) + 1) for m in found]
    return ranked(found, shop)


def _swung(
    swing: Swing, outline: Circle | Capsule | RoundedRectangle, shop: Workshop
) -> Iterator[Method]:
    yield from swings(swing, shop)
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


def arc_methods(
    arc: LargeArc, stations: int = 6, workshop: Workshop | None = None
) -> tuple[Method, ...]:
    """Return the ways to draw a large arc; the first is the one to use.

    Pivots are counted from the middle of the chord, the arc lying up from it.
    """
    shop = workshop or Workshop()
    return ranked(_arc(arc, stations, shop), shop)


def _arc(arc: LargeArc, stations: int, shop: Workshop) -> Iterator[Method]:
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
