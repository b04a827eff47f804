"""The ways to draw a superellipse: no compass or string does, so by points or by a template."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..geometry.point import Point
from ..geometry.superellipse import MIDDLE, Quadrant
from ..outlines import Outline, Superellipse
from .instruments import Ordinate
from .method import HandTool, Method, full_size_template

SAG = 1.0
"""A chord between two points stands about this far inside the curve at most, mm; a lath through
them lies much nearer."""

_STEPS = (200.0, 100.0, 50.0, 25.0, 20.0, 10.0, 5.0)
"""Distances from one station to the next, mm: even figures, as far apart as `SAG` lets them be."""


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

        Examples
        --------
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


def superellipse_checks(top: Outline) -> tuple[Ordinate, ...]:
    """Return three points of a quarter that prove its line, mm, as those of an oval do.

    >>> superellipse_checks(Superellipse(50.0, 30.0, 2.0))[0]
    Ordinate(out=15.0, up=12.0)
    """
    return tuple(
        Ordinate(share * top.length / 2, _height(top.figures["exponent"], share) * top.width / 2)
        for share in (0.6, 0.8, 0.96)
    )


def superellipse_ways(top: Superellipse) -> Iterator[Method]:
    """Yield the ways to draw a superellipse."""
    table = SuperellipseOrdinates.of(top)
    yield Method("ordinates", (HandTool.TAPE,), table, line_error=table.farthest)
    yield full_size_template(top.length, top.width)


def _stations(curve: Quadrant, diagonal: Point, *, upright: bool) -> list[Point]:
    """Return points from the end of one axis towards the diagonal, at even steps along the other.

    Each step is the longest whose chord stands no farther than `SAG` off the curve. Stations that
    the chord to the point on the diagonal makes needless are left out.
    """

    def at(way: float) -> Point:
        half, other = (curve.b, curve.a) if upright else (curve.a, curve.b)
        rest = other * _height(curve.exponent, way / half)
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


def _height(exponent: float, share: float) -> float:
    return float((1 - share**exponent) ** (1 / exponent))


def _sag(curve: Quadrant, one: Point, other: Point) -> float:
    """Return how far the curve stands off a chord of its quarter, mm."""
    along = (other - one).unit()
    out = along.left if along.left.dot(one) > 0 else -along.left
    return curve.support(out) - out.dot(one)
