"""The largest clean rectangle of an offcut: what a maker can still cut from it.

A leftover is bounded by straight cuts, old edges and at most one curve, so its largest rectangle
lies along one of its longer edges. For each such direction the piece is cut into slabs across it;
over every run of slabs the edges leave gaps, and the widest gap inside the piece closes a
rectangle. The best of them is then grown side by side to the edges. It is proved inside the
piece by geometry; that none is larger is not proved.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ..geometry.placement import Placement, Points
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import ROUNDING

Array = NDArray[np.float64]

_SLABS = 16
"""Even cuts across a piece, besides its corners; the last growth makes up for their coarseness."""

_TURNS = 4
"""Directions tried: those of the longest edges."""

_SHORT = 0.2
"""Edges shorter than this share of the longest set no direction: they are bits of a curve."""

_SAME_TURN = 1e-6
"""Two directions nearer than this, radians, are one: 0.002 mm over two metres."""

_SAME_AREA = 1e-9
"""A piece as large as the box round it, but for rounding, is that box."""

_SMOOTH = 0.2
"""Farthest, mm, that a curve's polygon may move where slabs are searched."""


@dataclass(frozen=True, slots=True)
class CleanRectangle:
    """A rectangle wholly inside a piece and clear of its defects.

    Attributes
    ----------
    centre : Point
    length, width : float
        mm, ``length >= width``.
    turn : float
        Of its length from x, radians.
    """

    centre: Point
    length: float
    width: float
    turn: float = field(metadata={"unit": "rad"})

    @property
    def area(self) -> float:
        """Length times width, mm²."""
        return self.length * self.width

    @property
    def corners(self) -> Points:
        """Its corners, anticlockwise, (4, 2) mm."""
        x, y = self.length / 2, self.width / 2
        own = np.array([(-x, -y), (x, -y), (x, y), (-x, y)])
        return Placement(self.centre, self.turn).of(own)


@dataclass(frozen=True, slots=True)
class _Box:
    """An upright rectangle in a turned frame."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def area(self) -> float:
        return max(0.0, self.right - self.left) * max(0.0, self.top - self.bottom)

    def shrunk(self, by: float) -> _Box:
        return _Box(self.left + by, self.bottom + by, self.right - by, self.top - by)

    @property
    def region(self) -> Region:
        left, bottom, right, top = self.left, self.bottom, self.right, self.top
        ring = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
        return Region.from_rings(ring)


def largest_clean_rectangle(piece: Region) -> CleanRectangle | None:
    """Return the largest rectangle found inside a region; None where there is none to speak of."""
    best: tuple[float, _Box] | None = None
    for part in piece.pieces:
        for turn in _turns(part):
            if best is not None and best[1].area >= part.area * (1 - _SAME_AREA):
                break
            box = _largest_upright(part.placed(Placement(turn=-turn)))
            if box is not None and (best is None or box.area > best[1].area * (1 + 1e-9)):
                best = (turn, box)
    if best is None:
        return None
    turn, box = best
    length, width = box.right - box.left, box.top - box.bottom
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2).turned(turn)
    if width > length:
        length, width, turn = width, length, turn + math.pi / 2
    half = math.pi / 2
    return CleanRectangle(middle, length, width, half - (half - turn) % math.pi)


def _turns(part: Region) -> list[float]:
    """Return the directions of the longest edges in [0, a quarter turn), longest first."""
    rings = (part.exterior, *part.holes)
    steps = np.vstack([np.roll(ring, -1, axis=0) - ring for ring in rings])
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    turns = np.arctan2(steps[:, 1], steps[:, 0]) % (math.pi / 2)
    chosen: list[float] = []
    for k in np.lexsort((turns, -np.round(lengths, 3))):
        if lengths[k] < _SHORT * lengths.max():
            break
        turn = float(turns[k])
        if all(abs(math.sin(2 * (turn - other))) > _SAME_TURN for other in chosen):
            chosen.append(turn)
        if len(chosen) == _TURNS:
            break
    return chosen


def _largest_upright(part: Region) -> _Box | None:
    around = part.bounds
    whole = _Box(around.left, around.bottom, around.right, around.top)
    if part.area >= whole.area * (1 - _SAME_AREA):
        return _proved(part, whole)
    rough = part.simplified(_SMOOTH)
    edges = _edges(rough)
    cuts = _cuts(rough)
    start = _best_run(rough, edges, cuts)
    return None if start is None else _grown(part, start)


def _edges(region: Region) -> Array:
    """Return every edge of a region, (n, 4): x, y, x, y, from left to right."""
    rows = []
    for part in region.pieces:
        for ring in (part.exterior, *part.holes):
            rows.append(np.hstack([ring, np.roll(ring, -1, axis=0)]))
    edges = np.vstack(rows)
    flip = edges[:, 0] > edges[:, 2]
    edges[flip] = edges[flip][:, [2, 3, 0, 1]]
    return edges


def _cuts(region: Region) -> Array:
    """Return where to cut across: at even steps, beside every ring, and at some of the corners."""
    rings = [ring for part in region.pieces for ring in (part.exterior, *part.holes)]
    beside = [x for ring in rings for x in (ring[:, 0].min(), ring[:, 0].max())]
    corners = np.unique(np.round(np.concatenate([ring[:, 0] for ring in rings]), 6))
    if len(corners) > _SLABS:
        corners = corners[np.linspace(0, len(corners) - 1, _SLABS).round().astype(int)]
    even = np.linspace(corners[0], corners[-1], _SLABS + 1)
    return np.unique(np.round(np.concatenate([even, corners, beside]), 6))


def _best_run(region: Region, edges: Array, cuts: Array) -> _Box | None:
    best: _Box | None = None
    height = region.bounds.height
    for i, left in enumerate(cuts[:-1]):
        for right in cuts[:i:-1]:
            if best is not None and (right - left) * height <= best.area:
                break
            box = _widest_gap(region, edges, float(left), float(right))
            if box is not None and (best is None or box.area > best.area):
                best = box
    return best


def _widest_gap(region: Region, edges: Array, left: float, right: float) -> _Box | None:
    """Return the highest rectangle over [left, right] that no edge enters."""
    beside = (edges[:, 0] < right - ROUNDING) & (edges[:, 2] > left + ROUNDING)
    x0, y0, x1, y1 = edges[beside].T
    slope = (y1 - y0) / np.where(x1 > x0, x1 - x0, 1.0)
    at_left = np.where(x0 < left, y0 + slope * (left - x0), y0)
    at_right = np.where(x1 > right, y0 + slope * (right - x0), y1)
    low, high = np.minimum(at_left, at_right), np.maximum(at_left, at_right)
    order = np.argsort(low)
    floor = np.maximum.accumulate(high[order])[:-1]
    ceiling = low[order][1:]
    middle = (left + right) / 2
    for k in np.argsort(floor - ceiling, kind="stable"):
        if ceiling[k] - floor[k] <= 0:
            return None
        if region.holds_point(Point(middle, float(floor[k] + ceiling[k]) / 2)):
            return _Box(left, float(floor[k]), right, float(ceiling[k]))
    return None


def _grown(part: Region, box: _Box) -> _Box | None:
    """Return the box moved to a local best of the true piece, and proved inside it."""
    edges = _edges(part)
    best = _widest_gap(part, edges, box.left, box.right) or box
    step = part.bounds.width / _SLABS
    while step > 0.01:
        moves = [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step), (step, step), (-step, -step)]
        tried = [
            _widest_gap(part, edges, best.left + a, best.right + b)
            for a, b in moves
            if best.right + b > best.left + a
        ]
        better = max((t for t in tried if t is not None), key=lambda t: t.area, default=None)
        if better is not None and better.area > best.area * (1 + 1e-12):
            best = better
        else:
            step /= 2
    return _proved(part, best)


def _proved(part: Region, box: _Box) -> _Box | None:
    """Return the box, less the rounding of its sides, if it lies wholly inside the piece."""
    for spare in (0.0, ROUNDING, 100 * ROUNDING):
        inner = box.shrunk(spare)
        if inner.area > 0 and part.holds(inner.region):
            return inner
    return None
