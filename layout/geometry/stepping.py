"""What arcs have alike, and how curves are cut into steps that stay on one side of them."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Literal, Self

import numpy as np

from .bounds import Bounds
from .placement import Points
from .point import Point

Side = Literal["inside", "outside"]
"""Which side of an anticlockwise boundary a polygon of it must not leave."""


Swept = tuple[Point, Point, Point, float, float]
"""A centre, half-axes u and v, the t where a curve starts and its sweep: it runs through
``centre + u cos t + v sin t``, mm and radians. A straight line's start is a curve of no size."""


def swapped(point: Point) -> Point:
    """Return the point with left and right swapped."""
    return Point(-point.x, point.y)


class Swung:
    """What arcs have alike: they run through ``centre + u cos t + v sin t``, u and v half-axes."""

    __slots__ = ()
    centre: Point
    from_angle: float
    sweep: float

    @property
    @abstractmethod
    def axes(self) -> tuple[Point, Point]:
        """The half-axes u and v, square to each other, mm."""

    @property
    def swept(self) -> Swept:
        """It as `corners_of` takes it."""
        return (self.centre, *self.axes, self.from_angle, self.sweep)

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.at(0.0)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.at(1.0)

    def at(self, share: float) -> Point:
        """Return the point at this share of the sweep, 0 to 1."""
        return self._on(self.from_angle + self.sweep * share)

    def _on(self, angle: float) -> Point:
        (u, v), cos, sin = self.axes, math.cos(angle), math.sin(angle)
        x, y = self.centre
        return Point(x + (u.x * cos + v.x * sin), y + (u.y * cos + v.y * sin))

    def pace(self, share: float) -> Point:
        """Return how the point at this share moves as the share grows, mm."""
        (u, v), angle = self.axes, self.from_angle + self.sweep * share
        return (v * math.cos(angle) - u * math.sin(angle)) * self.sweep

    def part(self, first: float, last: float) -> Self:
        """Return what lies between two shares of the sweep."""
        start = self.from_angle + self.sweep * first
        return replace(self, from_angle=start, sweep=self.sweep * (last - first))  # type: ignore[type-var]

    def reversed(self) -> Self:
        """Return the same arc run the other way."""
        return self.part(1.0, 0.0)

    @property
    def swept_area(self) -> float:
        """Half of ∮ x dy − y dx along it (Green): its chord and what bulges off it."""
        u, v = self.axes
        bulge = u.cross(v) * (self.sweep - math.sin(self.sweep))
        return (self.start.cross(self.end) + bulge) / 2

    @property
    def bounds(self) -> Bounds:
        """The upright box round it: its ends, and where it passes a summit of its ellipse."""
        u, v = self.axes
        reached = [self.start, self.end]
        for first in (math.atan2(v.x, u.x), math.atan2(v.y, u.y)):
            for angle in (first, first + math.pi):
                ahead = (angle - self.from_angle) % math.tau
                if ahead <= self.sweep or ahead - math.tau >= self.sweep:
                    reached.append(self._on(angle))
        return Bounds.around(reached)


def corners_of(curves: Sequence[Swept], tolerance: float, side: Side) -> Points:
    """Return the points of a polygon of curves end to end, (n, 2) mm, without the last end.

    Chords where a curve bulges away from the side to stay on; where it bulges towards it tangents,
    which meet at 1/cos(half the step). No point lies farther than `tolerance` from its curve.
    """
    if not any(sweep for *_, sweep in curves):
        return np.array([tuple(start) for start, *_ in curves]) + 0.0
    around = np.array([(*c, *u, *v) for c, u, v, _, _ in curves])
    ways = [
        _ways(start, sweep, arc_steps(max(u.norm, v.norm), sweep, tolerance), tip)
        for _, u, v, start, sweep in curves
        for tip in [sweep != 0 and (side == "inside") != (sweep > 0)]
    ]
    own = np.repeat(np.arange(len(curves)), [len(way) for way in ways])
    middle, u, v = around[own, :2], around[own, 2:4], around[own, 4:]
    across, up, reach = np.concatenate(ways).T[..., None]
    corners: Points = middle + (across * u + up * v) * reach
    return corners


@lru_cache(maxsize=128)
def _ways(start: float, sweep: float, steps: int, tip: bool) -> Points:
    """Return cosine, sine and reach of an arc's corners, (n, 3), by `math`: numpy's may differ."""
    shares = [max(place - 0.5 * tip, 0.0) / steps for place in range(steps + tip)]
    turns = [start + sweep * share for share in shares]
    out = 1 / math.cos(sweep / steps / 2) if tip else 1.0
    rows = [(math.cos(t), math.sin(t), out if k else 1.0) for k, t in enumerate(turns)]
    kept = np.array(rows)
    kept.flags.writeable = False
    return kept


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
