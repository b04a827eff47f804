"""Where lines and arcs meet, exactly, and how far the way turns; arcs that meet are circular."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from .path import Path
from .point import Point
from .segments import Arc, Line, Segment, most_length
from .tolerance import ROUNDING, SAME_POINT


@dataclass(frozen=True, slots=True)
class Crossing:
    """One crossing of a straight line with a path."""

    point: Point
    reach: float
    """How far along the straight line from its origin, mm; negative behind it."""


def crossings(path: Path, origin: Point, direction: Point) -> tuple[Crossing, ...]:
    """Return where the line through `origin` crosses a path, in order along the line.

    A crossing at a joint counts once; a segment that lies along the line counts with its ends.

    `direction` is a unit vector.
    """
    across = direction.left
    level = across.dot(origin)
    found: list[Crossing] = []
    for segment in path.segments:
        off = abs(across.dot(segment.at(0.5)) - level)
        if off > most_length(segment) / 2 + SAME_POINT:
            continue
        shares = {*(s for s in shares_at(segment, across, level) if 0 <= s <= 1), 0.0, 1.0}
        points = (segment.at(share) for share in shares)
        on_it = (p for p in points if abs(across.dot(p) - level) <= SAME_POINT)
        found += [Crossing(point, direction.dot(point - origin)) for point in on_it]
    found.sort(key=lambda crossing: crossing.reach)
    return tuple(
        c for n, c in enumerate(found) if n == 0 or c.reach - found[n - 1].reach > SAME_POINT
    )


def way_out(path: Path, start: Point, direction: Point) -> float:
    """Return how far the farthest crossing with a closed path lies that way, mm; inf if none."""
    ahead = [c.reach for c in crossings(path, start, direction) if c.reach > -SAME_POINT]
    return ahead[-1] if ahead else math.inf


def shares_at(segment: Segment, across: Point, level: float) -> list[float]:
    """Return the shares at which a segment meets the line of points p with across·p = level.

    Some may lie outside 0 to 1. A segment that lies along the line has none. Along an arc
    ``across·p`` is ``c + reach·cos(t − peak)``: two angles, equal where it only touches, or none.

    `across` is a unit vector, `level` in mm.
    """
    if isinstance(segment, Line):
        start, end = across.dot(segment.start), across.dot(segment.end)
        return [(level - start) / (end - start)] if start != end else []
    along, aside = (across.dot(axis) for axis in segment.axes)
    reach, peak = math.hypot(along, aside), math.atan2(aside, along)
    height = level - across.dot(segment.centre)
    if reach == 0 or abs(height) > reach + ROUNDING:
        return []
    half = math.acos(min(max(height / reach, -1.0), 1.0))
    shares = []
    for angle in (peak + half, peak - half):
        ahead = (angle - segment.from_angle) % math.tau
        turns = ahead if segment.sweep > 0 else ahead - math.tau
        shares.append(turns / segment.sweep)
    return shares


def turn_at(arriving: Segment, leaving: Segment) -> float:
    """Return how far the way turns from one segment to the next, radians, positive to the left."""
    one, other = arriving.pace(1.0), leaving.pace(0.0)
    return math.atan2(one.cross(other), one.dot(other))


def meetings(one: Line | Arc, other: Line | Arc) -> tuple[Point, ...]:
    """Return the points that two lines or circular arcs have in common, to `SAME_POINT`."""
    found: Iterable[Point]
    if isinstance(one, Line) and isinstance(other, Line):
        met = meeting_of_lines(one.start, one.direction, other.start, other.direction)
        found = () if met is None else (met,)
    elif isinstance(one, Line):
        found = [c.point for c in crossings(Path((other,)), one.start, one.direction)]
    elif isinstance(other, Line):
        found = [c.point for c in crossings(Path((one,)), other.start, other.direction)]
    else:
        found = _of_circles(one, other)
    return tuple(p for p in found if _on(one, p) and _on(other, p))


def meeting_of_lines(one: Point, way: Point, other: Point, beyond: Point) -> Point | None:
    """Return where two endless lines meet, each through a point along a unit vector, if at all."""
    sine = way.cross(beyond)
    return one + way * ((other - one).cross(beyond) / sine) if abs(sine) > 1e-12 else None


def share_of(segment: Line | Arc, point: Point) -> float:
    """Return the share of the way at which a point of a segment lies; below 0 or above 1 off it."""
    if isinstance(segment, Line):
        way = segment.end - segment.start
        return (point - segment.start).dot(way) / way.dot(way)
    angle = (point - segment.centre).angle
    ahead = (angle - segment.from_angle) * math.copysign(1.0, segment.sweep) % math.tau
    sweep = abs(segment.sweep)
    # the rest of the circle is shared out between what lies before the start and after the end
    return (ahead - math.tau if ahead - sweep > (math.tau - sweep) / 2 else ahead) / sweep


def _on(segment: Line | Arc, point: Point) -> bool:
    slack = SAME_POINT / segment.length
    return -slack <= share_of(segment, point) <= 1 + slack


def _of_circles(one: Arc, other: Arc) -> Iterator[Point]:
    way = other.centre - one.centre
    apart = way.norm
    nearest, farthest = abs(one.radius - other.radius), one.radius + other.radius
    if not nearest - SAME_POINT <= apart <= farthest + SAME_POINT or apart < SAME_POINT:
        return
    along = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart)
    half = math.sqrt(max(one.radius**2 - along**2, 0.0))
    foot, aside = one.centre + way * (along / apart), way.unit().left
    yield foot + aside * half
    yield foot + aside * -half
