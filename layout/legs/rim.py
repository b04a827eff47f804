"""A closed line made ready to be hit by rays: how far it is from a point inside to the line."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.segments import Arc, Line

Array = NDArray[np.float64]

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Rim:
    """The segments of a closed path as rows of figures.

    Attributes
    ----------
    lines : (m, 4) array
        Start, and the way from it to the end, mm.
    arcs : (n, 7) array
        Centre, half-axes, turn of the first axis, lowest angle and width of the sweep.
    """

    lines: Array
    arcs: Array

    @classmethod
    def of(cls, path: Path) -> Rim:
        """Return the rim of a closed path."""
        lines, arcs = [], []
        for s in path.segments:
            if isinstance(s, Line):
                lines.append((*s.start, *(s.end - s.start)))
                continue
            low = min(s.from_angle, s.from_angle + s.sweep)
            if isinstance(s, Arc):
                arcs.append((*s.centre, s.radius, s.radius, 0.0, low, abs(s.sweep)))
            else:
                axes = (s.half_length, s.half_width, s.turn)
                arcs.append((*s.centre, *axes, low, abs(s.sweep)))
        return cls(np.array(lines).reshape(-1, 4), np.array(arcs).reshape(-1, 7))

    def way_out(self, start: Point, way: Point) -> float:
        """Return how far it is from a point inside to the line along a unit vector, mm.

        The farthest crossing, where there are several; infinite where there is none.
        """
        ahead = np.concatenate([self._over_lines(start, way), self._over_arcs(start, way)])
        ahead = ahead[ahead > -_ROUNDING]
        return float(ahead.max()) if len(ahead) else math.inf

    def _over_lines(self, start: Point, way: Point) -> Array:
        x, y, along_x, along_y = self.lines.T
        slope = way.x * along_y - way.y * along_x
        sound = np.abs(slope) > 1e-12 * np.hypot(along_x, along_y)
        slope = np.where(sound, slope, 1.0)
        off_x, off_y = x - start.x, y - start.y
        share = (off_x * way.y - off_y * way.x) / slope
        hit = sound & (share >= -_ROUNDING) & (share <= 1 + _ROUNDING)
        found: Array = ((off_x * along_y - off_y * along_x) / slope)[hit]
        return found

    def _over_arcs(self, start: Point, way: Point) -> Array:
        """Each ellipse is made a unit circle; distances along the ray stay what they are."""
        x, y, a, b, turn, low, sweep = self.arcs.T
        cos, sin = np.cos(turn), np.sin(turn)
        off_x, off_y = start.x - x, start.y - y
        own_x, own_y = (cos * off_x + sin * off_y) / a, (cos * off_y - sin * off_x) / b
        way_x, way_y = (cos * way.x + sin * way.y) / a, (cos * way.y - sin * way.x) / b
        half, square = own_x * way_x + own_y * way_y, way_x**2 + way_y**2
        root = half**2 - square * (own_x**2 + own_y**2 - 1)
        meets = root >= 0
        root = np.sqrt(np.where(meets, root, 0.0))
        found = []
        for sign in (-1.0, 1.0):
            t = (sign * root - half) / square
            angle = (np.arctan2(own_y + t * way_y, own_x + t * way_x) - low) % math.tau
            swept = (angle <= sweep + _ROUNDING) | (angle >= math.tau - _ROUNDING)
            found.append(t[meets & swept])
        return np.concatenate(found)
