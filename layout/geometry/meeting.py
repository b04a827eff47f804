"""Where two segments meet, which way one runs at its ends, and what is left when it is cut."""

from __future__ import annotations

import math
from collections.abc import Iterator

from .point import Point
from .segments import Arc, EllipticArc, Line, Segment
from .tolerance import SAME_POINT


def turn_at(arriving: Segment, leaving: Segment) -> float:
    """Return how far the way turns from one segment to the next, radians, positive to the left."""
    one, other = arriving.pace(1.0), leaving.pace(0.0)
    return math.atan2(one.cross(other), one.dot(other))


def meetings(one: Line | Arc, other: Line | Arc) -> tuple[Point, ...]:
    """Return the points that two lines or circular arcs have in common, to `SAME_POINT`."""
    if isinstance(one, Line) and isinstance(other, Line):
        found = _of_lines(one, other)
    elif isinstance(one, Line) and isinstance(other, Arc):
        found = _of_line_and_circle(one, other)
    elif isinstance(one, Arc) and isinstance(other, Line):
        found = _of_line_and_circle(other, one)
    else:
        assert isinstance(one, Arc)
        assert isinstance(other, Arc)
        found = _of_circles(one, other)
    return tuple(p for p in found if _on(one, p) and _on(other, p))


def share_of(segment: Line | Arc, point: Point) -> float:
    """Return the share of the way at which a point of a segment lies: 0 at its start, 1 at its end.

    A point beyond an end of an arc has a share below 0, or above 1.
    """
    if isinstance(segment, Line):
        way = segment.end - segment.start
        return (point - segment.start).dot(way) / way.dot(way)
    angle = (point - segment.centre).angle
    ahead = (angle - segment.from_angle) * math.copysign(1.0, segment.sweep) % math.tau
    sweep = abs(segment.sweep)
    # the rest of the circle is shared out between what lies before the start and after the end
    return (ahead - math.tau if ahead - sweep > (math.tau - sweep) / 2 else ahead) / sweep


def between(segment: Segment, first: float, last: float) -> Segment:
    """Return the part of a segment between two shares of its way (of an ellipse's angle)."""
    if isinstance(segment, Line):
        return Line(segment.at(first), segment.at(last))
    start, sweep = segment.from_angle + segment.sweep * first, segment.sweep * (last - first)
    if isinstance(segment, Arc):
        return Arc(segment.centre, segment.radius, start, sweep)
    half = (segment.half_length, segment.half_width)
    return EllipticArc(segment.centre, *half, segment.turn, start, sweep)


def _on(segment: Line | Arc, point: Point) -> bool:
    slack = SAME_POINT / segment.length
    return -slack <= share_of(segment, point) <= 1 + slack


def _of_lines(one: Line, other: Line) -> Iterator[Point]:
    way, beyond = one.direction, other.direction
    sine = way.cross(beyond)
    if abs(sine) > 1e-12:
        yield one.start + way * ((other.start - one.start).cross(beyond) / sine)


def _of_line_and_circle(line: Line, arc: Arc) -> Iterator[Point]:
    way = line.direction
    to_centre = arc.centre - line.start
    apart, along = way.cross(to_centre), way.dot(to_centre)
    if abs(apart) <= arc.radius + SAME_POINT:
        half = math.sqrt(max(arc.radius**2 - apart**2, 0.0))
        yield line.start + way * (along - half)
        yield line.start + way * (along + half)


def _of_circles(one: Arc, other: Arc) -> Iterator[Point]:
    way = other.centre - one.centre
    apart = way.norm
    if not abs(one.radius - other.radius) - SAME_POINT <= apart <= one.radius + other.radius or (
        apart < SAME_POINT
    ):
        return
    along = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart)
    half = math.sqrt(max(one.radius**2 - along**2, 0.0))
    foot, aside = one.centre + way * (along / apart), way.unit().left
    yield foot + aside * half
    yield foot + aside * -half
