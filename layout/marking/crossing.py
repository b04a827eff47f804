"""Where a straight line crosses a path, exactly, for lines, circular and elliptic arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.segments import Arc, EllipticArc, Line, Segment
from ..geometry.tolerance import SAME_POINT


@dataclass(frozen=True, slots=True)
class Crossing:
    """One crossing of a straight line with a path.

    Attributes
    ----------
    point : Point
    reach : float
        How far along the straight line from its origin, mm; negative behind it.
    """

    point: Point
    reach: float


def crossings(path: Path, origin: Point, direction: Point) -> tuple[Crossing, ...]:
    """Return where the line through `origin` crosses a path, in order along the line.

    A crossing at a joint counts once; a segment that lies along the line counts with its ends.

    Parameters
    ----------
    path : Path
    origin : Point
    direction : Point
        A unit vector.
    """
    reaches: list[float] = []
    for segment in path.segments:
        reaches.extend(_reaches(segment, origin, direction))
    distinct: list[float] = []
    for reach in sorted(reaches):
        if not distinct or reach - distinct[-1] > SAME_POINT:
            distinct.append(reach)
    return tuple(Crossing(origin + direction * reach, reach) for reach in distinct)


def _reaches(segment: Segment, origin: Point, direction: Point) -> Iterator[float]:
    if isinstance(segment, Line):
        yield from _along_line(segment, origin, direction)
    elif isinstance(segment, Arc):
        yield from _along_circle(segment, origin, direction)
    else:
        yield from _along_ellipse(segment, origin, direction)


def _along_line(line: Line, origin: Point, direction: Point) -> Iterator[float]:
    one, other = direction.cross(line.start - origin), direction.cross(line.end - origin)
    if abs(one) <= SAME_POINT and abs(other) <= SAME_POINT:
        yield (line.start - origin).dot(direction)
        yield (line.end - origin).dot(direction)
    elif one * other <= 0 or min(abs(one), abs(other)) <= SAME_POINT:
        share = min(max(one / (one - other), 0.0), 1.0) if one != other else 0.0
        yield (line.at(share) - origin).dot(direction)


def _along_circle(arc: Arc, origin: Point, direction: Point) -> Iterator[float]:
    middle = (arc.centre - origin).dot(direction)
    apart = direction.cross(arc.centre - origin)
    inside = arc.radius**2 - apart**2
    if inside < 0:
        return
    half = math.sqrt(inside)
    for reach in (middle - half, middle + half):
        angle = (origin + direction * reach - arc.centre).angle
        if _within(angle, arc.from_angle, arc.sweep, SAME_POINT / arc.radius):
            yield reach


def _along_ellipse(arc: EllipticArc, origin: Point, direction: Point) -> Iterator[float]:
    """Squeeze the ellipse to the unit circle; shares of the way stay what they are."""
    frame = Placement(arc.centre, arc.turn)
    own, way = frame.into(origin), direction.turned(-arc.turn)
    a, b = arc.half_length, arc.half_width
    p, d = Point(own.x / a, own.y / b), Point(way.x / a, way.y / b)
    squared, mixed, rest = d.dot(d), p.dot(d), p.dot(p) - 1
    inside = mixed * mixed - squared * rest
    if inside < 0:
        return
    for sign in (-1.0, 1.0):
        reach = (-mixed + sign * math.sqrt(inside)) / squared
        angle = (p + d * reach).angle
        if _within(angle, arc.from_angle, arc.sweep, SAME_POINT / b):
            yield reach


def _within(angle: float, start: float, sweep: float, slack: float) -> bool:
    ahead = (angle - start) * math.copysign(1.0, sweep) % math.tau
    return ahead <= abs(sweep) + slack or ahead >= math.tau - slack
