"""Biarcs: a curve as arcs with common tangents; over a step h their error falls like h³."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from .point import Point
from .segments import Arc, Line

_MOST_HALVINGS = 24
"""After which a step is taken as it is: it is then shorter than any tolerance."""

_PROBES = tuple(k / 8 for k in range(1, 8))
"""Shares of a step at which its arcs are held against the curve."""

_STRAIGHT = 1e8
"""Radius from which an arc is drawn as its chord, mm: it stands 1e-5 off a chord of 100, and a
farther centre would cost the ends of the arc more digits than a path may gape."""


@dataclass(frozen=True, slots=True)
class Station:
    """A point of a curve and the unit vector along which the curve runs on from there."""

    point: Point
    way: Point


def biarc(start: Station, end: Station) -> tuple[Line | Arc, Line | Arc]:
    """Return two arcs that leave and arrive along given directions and share their tangent between.

    Of the family of such pairs, the one whose two tangent lengths are equal.
    """
    across = end.point - start.point
    k = 2 * (1 - start.way.dot(end.way))
    m = across.dot(start.way + end.way)
    # the positive root of k·reach² + 2m·reach = across², without the difference of near equals
    reach = across.dot(across) / (m + math.sqrt(m * m + k * across.dot(across)))
    joint = (start.point + start.way * reach).midpoint(end.point + end.way * -reach)
    return (_arc(start.point, start.way, joint), _arc(joint, end.way, end.point, arrives=True))


def off(pair: tuple[Line | Arc, ...], point: Point) -> float:
    """Return the distance from a point of the curve to the nearer of its arcs' full circles."""
    return min(
        abs(point.distance_to(s.centre) - s.radius)
        if isinstance(s, Arc)
        else abs(s.direction.cross(point - s.start))
        for s in pair
    )


def arcs_along_curve(
    station: Callable[[float], Station],
    first: float,
    last: float,
    tolerance: float,
    ends: tuple[Point, Point] | None = None,
) -> tuple[Line | Arc, ...]:
    """Return arcs that follow a smooth curve between two values of its parameter, end to end.

    No probed point of the curve lies farther than `tolerance`, mm, from them. With `ends` they
    start and end exactly there, where rounding would leave a gap to a neighbour.
    """
    one, other = station(first), station(last)
    if ends is not None:
        one, other = Station(ends[0], one.way), Station(ends[1], other.way)
    return tuple(_halved(station, (first, last), (one, other), tolerance, _MOST_HALVINGS))


def _halved(
    station: Callable[[float], Station],
    span: tuple[float, float],
    ends: tuple[Station, Station],
    tolerance: float,
    left: int,
) -> list[Line | Arc]:
    first, last = span
    if ends[0].way.dot(ends[1].way) > 0:
        pair = biarc(*ends)
        probes = (station(first + (last - first) * share).point for share in _PROBES)
        if left == 0 or all(off(pair, probe) <= tolerance for probe in probes):
            return list(pair)
    middle = (first + last) / 2
    at = station(middle)
    return [
        *_halved(station, (first, middle), (ends[0], at), tolerance, left - 1),
        *_halved(station, (middle, last), (at, ends[1]), tolerance, left - 1),
    ]


def _arc(start: Point, way: Point, end: Point, *, arrives: bool = False) -> Line | Arc:
    """Return the arc between two points that leaves, or arrives, along `way`."""
    chord = end - start
    bend = way.cross(chord)
    if arrives:
        bend = -bend
    if chord.dot(chord) >= 2 * _STRAIGHT * abs(bend):
        return Line(start, end)
    radius = chord.dot(chord) / (2 * bend)
    foot = end if arrives else start
    centre = foot + way.left * radius
    half = math.asin(max(-1.0, min(1.0, chord.norm / (2 * radius))))
    return Arc(centre, abs(radius), (start - centre).angle, 2 * half)
