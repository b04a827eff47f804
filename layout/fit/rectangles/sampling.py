"""Real rectangles to start from: as large as a turn and a strip allow, found in one sweep.

In each strip the widest free gap gives a rectangle; it is then drawn out up and down to the next
edges. Many strips at many turns are tried at once, and the best go on to be polished.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.tolerance import ROUNDING
from .boxes import Boxes
from .gaps import Array, Frames, strips
from .holding import NOTHING, Points
from .sizes import Sizes

_BUDGET = 60_000
"""Edges times strips that a sweep looks at in one go, so that its arrays stay in the cache."""

ALIKE = 1e-9
"""Share of the best by which rectangles that are equal may differ by rounding."""


@dataclass(frozen=True, slots=True)
class Windows:
    """Strips to look for rectangles in, one a row."""

    frames: Frames
    bottom: Array
    top: Array
    """(c,) array: heights of the strips, mm."""
    low: Array
    high: Array
    """(c,) array: how far left and right to look, mm."""
    lowest: Array
    highest: Array
    """(c,) array: how far down and up, mm."""

    @classmethod
    def across(cls, turns: Array, levels: int, edges: Array) -> Windows:
        """Return the strips between any two of some levels across the wood, at each turn."""
        middle = (edges[:, :2].max(axis=0) + edges[:, :2].min(axis=0)) / 2
        frames = Frames(turns, np.repeat(middle[None], len(turns), axis=0))
        _, y, _, _ = frames.of(edges)
        below, above = np.triu_indices(levels, 1)
        least, extent = y.min(axis=1)[:, None], np.ptp(y, axis=1)[:, None]
        count = len(below)
        bottom = (least + extent * below / (levels - 1)).ravel()
        top = (least + extent * above / (levels - 1)).ravel()
        far = np.full(len(bottom), _far(edges))
        wide = Frames(np.repeat(turns, count), np.repeat(frames.pivot, count, axis=0))
        return cls(wide, bottom, top, -far, far, -far, far)

    @classmethod
    def within(cls, boxes: Boxes) -> Windows:
        """Return nine strips in each box: its lower and upper sides low, middling and high."""
        share = np.array([0.0, 0.5, 1.0])
        one, other = (grid.ravel() for grid in np.meshgrid(share, share))
        y = boxes.y
        bottom = (y[:, :1] + (y[:, 1:2] - y[:, :1]) * one).ravel()
        top = (y[:, 2:3] + (y[:, 3:] - y[:, 2:3]) * other).ravel()
        rows = np.repeat(np.arange(len(boxes)), len(one))
        keep = np.flatnonzero(top - bottom > ROUNDING)
        rows = rows[keep]
        own = boxes.take(rows)
        return cls(
            own.frames,
            bottom[keep],
            top[keep],
            own.x[:, 0],
            own.x[:, 3],
            own.y[:, 0],
            own.y[:, 3],
        )


@dataclass(frozen=True, slots=True)
class Found:
    """Rectangles found, best first."""

    frames: Frames
    sides: Array
    """(n, 4) array: left, right, bottom and top, mm."""
    score: Array
    """(n,) array: what they are worth, were the limits on the least sizes not there."""


def rectangles(
    windows: Windows, edges: Array, sizes: Sizes, inset: float, most: int, held: Points = NOTHING
) -> Found:
    """Return the best rectangles, at most `most`, no two with the same turn.

    Parameters
    ----------
    edges : (e, 4) array
    inset : float
        How far the inner rectangle lies inside the finished top, mm.
    held : Points
        What they should hold: those that miss any count less.
    """
    chunk = max(1, _BUDGET // max(1, len(edges)))
    parts = [
        widest(windows, slice(start, start + chunk), edges, sizes, inset)
        for start in range(0, max(1, len(windows.bottom)), chunk)
    ]
    strip = np.concatenate([rows for rows, _, _ in parts]).astype(np.intp)
    sides = np.concatenate([found for _, found, _ in parts])
    worth = np.concatenate([worth for _, _, worth in parts])
    frames = Frames(windows.frames.turn[strip], windows.frames.pivot[strip])
    worth = worth * held.share(frames, sides)
    order = greatest_first(worth, tolerance=ALIKE * float(worth.max(initial=0.0)))
    _, first = np.unique(windows.frames.turn[strip[order]], return_index=True)
    chosen = order[np.sort(first)[:most]]
    frames = Frames(windows.frames.turn[strip[chosen]], windows.frames.pivot[strip[chosen]])
    lowest, highest = windows.lowest[strip[chosen]], windows.highest[strip[chosen]]
    sides = _drawn_out(frames, sides[chosen], edges, lowest, highest)
    score = _worth(sizes, sides, inset) * held.share(frames, sides)
    order = greatest_first(score, tolerance=ALIKE * float(score.max(initial=0.0)))
    return Found(Frames(frames.turn[order], frames.pivot[order]), sides[order], score[order])


def _worth(sizes: Sizes, sides: Array, inset: float) -> Array:
    length, width = sizes.trimmed(
        sides[:, 3] - sides[:, 2] + 2 * inset, sides[:, 1] - sides[:, 0] + 2 * inset
    )
    short = np.minimum(length / sizes.least_length, width / sizes.least_width)
    score: Array = sizes.score(length, width) * np.minimum(short, 1.0)
    return score


def widest(
    windows: Windows, part: slice, edges: Array, sizes: Sizes, inset: float
) -> tuple[Array, Array, Array]:
    """Return the strips with a gap, the rectangle of each gap, and its worth, for some strips."""
    frames = Frames(windows.frames.turn[part], windows.frames.pivot[part])
    bottom, top = windows.bottom[part], windows.top[part]
    cut = strips(frames, bottom, top, edges)
    gaps = cut.gaps(windows.low[part], windows.high[part], np.full(len(bottom), ROUNDING))
    sides = np.stack([gaps.start, gaps.end, bottom[gaps.strip], top[gaps.strip]], axis=1)
    return gaps.strip + part.start, sides, _worth(sizes, sides, inset)


def _drawn_out(frames: Frames, sides: Array, edges: Array, lowest: Array, highest: Array) -> Array:
    """Return the rectangles drawn out along y to the next edges either way."""
    if len(sides) == 0:
        return sides
    across = Frames(frames.turn + math.pi / 2, frames.pivot)
    middle = (sides[:, 2] + sides[:, 3]) / 2
    cut = strips(across, -sides[:, 1] + ROUNDING, -sides[:, 0] - ROUNDING, edges)
    gaps = cut.gaps(lowest, highest, np.zeros(len(sides)))
    here = (gaps.start <= middle[gaps.strip]) & (gaps.end >= middle[gaps.strip])
    longer = sides.copy()
    longer[gaps.strip[here], 2] = np.minimum(gaps.start[here], sides[gaps.strip[here], 2])
    longer[gaps.strip[here], 3] = np.maximum(gaps.end[here], sides[gaps.strip[here], 3])
    return longer


def _far(edges: Array) -> float:
    """Return a distance beyond all edges from any place among them, mm."""
    return 4 * float(np.abs(edges).max())
