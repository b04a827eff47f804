"""Real rectangles to start from: as large as a turn and a strip allow, found in one sweep.

In each strip the widest free gap gives a rectangle; it is then drawn out up and down to the next
edges. Many strips at many turns are tried at once, and the best go on to be polished.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from ..wood.edges import blocks
from .boxes import Boxes
from .gaps import Array, Frames, Indices, strips
from .inner import Inner
from .offset_wood import Recipe

_BUDGET = 60_000
"""Edges times strips that a sweep looks at in one go, so that its arrays stay in the cache."""

_ALIKE = 1e-9
"""Share of the best by which rectangles that are equal may differ by rounding."""

_PLACE, _TURN = 0.04, math.radians(4)
"""Share of the diagonal of all places, and angle, within which the best of all will do."""

_EVEN_TURNS = 16
_LONGEST_EDGES = 16
_LEVELS = 11
"""Heights across the wood between any two of which a strip is looked at."""


@dataclass(frozen=True, slots=True)
class Windows:
    """Strips to look for rectangles in, one a row."""

    frames: Frames
    bottom: Array
    top: Array
    """(c,) array: heights of the strips, mm."""
    x: Array
    y: Array
    """(c, 2) array: how far left and right, and down and up, to look, mm."""

    @classmethod
    def across(cls, low: float, high: float, edges: Array) -> Windows:
        """Return the strips between any two of some levels across the wood, at many turns.

        Even ones from `low` to `high`, and along and across the longest edges.
        """
        way = edges[:, 2:] - edges[:, :2]
        longest = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_LONGEST_EDGES]
        along = np.arctan2(way[longest, 1], way[longest, 0])
        along = low + (np.concatenate([along, along + math.pi / 2]) - low) % math.pi
        even = low + (high - low) * np.arange(_EVEN_TURNS) / _EVEN_TURNS
        turns = np.unique(np.concatenate([even, along[along <= high]]).round(12))
        middle = (edges[:, :2].max(axis=0) + edges[:, :2].min(axis=0)) / 2
        _, y, _, _ = Frames(turns, np.tile(middle, (len(turns), 1))).of(edges)
        least, step = y.min(axis=1)[:, None], np.ptp(y, axis=1)[:, None] / (_LEVELS - 1)
        bottom, top = (least + step * level for level in np.triu_indices(_LEVELS, 1))
        count = bottom.size
        frames = Frames(np.repeat(turns, bottom.shape[1]), np.tile(middle, (count, 1)))
        far = np.tile([-1.0, 1.0], (count, 1)) * 4 * np.abs(edges).max()
        return cls(frames, bottom.ravel(), top.ravel(), far, far)

    @classmethod
    def within(cls, boxes: Boxes) -> Windows:
        """Return nine strips in each box: its lower and upper sides low, middling and high."""
        share = np.array([0.0, 0.5, 1.0])
        one, other = (grid.ravel() for grid in np.meshgrid(share, share))
        y = boxes.y
        bottom = (y[:, :1] + (y[:, 1:2] - y[:, :1]) * one).ravel()
        top = (y[:, 2:3] + (y[:, 3:] - y[:, 2:3]) * other).ravel()
        keep = np.flatnonzero(top - bottom > ROUNDING)
        own = boxes.take(np.repeat(np.arange(len(boxes)), len(one))[keep])
        return cls(own.frames, bottom[keep], top[keep], own.x[:, ::3], own.y[:, ::3])


def rectangles(
    windows: Windows, edges: Array, recipe: Recipe, most: int | None = None
) -> list[Inner]:
    """Return the best inner rectangles, best first, of alike places and turns only one.

    Where they may turn freely, each has its length along y.

    Parameters
    ----------
    edges : (e, 4) array
    recipe : Recipe
        What they are wanted for: those that miss any point that they should hold count less.
    most : int, optional
        How many of them.
    """
    some = blocks(len(windows.bottom), len(edges), _BUDGET)
    parts = [_gaps(windows, part, edges) for part in some]
    if not parts:
        return []
    strip, sides = (np.concatenate(column) for column in zip(*parts, strict=True))
    order = _best_first(windows.frames.take(strip), sides, recipe)
    turn = windows.frames.turn[strip]
    middle = (sides[:, 0] + sides[:, 1] + 1j * (sides[:, 2] + sides[:, 3])) / 2 * np.exp(1j * turn)
    middle += windows.frames.pivot[strip] @ [1, 1j]
    apart = _PLACE * math.hypot(*np.ptp(edges[:, :2], axis=0))
    places = np.column_stack([middle.real / apart, middle.imag / apart, turn / _TURN]).round()
    _, first = np.unique(places[order], axis=0, return_index=True)
    chosen = order[np.sort(first)[:most]]
    strip, sides = strip[chosen], sides[chosen]
    frames = windows.frames.take(strip)
    if most is not None:
        sides = _drawn_out(frames, sides, edges, *windows.y[strip].T)
    found = [
        Inner.between(float(frames.turn[k]), frames.pivot[k], sides[k], recipe.radii[1])
        for k in _best_first(frames, sides, recipe)
    ]
    is_free = recipe.sizes.wish.limits.most_turn >= math.pi / 2
    return [top.upright() for top in found] if is_free else found


def _best_first(frames: Frames, sides: Array, recipe: Recipe) -> Indices:
    """Return rectangles by what they are worth, were the limits on the least sizes not there."""
    wide, high = sides[:, 1] - sides[:, 0], sides[:, 3] - sides[:, 2]
    worth = recipe.sizes.promise(high + 2 * recipe.inset, wide + 2 * recipe.inset)
    worth = worth * recipe.must.share(frames, sides)
    return greatest_first(worth, tolerance=_ALIKE * float(worth.max(initial=0.0)))


def _gaps(windows: Windows, part: slice, edges: Array) -> tuple[Indices, Array]:
    """Return the strips with a gap, and the rectangle of each gap, (n, 4) mm, of some strips."""
    rows = np.arange(len(windows.bottom))[part]
    bottom, top = windows.bottom[part], windows.top[part]
    cut = strips(windows.frames.take(rows), bottom, top, edges)
    low, high = windows.x[part].T
    gaps = cut.gaps(low, high, np.full(len(rows), ROUNDING))
    strip = rows[gaps.strip]
    return strip, np.stack([gaps.start, gaps.end, bottom[gaps.strip], top[gaps.strip]], axis=1)


def _drawn_out(frames: Frames, sides: Array, edges: Array, lowest: Array, highest: Array) -> Array:
    """Return the rectangles drawn out along y to the next edges either way."""
    if len(sides) == 0:
        return sides
    across = Frames(frames.turn + math.pi / 2, frames.pivot)
    middle = (sides[:, 2] + sides[:, 3]) / 2
    cut = strips(across, -sides[:, 1] + ROUNDING, -sides[:, 0] - ROUNDING, edges)
    gaps = cut.gaps(lowest, highest, np.zeros(len(sides)))
    here = (gaps.start <= middle[gaps.strip]) & (gaps.end >= middle[gaps.strip])
    longer, strip = sides.copy(), gaps.strip[here]
    longer[strip, 2] = np.minimum(gaps.start[here], sides[strip, 2])
    longer[strip, 3] = np.maximum(gaps.end[here], sides[strip, 3])
    return longer
