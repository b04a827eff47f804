"""What of a path lies in an upright window: cut exactly, so that no curve becomes chords."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from .bounds import Bounds
from .path import Path
from .point import Point
from .segments import Arc, EllipticArc, Line, Segment
from .tolerance import ROUNDING, SAME_POINT


def clipped(path: Path, window: Bounds) -> tuple[Path, ...]:
    """Return the pieces of `path` that lie in `window`, its edges included, in order.

    Each segment is cut where it crosses a side of the window, and a piece is kept where its middle
    lies inside; kept neighbours are joined again. A path that lies inside comes back as it is, and
    a closed one that leaves the window is not broken at its start.

    Examples
    --------
    >>> box = Bounds(0, 0, 10, 10)
    >>> [piece.length for piece in clipped(Path.through([Point(-5, 5), Point(25, 5)]), box)]
    [10.0]
    """
    runs: list[list[Segment]] = []
    for segment in path.segments:
        for _, piece in parts_in(segment, window):
            if runs and meet(runs[-1][-1], piece):
                runs[-1].append(piece)
            else:
                runs.append([piece])
    if len(runs) > 1 and path.is_closed and meet(runs[-1][-1], runs[0][0]):
        runs[0] = runs.pop() + runs[0]
    if [*path.segments] in runs:
        return (path,)
    return tuple(Path(tuple(run)) for run in runs)


def crossed_at(path: Path, axis: int, level: float) -> tuple[Point, ...]:
    """Return where a path meets the line x = `level` (axis 0) or y = `level` (axis 1), in order.

    From the lowest other coordinate to the highest; a point met twice comes once. A segment that
    lies along the line gives its ends.
    """
    found: list[Point] = []
    for segment in path.segments:
        shares = {*_level_crossings(segment, axis, level), 0.0, 1.0}
        points = (segment.at(share) for share in shares if 0 <= share <= 1)
        found += [p for p in points if abs(tuple(p)[axis] - level) <= SAME_POINT]
    found.sort(key=lambda point: tuple(point)[1 - axis])
    kept = [p for n, p in enumerate(found) if n == 0 or p.distance_to(found[n - 1]) > SAME_POINT]
    return tuple(kept)


def holds(window: Bounds, point: Point, by: float = 0.0) -> bool:
    """Return whether a point lies at least `by`, mm, inside the window."""
    return (
        window.left + by - ROUNDING <= point.x <= window.right - by + ROUNDING
        and window.bottom + by - ROUNDING <= point.y <= window.top - by + ROUNDING
    )


def holds_bounds(window: Bounds, other: Bounds) -> bool:
    """Return whether a box lies in the window, edges included."""
    return holds(window, Point(other.left, other.bottom)) and holds(
        window, Point(other.right, other.top)
    )


def overlap(one: Bounds, other: Bounds) -> bool:
    """Return whether two boxes have more than an edge in common."""
    return (
        min(one.right, other.right) > max(one.left, other.left) + ROUNDING
        and min(one.top, other.top) > max(one.bottom, other.bottom) + ROUNDING
    )  # fmt: skip


def part(segment: Segment, start: float, end: float) -> Segment:
    """Return what lies between two shares, 0 to 1, of the way along a segment."""
    if isinstance(segment, Line):
        return Line(segment.at(start), segment.at(end))
    return replace(
        segment,
        from_angle=segment.from_angle + segment.sweep * start,
        sweep=segment.sweep * (end - start),
    )


def split(segment: Segment, most: float) -> tuple[Segment, ...]:
    """Return an arc in equal pieces that turn no further than `most`, radians; a line as it is."""
    if isinstance(segment, Line) or abs(segment.sweep) <= most:
        return (segment,)
    count = max(1, math.ceil(abs(segment.sweep) / most - ROUNDING))
    return tuple(part(segment, k / count, (k + 1) / count) for k in range(count))


def meet(one: Segment, other: Segment) -> bool:
    """Return whether a segment begins where another one ends."""
    return one.end.distance_to(other.start) <= SAME_POINT


def parts_in(segment: Segment, window: Bounds) -> list[tuple[float, Segment]]:
    """Return the parts of a segment in the window, each with the share at which it starts."""
    middle, reach = segment.at(0.5), most_length(segment) / 2
    if holds(window, middle, by=reach):
        return [(0.0, segment)]
    if not holds(window, middle, by=-reach):
        return []
    cuts = sorted({0.0, 1.0, *_crossings(segment, window)})
    kept: list[tuple[float, float]] = []
    for start, end in pairwise(cuts):
        if not holds(window, segment.at((start + end) / 2)):
            continue
        if kept and kept[-1][1] == start:
            kept[-1] = (kept[-1][0], end)
        else:
            kept.append((start, end))
    shortest = SAME_POINT / max(2 * reach, SAME_POINT)
    return [(a, part(segment, a, b)) for a, b in kept if b - a > shortest]


def most_length(segment: Segment) -> float:
    """Return a length that a segment does not exceed; half of it reaches all of it from its middle.

    That of an elliptic arc is costly and not needed here.
    """
    if isinstance(segment, EllipticArc):
        return max(segment.half_length, segment.half_width) * abs(segment.sweep)
    return segment.length


def _crossings(segment: Segment, window: Bounds) -> list[float]:
    """Return the shares, in (0, 1), at which a segment crosses the lines of the window's sides."""
    sides = [(0, window.left), (0, window.right), (1, window.bottom), (1, window.top)]
    shares = [share for side in sides for share in _level_crossings(segment, *side)]
    return [share for share in shares if 0 < share < 1]


def _level_crossings(segment: Segment, axis: int, level: float) -> list[float]:
    """Return the shares at which a segment's x or y takes a value; some may lie outside 0 to 1."""
    if not isinstance(segment, Line):
        return _arc_crossings(segment, axis, level)
    start, end = tuple(segment.start)[axis], tuple(segment.end)[axis]
    return [(level - start) / (end - start)] if start != end else []


def _arc_crossings(segment: Arc | EllipticArc, axis: int, level: float) -> list[float]:
    """Return where an arc's x or y takes a value.

    Along an ellipse either coordinate is ``c + reach·cos(t − peak)``: two angles, equal where it
    only touches, or none.
    """
    first, second = _axes(segment)
    along, across = tuple(first)[axis], tuple(second)[axis]
    reach, peak = math.hypot(along, across), math.atan2(across, along)
    height = level - tuple(segment.centre)[axis]
    if reach == 0 or abs(height) > reach + ROUNDING:
        return []
    half = math.acos(min(max(height / reach, -1.0), 1.0))
    shares = []
    for angle in (peak + half, peak - half):
        ahead = (angle - segment.from_angle) % math.tau
        turns = ahead if segment.sweep > 0 else ahead - math.tau
        shares.append(turns / segment.sweep)
    return shares


def _axes(segment: Arc | EllipticArc) -> tuple[Point, Point]:
    """Return the half-axes of an arc as vectors."""
    if isinstance(segment, Arc):
        return Point(segment.radius, 0.0), Point(0.0, segment.radius)
    return (
        Point(segment.half_length, 0.0).turned(segment.turn),
        Point(0.0, segment.half_width).turned(segment.turn),
    )
