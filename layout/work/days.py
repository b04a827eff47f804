"""On which day each step begins: work fills the hours at the bench, waits run through the night."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Range = tuple[float, float]
"""Hours, least and most."""

_SLACK = 1e-9
"""A day that ends with its last hour is no day later by rounding, hours."""


@dataclass(frozen=True, slots=True)
class Day:
    """A day, counted from 1: the earliest and the latest that it can be."""

    least: int
    most: int


def days_of(tasks: Sequence[tuple[Range, Range]], workday: float) -> tuple[Day, ...]:
    """Return the day on which each task begins, and the day after the last wait.

    Parameters
    ----------
    tasks : sequence of pairs of ranges
        Of each task the hours of work, then those of waiting.
    workday : float
        Hours at the bench in a day.

    Examples
    --------
    Six hours, a wait of 12 through the night, three hours, 24 to dry:

    >>> [day.most for day in days_of([((6, 6), (12, 12)), ((3, 3), (24, 24))], workday=8)]
    [1, 2, 3]
    """
    least = _one_way([(work[0], wait[0]) for work, wait in tasks], workday)
    most = _one_way([(work[1], wait[1]) for work, wait in tasks], workday)
    return tuple(Day(*both) for both in zip(least, most, strict=True))


def _one_way(tasks: Sequence[Range], workday: float) -> list[int]:
    days, clock = [], 0.0
    for work, wait in tasks:
        clock = _at_work(clock, workday)
        days.append(int(clock // 24) + 1)
        clock = _worked(clock, work, workday) + wait
    return [*days, int(_at_work(clock, workday) // 24) + 1]


def _at_work(clock: float, workday: float) -> float:
    """Return the first hour at the bench from an hour on."""
    day, hour = divmod(clock + _SLACK, 24)
    return (day + 1) * 24 if hour >= workday else clock


def _worked(clock: float, work: float, workday: float) -> float:
    """Return the hour at which so much work is done."""
    while work > _SLACK:
        clock = _at_work(clock, workday)
        done = min(work, workday - clock % 24)
        clock, work = clock + done, work - done
    return clock
