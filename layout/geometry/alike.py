"""The one way to choose among things that may be alike: within a tolerance, then by position.

Sums of the same terms differ in their last bits from one processor to the next. Where two things
are alike, a plain `max` or `sorted` lets those bits decide. Here scores within a stated tolerance
of the best are one score, and of alike things the first by place is taken: along, then up. Groups
begin at the best, not on a grid: a grid has edges where the last bit decides again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from .tolerance import ROUNDING, SAME_PLACE

T = TypeVar("T")
Array = NDArray[np.float64]

Score = float | tuple[float, ...]
"""One figure, or several of which each counts where those before it are alike."""


def first_of_best(
    items: Iterable[T],
    score: Callable[[T], Score],
    place: Callable[[T], tuple[float, ...]] | None = None,
    *,
    tolerance: Score,
) -> T:
    """Return the item with the greatest score, of alike ones the first by place, then as given.

    Parameters
    ----------
    score : callable
        One figure, or a tuple of them, the one that counts most first.
    place : callable, optional
        Where an item lies, mm: along, then up; the lowest is the first. Places nearer than
        `SAME_PLACE` are one.
    tolerance : float or tuple of float
        How much less than the greatest score is alike; one for each figure of a score.

    Raises
    ------
    ValueError
        If there is no item.

    Examples
    --------
    >>> holes = [(0.1 + 0.2, 7.0), (0.3, 4.0), (0.2, 1.0)]
    >>> first_of_best(holes, lambda hole: hole[0], lambda hole: (hole[1],), tolerance=1e-9)
    (0.3, 4.0)
    """
    held = list(items)
    if not held:
        raise ValueError("there is nothing to choose from")
    rows, steps = _rows(held, score, place, tolerance)
    left = list(range(len(held)))
    for k, step in enumerate(steps):
        left = _lowest(left, rows, k, step)
    return held[left[0]]


def ranked(
    items: Iterable[T],
    score: Callable[[T], Score],
    place: Callable[[T], tuple[float, ...]] | None = None,
    *,
    tolerance: Score,
) -> list[T]:
    """Return the items, greatest score first, alike ones by place, then as given.

    A group of alike items begins at the greatest score that is left. The parameters are those of
    `first_of_best`.

    Examples
    --------
    >>> ranked("badc", lambda _: 1.0, lambda name: (ord(name),), tolerance=0.0)
    ['a', 'b', 'c', 'd']
    """
    held = list(items)
    rows, steps = _rows(held, score, place, tolerance)
    return [held[i] for i in _in_order(list(range(len(held))), rows, steps, 0)]


def greatest_first(values: Array, *, tolerance: float) -> NDArray[np.intp]:
    """Return the order of some values, (n,) array: the greatest first, alike ones as they stand.

    Values that follow one another by less than the tolerance are alike: what `ranked` does, for
    arrays of thousands.

    Examples
    --------
    >>> greatest_first(np.array([0.3, 0.1, 0.1 + 0.2, 0.7]), tolerance=1e-9).tolist()
    [3, 0, 2, 1]
    """
    order = np.argsort(-values, kind="stable")
    group = np.cumsum(-np.diff(values[order], prepend=np.inf) > tolerance)
    return order[np.lexsort((order, group))]


def _rows(
    items: Sequence[T],
    score: Callable[[T], Score],
    place: Callable[[T], tuple[float, ...]] | None,
    tolerance: Score,
) -> tuple[list[tuple[float, ...]], list[float]]:
    """Return the figures of each item, lowest first, and how far alike ones may differ."""
    rows = []
    for item in items:
        at = () if place is None else place(item)
        rows.append((*(-figure for figure in _several(score(item))), *at))
    alike = _several(tolerance)
    places = max(map(len, rows), default=0) - len(alike)
    return rows, [*alike, *[SAME_PLACE] * places]


def _several(score: Score) -> tuple[float, ...]:
    return score if isinstance(score, tuple) else (score,)


def _lowest(left: list[int], rows: Sequence[tuple[float, ...]], k: int, step: float) -> list[int]:
    """Return those of which figure `k` is the lowest within a step."""
    lowest = min(rows[i][k] for i in left)
    return [i for i in left if rows[i][k] <= lowest + step]


def _in_order(
    left: list[int], rows: Sequence[tuple[float, ...]], steps: Sequence[float], k: int
) -> list[int]:
    if k == len(steps) or len(left) < 2:
        return left
    ordered: list[int] = []
    while left:
        group = _lowest(left, rows, k, steps[k])
        ordered += _in_order(group, rows, steps, k + 1)
        taken = set(group)
        left = [i for i in left if i not in taken]
    return ordered


def at_least(value: float, least: float, tolerance: float = ROUNDING) -> bool:
    """Return whether a value reaches a limit that exact inputs may meet.

    >>> at_least(0.1 + 0.7, 0.8), at_most(0.1 + 0.2, 0.3)
    (True, True)
    """
    return value >= least - tolerance


def at_most(value: float, most: float, tolerance: float = ROUNDING) -> bool:
    """Return whether a value keeps to a limit that exact inputs may meet."""
    return value <= most + tolerance
