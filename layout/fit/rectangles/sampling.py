"""Real rectangles to start from: the gaps of many strips at many turns, drawn out up and down."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from ..wood.edges import Array, blocks
from .boxes import Boxes, Frames, Indices, strips
from .contacts import Inner
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
    reach: Array
    """(c, 2, 2) array: how far left and right, and down and up, to look, mm."""

    @classmethod
    def across(cls, low: float, high: float, edges: Array) -> Windows:
        """Return the strips between any two of some levels across the wood, at many turns.

        Even ones from `low` to `high`, and along and across the longest edges.
        """
        way = edges[:, 1] - edges[:, 0]
        longest = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_LONGEST_EDGES]
        along = np.arctan2(way[longest, 1], way[longest, 0])
        along = low + (np.concatenate([along, along + math.pi / 2]) - low) % math.pi
        even = low + (high - low) * np.arange(_EVEN_TURNS) / _EVEN_TURNS
        turns = np.unique(np.concatenate([even, along[along <= high]]).round(12))
        middle = (edges[:, 0].max(axis=0) + edges[:, 0].min(axis=0)) / 2
        y = Frames(turns, np.tile(middle, (len(turns), 1))).seen(edges[:, 0])[:, 1]
        least, step = y.min(axis=1)[:, None], np.ptp(y, axis=1)[:, None] / (_LEVELS - 1)
        bottom, top = (least + step * level for level in np.triu_indices(_LEVELS, 1))
        count = bottom.size
        frames = Frames(np.repeat(turns, bottom.shape[1]), np.tile(middle, (count, 1)))
        far = 4 * np.abs(edges).max() * np.array([-1.0, 1.0])
        return cls(frames, bottom.ravel(), top.ravel(), np.tile(far, (count, 2, 1)))

    @classmethod
    def within(cls, boxes: Boxes) -> Windows:
        """Return nine strips in each box: its lower and upper sides low, middling and high."""
        one, other = np.indices((3, 3)).reshape(2, 9) / 2
        low, least, most, high = boxes.sides[:, 1].T[..., None]
        bottom, top = (low + (least - low) * one).ravel(), (most + (high - most) * other).ravel()
        keep = np.flatnonzero(top - bottom > ROUNDING)
        own = boxes.take(keep // 9)
        return cls(own.frames, bottom[keep], top[keep], own.sides[..., ::3])


def rectangles(
    windows: Windows, edges: Array, recipe: Recipe, most: int | None = None
) -> list[Inner]:
    """Return the best inner rectangles, best first, of alike places and turns only one.

    As many as `most`. Where they may turn freely, each has its length along y.
    """
    some = blocks(len(windows.bottom), len(edges), _BUDGET)
    parts = [_gaps(windows, part, edges) for part in some]
    if not parts:
        return []
    strip, sides = (np.concatenate(column) for column in zip(*parts, strict=True))
    frames = windows.frames.take(strip)
    order = _best_first(sides, recipe)
    middle = (sides.mean(axis=2) @ [1, 1j]) * np.exp(1j * frames.turn) + frames.pivot @ [1, 1j]
    middle /= _PLACE * math.hypot(*np.ptp(edges[:, 0], axis=0))
    places = np.column_stack([middle.real, middle.imag, frames.turn / _TURN]).round()
    _, first = np.unique(places[order], axis=0, return_index=True)
    chosen = order[np.sort(first)[:most]]
    frames, sides = frames.take(chosen), sides[chosen]
    if most is not None:
        sides = _drawn_out(frames, sides, edges, windows.reach[strip[chosen], 1])
    found = [
        Inner.between(float(frames.turn[k]), frames.pivot[k], sides[k], recipe.radii[1])
        for k in _best_first(sides, recipe)
    ]
    is_free = recipe.sizes.wish.limits.most_turn >= math.pi / 2
    return [top.upright() for top in found] if is_free else found


def _best_first(sides: Array, recipe: Recipe) -> Indices:
    """Return rectangles by what they are worth, were the limits on the least sizes not there."""
    wide, long = (sides[..., 1] - sides[..., 0]).T + 2 * recipe.inset
    worth = recipe.sizes.promise(long, wide)
    return greatest_first(worth, tolerance=_ALIKE * float(worth.max(initial=0.0)))


def _gaps(windows: Windows, part: slice, edges: Array) -> tuple[Indices, Array]:
    """Return the strips with a gap, and the rectangle of each gap, (n, 2, 2), of some strips."""
    rows = np.arange(len(windows.bottom))[part]
    bottom, top = windows.bottom[part], windows.top[part]
    cut = strips(windows.frames.take(rows), bottom, top, edges)
    left, right = windows.reach[part, 0].T
    gaps = cut.gaps(left, right, np.full(len(rows), ROUNDING))
    sides = np.stack([gaps.start, gaps.end, bottom[gaps.strip], top[gaps.strip]], axis=1)
    return rows[gaps.strip], sides.reshape(-1, 2, 2)


def _drawn_out(frames: Frames, sides: Array, edges: Array, reach: Array) -> Array:
    """Return the rectangles drawn out along y to the next edges either way, within a reach."""
    across = Frames(frames.turn + math.pi / 2, frames.pivot)
    middle = sides[:, 1].mean(axis=1)
    cut = strips(across, -sides[:, 0, 1] + ROUNDING, -sides[:, 0, 0] - ROUNDING, edges)
    lowest, highest = reach.T
    gaps = cut.gaps(lowest, highest, np.zeros(len(sides)))
    here = (gaps.start <= middle[gaps.strip]) & (gaps.end >= middle[gaps.strip])
    longer, strip = sides.copy(), gaps.strip[here]
    longer[strip, 1, 0] = np.minimum(gaps.start[here], sides[strip, 1, 0])
    longer[strip, 1, 1] = np.maximum(gaps.end[here], sides[strip, 1, 1])
    return longer
