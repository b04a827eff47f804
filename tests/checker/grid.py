"""The largest rectangle in a piece of wood by brute force: every one on a grid, at many turns."""

from __future__ import annotations

import math

import numpy as np
import shapely
from checker.plane import Frame
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

CELLS = 90
"""Along the longer side of the piece."""


def largest_on_a_grid(piece: BaseGeometry) -> float:
    """Return the area of the largest rectangle found, mm²; all of it is in the region."""
    return max((_at(piece, turn) for turn in _turns(piece)), default=0.0)


def _turns(piece: BaseGeometry) -> list[float]:
    """Return the directions of the longest sides, a quarter turn apart from each other at most."""
    sides: dict[int, float] = {}
    for part in getattr(piece.simplify(0.5), "geoms", [piece.simplify(0.5)]):
        rows = np.asarray(part.exterior.coords)
        for x, y in np.diff(rows, axis=0):
            turn = round(math.degrees(math.atan2(y, x)) % 90.0)
            sides[turn % 90] = sides.get(turn % 90, 0.0) + math.hypot(x, y)
    longest = sorted(sides, key=lambda turn: -sides[turn])[:4]
    return [math.radians(turn) for turn in {0, *longest}]


def _at(piece: BaseGeometry, turn: float) -> float:
    """Return the largest that lies at one turn."""
    turned = Frame((0.0, 0.0), turn).taken(piece)
    left, low, right, high = turned.bounds
    pitch = max(right - left, high - low) / CELLS
    xs = np.arange(left, right + pitch, pitch)
    ys = np.arange(low, high + pitch, pitch)
    grid = shapely.contains_xy(turned.buffer(1e-6), *np.meshgrid(xs, ys))
    cells = grid[:-1, :-1] & grid[1:, :-1] & grid[:-1, 1:] & grid[1:, 1:]
    best, heights = 0.0, np.zeros(cells.shape[1], dtype=int)
    for i, row in enumerate(cells):
        heights = np.where(row, heights + 1, 0)
        best = max(best, _row(heights, turned, (xs, ys), i, best))
    return best


def _row(
    heights: np.ndarray,
    turned: BaseGeometry,
    axes: tuple[np.ndarray, np.ndarray],
    row: int,
    best: float,
) -> float:
    """Return the largest rectangle of which this is the uppermost row, if it beats the best."""
    xs, ys = axes
    stack: list[tuple[int, int]] = []
    for j, height in enumerate([*heights.tolist(), 0]):
        start = j
        while stack and stack[-1][1] >= height:
            start, tall = stack.pop()
            box = (xs[start], ys[row + 1 - tall], xs[j], ys[row + 1])
            area = (box[2] - box[0]) * (box[3] - box[1])
            if area > best and turned.buffer(1e-6).covers(_rectangle(*box)):
                best = float(area)
        stack.append((start, height))
    return best


def _rectangle(left: float, low: float, right: float, high: float) -> Polygon:
    return Polygon([(left, low), (right, low), (right, high), (left, high)])
