"""Choosing among things that are alike: within a stated tolerance, and then by where they lie.

Where two candidates are equally good their scores differ only by rounding, and rounding differs
from one processor to the next. So scores within a tolerance count as equal, and of equals the first
along goes before the others, then the first up. Places are compared within a tolerance too: not by
rounding them to a grid, which has edges of its own where the last bit decides.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import takewhile
from typing import TypeVar

PLACE_STEP = 0.01
"""mm within which two places are the same: far above rounding, far below what a tape can tell."""

Item = TypeVar("Item")
Place = Sequence[float]


def first_of_best(
    items: Iterable[Item],
    score: Callable[[Item], float],
    place: Callable[[Item], Place] | None = None,
    *,
    tolerance: float,
) -> Item:
    """Return the item with the greatest score; of those alike, the first by place.

    Parameters
    ----------
    place : callable, optional
        Where an item lies, along and then up, mm; without one the first of the alike goes.
    tolerance : float
        How far below the greatest score a score may stay and be alike.

    Raises
    ------
    ValueError
        If there are no items.

    Examples
    --------
    >>> first_of_best([3.0, 7.0, 7.0 + 1e-12], lambda x: x, lambda x: (-x,), tolerance=1e-9)
    7.0
    """
    scored = [(score(item), item) for item in items]
    greatest = max(value for value, _ in scored)
    alike = [item for value, item in scored if value >= greatest - tolerance]
    return alike[0] if place is None else _by_place(alike, place)[0]


def ranked(
    items: Iterable[Item],
    score: Callable[[Item], float],
    place: Callable[[Item], Place],
    *,
    tolerance: float,
) -> list[Item]:
    """Return the items, greatest score first; those within `tolerance` of a group's best by place.

    Examples
    --------
    >>> ranked([(5.0, 2), (9.0, 1), (5.0 + 1e-12, 1)], lambda x: x[0], lambda x: x[1:],
    ...        tolerance=1e-9)
    [(9.0, 1), (5.000000000001, 1), (5.0, 2)]
    """
    scored = sorted(((score(item), item) for item in items), key=lambda pair: -pair[0])
    order: list[Item] = []
    while len(order) < len(scored):
        rest = scored[len(order) :]
        count = sum(1 for _ in takewhile(_at_least(rest[0][0] - tolerance), (v for v, _ in rest)))
        order += _by_place([item for _, item in rest[:count]], place)
    return order


def _at_least(least: float) -> Callable[[float], bool]:
    return lambda value: value >= least


def _by_place(items: list[Item], place: Callable[[Item], Place]) -> list[Item]:
    """Return the items by place, coordinate by coordinate, each compared within `PLACE_STEP`."""
    if len(items) < 2:
        return items
    places = [tuple(place(item)) for item in items]
    return [items[i] for i in _in_order(list(range(len(items))), places, 0)]


def _in_order(numbers: list[int], places: Sequence[Place], axis: int) -> list[int]:
    """Return numbers by their places' coordinates from `axis` on; those alike in all keep order."""
    if len(numbers) < 2 or axis == len(places[0]):
        return sorted(numbers)
    left = sorted(numbers, key=lambda i: places[i][axis])
    order: list[int] = []
    while len(order) < len(left):
        rest = left[len(order) :]
        back = (-places[i][axis] for i in rest)
        least = _at_least(-places[rest[0]][axis] - PLACE_STEP)
        count = sum(1 for _ in takewhile(least, back))
        order += _in_order(rest[:count], places, axis + 1)
    return order
