"""The one way to choose among things that may be alike: within a tolerance, then along, then up.

A plain `max` or `sorted` lets the last bits of sums decide, which differ between processors. Groups
of alike things begin at the best, not on a grid: at its edges the last bit would decide again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
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

    A score is one figure, or a tuple of them, the one that counts most first; `tolerance` is how
    much less than the greatest is alike, one for each figure. The place is where an item lies, mm,
    along, then up: the lowest is the first, and places nearer than `SAME_PLACE` are one. Raises a
    ValueError if there is no item.

    >>> holes = [(0.1 + 0.2, 7.0), (0.3, 4.0), (0.2, 1.0)]
    >>> first_of_best(holes, lambda hole: hole[0], lambda hole: (hole[1],), tolerance=1e-9)
    (0.3, 4.0)
    """
    for item in _in_order(items, score, place, tolerance):
        return item
    raise ValueError("there is nothing to choose from")


def ranked(
    items: Iterable[T],
    score: Callable[[T], Score],
    place: Callable[[T], tuple[float, ...]] | None = None,
    *,
    tolerance: Score,
) -> list[T]:
    """Return the items, greatest score first, alike ones by place, then as given.

    A group of alike items begins at the greatest score that is left; all else as `first_of_best`.

    >>> ranked("badc", lambda _: 1.0, lambda name: (ord(name),), tolerance=0.0)
    ['a', 'b', 'c', 'd']
    """
    return list(_in_order(items, score, place, tolerance))


def _in_order(
    items: Iterable[T],
    score: Callable[[T], Score],
    place: Callable[[T], tuple[float, ...]] | None,
    tolerance: Score,
) -> Iterator[T]:
    """Yield the items in order; a group within which figures are alike is only then ordered."""
    held, alike = list(items), _several(tolerance)
    rows = [
        (*(-figure for figure in _several(score(item))), *(place(item) if place else ()))
        for item in held
    ]

    def ordered(left: list[int], k: int) -> Iterator[T]:
        if left and k == len(rows[left[0]]):
            yield from (held[i] for i in left)
            return
        while left:
            most = min(rows[i][k] for i in left) + (alike[k] if k < len(alike) else SAME_PLACE)
            yield from ordered([i for i in left if rows[i][k] <= most], k + 1)
            left = [i for i in left if rows[i][k] > most]

    return ordered(list(range(len(held))), 0)


def _several(score: Score) -> tuple[float, ...]:
    return score if isinstance(score, tuple) else (score,)


def greatest_first(values: Array, *, tolerance: float) -> NDArray[np.intp]:
    """Return the order of some values, (n,) array: the greatest first, alike ones as they stand.

    Values that follow one another by less than the tolerance are alike: what `ranked` does, for
    arrays of thousands.

    >>> greatest_first(np.array([0.3, 0.1, 0.1 + 0.2, 0.7]), tolerance=1e-9).tolist()
    [3, 0, 2, 1]
    """
    order = np.argsort(-values, kind="stable")
    group = np.cumsum(-np.diff(values[order], prepend=np.inf) > tolerance)
    return order[np.lexsort((order, group))]


def at_least(value: float, least: float, tolerance: float = ROUNDING) -> bool:
    """Return whether a value reaches a limit that exact inputs may meet.

    >>> at_least(0.1 + 0.7, 0.8), at_most(0.1 + 0.2, 0.3)
    (True, True)
    """
    return value >= least - tolerance


def at_most(value: float, most: float, tolerance: float = ROUNDING) -> bool:
    """Return whether a value keeps to a limit that exact inputs may meet."""
    return value <= most + tolerance
