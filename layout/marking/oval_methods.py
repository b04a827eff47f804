"""The ways to draw an oval or a superellipse, each with what it takes and how far it may be out.

No compass or string draws a superellipse, so it is drawn by points or by a template.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from ..concern import Concern
from ..errors import OutlineError
from ..geometry.point import Point
from ..geometry.superellipse import MIDDLE, Quadrant
from ..outlines import Superellipse
from .arcs import EightCentreOval, FourCentreOval
from .instruments import Ordinate, TrammelRod, share_up
from .method import (
    BAR_PLAY,
    SETTING,
    TYING,
    Against,
    FullSize,
    HandTool,
    Method,
    Workshop,
)

_STATIONS = 9
"""Ordinates of a quarter of an oval, at equal eccentric angles of 10°."""


@dataclass(frozen=True, slots=True)
class OvalOrdinates:
    """Points of a quarter of an oval, from the end of the short axis to that of the long one."""

    ordinates: tuple[Ordinate, ...]

    @classmethod
    def for_oval(cls, length: float, width: float, exponent: float = 2.0) -> OvalOrdinates:
        """Return ordinates of an oval, or of a superellipse of another exponent.

        |2x/L|ⁿ + |2y/W|ⁿ = 1 at x = L/2·sin^(2/n), y = W/2·cos^(2/n) of equal angles: closer where
        it bends more. Raises an OutlineError if not ``1 < exponent``, ``0 < width <= length``.
        """
        if not (0 < width <= length < math.inf and 1 < exponent < math.inf):
            raise OutlineError(
                f"an oval by ordinates needs 0 < width <= length and an exponent above 1, not "
                f"{width:g} by {length:g} mm with {exponent:g}"
            )
        a, b, power = length / 2, width / 2, 2 / exponent
        angles = (math.pi / 2 * i / _STATIONS for i in range(_STATIONS))
        held = (Ordinate(a * math.sin(t) ** power, b * math.cos(t) ** power) for t in angles)
        return cls((*held, Ordinate(a, 0.0)))


def oval_ways(length: float, width: float, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw an oval `length` by `width`, mm, with ``0 < width < length``."""
    yield _string(length, width, shop)
    rod, slip = TrammelRod.for_oval(length, width), math.hypot(SETTING, SETTING, SETTING)
    by_rod = Method("trammel rod", (HandTool.ROD,), rod, hand_error=slip)
    yield by_rod
    yield _square(by_rod, shop)
    best = FourCentreOval.best(length, width)
    yield _arcs("four-centre oval, best", best, shop)
    try:
        forty_five, against = FourCentreOval.joined_at(length, width, math.pi / 4), None
    except OutlineError:
        forty_five, against = best, Concern(Against.NO_END)
    yield replace(_arcs("four-centre oval, 45°", forty_five, shop), against=against)
    yield _arcs("eight-centre oval", EightCentreOval.for_oval(length, width), shop)
    # points joined by straight lines; a lath bent round them lies nearer still
    sag = length / 2 * (1 - math.cos(math.pi / 4 / _STATIONS))
    table = OvalOrdinates.for_oval(length, width)
    yield Method("ordinates", (HandTool.TAPE,), table, line_error=sag)


def _string(length: float, width: float, shop: Workshop) -> Method:
    """Return string and nails; a slip of the loop or of the nails shows most in the width."""
    loop, exact = shop.loop(length, width), shop.nail == shop.pencil
    apart = replace(loop, nail_spacing=loop.nail_spacing + TYING).drawn
    slips = (
        max(abs(drawn.width - width), abs(drawn.length - length)) / 2
        for drawn in (apart, loop.slipped(TYING))
    )
    errors = 0.0 if exact else loop.farthest_from_ellipse(length, width), math.hypot(*slips)
    half, tools = loop.nail_spacing / 2, (HandTool.STRING,)
    nails = shop.pivots(N1=Point(-half, 0.0), N2=Point(half, 0.0))
    return Method("string and nails", tools, loop, nails, *errors, leaves_hole=True)


def _square(rod: Method, shop: Workshop) -> Method:
    """Return the framing square as a guide for the rod's pins: its tongue must reach (L − W)/2."""
    apart = rod.figures.pins_apart
    short = shop.tongue < apart
    return replace(
        rod,
        name="framing square",
        tools=(HandTool.SQUARE, HandTool.ROD),
        hand_error=math.hypot(rod.hand_error, SETTING),
        against=Concern(Against.SHORT_TONGUE, (), shop.tongue, apart) if short else None,
    )


def _arcs(name: str, oval: FourCentreOval | EightCentreOval, shop: Workshop) -> Method:
    places = {
        "end 1": Point(-oval.end_centre, 0.0),
        "end 2": Point(oval.end_centre, 0.0),
        "side 1": Point(0.0, -oval.side_centre),
        "side 2": Point(0.0, oval.side_centre),
    }
    if isinstance(oval, EightCentreOval):
        at = oval.middle_centre
        for i, (h, v) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1)), start=1):
            places[f"between {i}"] = Point(at.x * h, at.y * v)
    errors = oval.farthest_from_ellipse, math.hypot(BAR_PLAY, SETTING)
    return Method(name, (HandTool.BAR,), oval, shop.pivots(**places), *errors, leaves_hole=True)


SAG, _STEPS = 1.0, (200.0, 100.0, 50.0, 25.0, 20.0, 10.0, 5.0)
"""A chord between two points of a superellipse stands about this far inside the curve at most, mm,
and a lath much nearer; even figures from one station to the next, as far apart as that lets be."""


@dataclass(frozen=True, slots=True)
class SuperellipseOrdinates:
    """Points of a quarter, from the end of the short axis to that of the long one.

    Up to the diagonal they stand at even distances out from O along the long axis; beyond it, where
    the curve runs steeply, at even distances up from it.
    """

    ordinates: tuple[Ordinate, ...]
    farthest: float
    """The farthest that a chord between two of them stands off the curve, mm."""

    @classmethod
    def of(cls, top: Superellipse) -> SuperellipseOrdinates:
        """Return the points of a superellipse.

        >>> table = SuperellipseOrdinates.of(Superellipse(1400, 700, 2.5))
        >>> [round(o.out, 1) for o in table.ordinates[:4]]
        [0.0, 100.0, 200.0, 300.0]
        """
        curve = top.curve
        diagonal = curve.at(MIDDLE)
        along = _stations(curve, diagonal, upright=False)
        across = _stations(curve, diagonal, upright=True)
        points = [*along, diagonal, *reversed(across)]
        held = tuple(Ordinate(p.x, p.y) for p in points)
        return cls(held, max(_sag(curve, one, other) for one, other in pairwise(points)))


def superellipse_ways(top: Superellipse) -> Iterator[Method]:
    """Yield the ways to draw a superellipse."""
    table = SuperellipseOrdinates.of(top)
    yield Method("ordinates", (HandTool.TAPE,), table, line_error=table.farthest)
    yield Method("full-size template", (HandTool.PAPER,), FullSize(top.length, top.width))


def _stations(curve: Quadrant, diagonal: Point, *, upright: bool) -> list[Point]:
    """Return points from the end of one axis towards the diagonal, at even steps along the other.

    Each step is the longest whose chord stands no farther than `SAG` off; no needless one is.
    """

    def at(way: float) -> Point:
        half, other = (curve.b, curve.a) if upright else (curve.a, curve.b)
        rest = other * share_up(way / half, curve.exponent)
        return Point(rest, way) if upright else Point(way, rest)

    points, way = [at(0.0)], 0.0
    reach = diagonal.y if upright else diagonal.x
    while True:
        fine = (s for s in _STEPS[:-1] if way % s == 0 and way + s < reach)
        step = next((s for s in fine if _sag(curve, points[-1], at(way + s)) <= SAG), _STEPS[-1])
        way += step
        if way >= reach:
            break
        points.append(at(way))
    while len(points) > 1 and _sag(curve, points[-2], diagonal) <= SAG:
        points.pop()
    return points


def _sag(curve: Quadrant, one: Point, other: Point) -> float:
    """Return how far the curve stands off a chord of its quarter, mm."""
    along = (other - one).unit()
    out = along.left if along.left.dot(one) > 0 else -along.left
    return curve.support(out) - out.dot(one)
