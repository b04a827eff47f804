"""What of a path lies in an upright window: cut exactly, so that no curve becomes chords."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from .bounds import Bounds
from .intersect import shares_at
from .path import Path
from .point import Point
from .segments import Line, Segment, most_length
from .tolerance import ROUNDING, SAME_POINT


@dataclass(frozen=True, slots=True)
class Piece:
    """What of a path lies in a window, in one run."""

    path: Path
    start: float
    """How far along the whole path it starts, mm."""


def pieces_in(path: Path, window: Bounds) -> tuple[Piece, ...]:
    """Return what of a path lies in a window, in order; parts that meet end to end are one.

    A closed path is broken at its start, from which the way along it counts: dashes, which seldom
    close on themselves, then break there in every window alike.

    >>> path = Path.through([Point(-5, 5), Point(25, 5)])
    >>> [piece.start for piece in pieces_in(path, Bounds(0, 0, 10, 10))]
    [5.0]
    """
    runs: list[tuple[float, list[Segment]]] = []
    passed = 0.0
    for segment in path.segments:
        for share, part in _parts_in(segment, window):
            if runs and _meet(runs[-1][1][-1].end, part.start):
                runs[-1][1].append(part)
            else:
                before = segment.part(0.0, share).length if share > 0 else 0.0
                runs.append((passed + before, [part]))
        passed += segment.length
    return tuple(Piece(Path(tuple(run)), start) for start, run in runs)


def clipped(path: Path, window: Bounds) -> tuple[Path, ...]:
    """Return the pieces of `path` that lie in `window`, its edges included, in order.

    A closed path that leaves the window is not broken at its start.

    >>> box = Bounds(0, 0, 10, 10)
    >>> [piece.length for piece in clipped(Path.through([Point(-5, 5), Point(25, 5)]), box)]
    [10.0]
    """
    runs = [piece.path for piece in pieces_in(path, window)]
    if len(runs) > 1 and path.is_closed and _meet(runs[-1].end, runs[0].start):
        runs[0] = Path(runs.pop().segments + runs[0].segments)
    return tuple(runs)


def split(segment: Segment, most: float) -> tuple[Segment, ...]:
    """Return an arc in equal pieces that turn no further than `most`, radians; a line as it is."""
    if isinstance(segment, Line) or abs(segment.sweep) <= most:
        return (segment,)
    count = max(1, math.ceil(abs(segment.sweep) / most - ROUNDING))
    return tuple(segment.part(k / count, (k + 1) / count) for k in range(count))


def _meet(one: Point, other: Point) -> bool:
    return one.distance_to(other) <= SAME_POINT


def _parts_in(segment: Segment, window: Bounds) -> list[tuple[float, Segment]]:
    """Return the parts of a segment with their middles in the window, each by where it starts."""
    middle, reach = segment.at(0.5), most_length(segment) / 2
    if window.holds(middle, by=reach):
        return [(0.0, segment)]
    if not window.holds(middle, by=-reach):
        return []
    right, up = Point(1.0, 0.0), Point(0.0, 1.0)
    sides = [(right, window.left), (right, window.right), (up, window.bottom), (up, window.top)]
    crossed = (share for side in sides for share in shares_at(segment, *side))
    cuts = sorted({0.0, 1.0, *(share for share in crossed if 0 < share < 1)})
    kept: list[tuple[float, float]] = []
    for start, end in pairwise(cuts):
        if not window.holds(segment.at((start + end) / 2)):
            continue
        if kept and kept[-1][1] == start:
            kept[-1] = (kept[-1][0], end)
        else:
            kept.append((start, end))
    shortest = SAME_POINT / max(2 * reach, SAME_POINT)
    return [(a, segment.part(a, b)) for a, b in kept if b - a > shortest]
