"""Everything that is done from seeing a panel to selling the table: its hours, and its days.

The order of the members is the order of the work; `order` leaves out what a job does not need, and
comes back to dust and coats as often as it must. Work fills the hours at the bench, waits run
through the night.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum


class Per(Enum):
    """What the hours of a step are counted by; the value is its unit in a table."""

    PIECE = "job"
    PANEL = "m² of panel"
    STRIPPED = "m² stripped"
    TOP = "m² of top"
    FACES = "m² of both faces and edge"
    COATED = "m² a coat"
    EDGE = "m of edge"
    CUT = "saw line"
    MEND = "mend"
    BATTEN = "batten"
    LEG = "leg"


class Deed(Enum):
    """A step of the work; the value is the name that a job file uses for its hours.

    Beside it the hours of a practised hand, least and most, for one of what they are counted by
    (our estimate of common practice); the maker's own go before them.
    """

    ASK = "see and ask", 0.25, 0.5, Per.PIECE
    CLEAN = "clean", 0.15, 0.4, Per.PANEL
    TEST = "test for lead", 0.1, 0.25, Per.PIECE
    METAL = "find metal", 0.25, 0.75, Per.PIECE
    STRIP = "strip", 0.5, 1.5, Per.STRIPPED
    SHORTEN = "cut short", 0.25, 0.5, Per.PIECE
    FLATTEN = "flatten", 0.75, 2.0, Per.PANEL
    REST = "rest", 0.0, 0.0, Per.PIECE
    MARK = "mark", 0.5, 1.0, Per.PIECE
    CHECK = "check", 0.15, 0.4, Per.PIECE
    FIT = "dry fit", 0.25, 0.5, Per.PIECE
    MEND = "mend", 0.3, 1.0, Per.MEND
    CUT = "cut", 0.15, 0.35, Per.CUT
    LIP = "lip", 0.2, 0.5, Per.EDGE
    EDGE = "edge", 0.1, 0.25, Per.EDGE
    PROFILE = "shape the edge", 0.05, 0.15, Per.EDGE
    SAND = "sand", 0.25, 0.6, Per.FACES
    MASK = "mask", 0.05, 0.1, Per.LEG
    RAISE = "raise the grain", 0.1, 0.2, Per.FACES
    DUST = "dust off", 0.05, 0.1, Per.TOP
    UNDERSIDE = "coat the underside", 0.1, 0.25, Per.COATED
    BATTENS = "battens", 0.3, 0.75, Per.BATTEN
    LEGS = "legs", 0.15, 0.4, Per.LEG
    RUB = "rub down", 0.1, 0.2, Per.TOP
    COAT = "coat the top", 0.1, 0.25, Per.COATED
    LEVEL = "level", 0.2, 0.5, Per.PIECE
    PHOTOGRAPH = "photograph", 0.25, 0.75, Per.PIECE
    WEIGH = "weigh", 0.05, 0.15, Per.PIECE

    _value_: str
    least: float
    most: float
    per: Per

    def __new__(cls, name: str, least: float, most: float, per: Per) -> Deed:
        """Return a step that is found again by its name."""
        deed = object.__new__(cls)
        deed._value_ = name
        deed.least, deed.most, deed.per = least, most, per
        return deed


WORKDAY = 8.0
"""Hours at the bench in a day (common practice)."""

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

    Of each task are given the hours of work, then those of waiting; of a day those at the bench.
    Six hours, a wait of 12 through the night, three hours, 24 to dry:

    >>> [day.most for day in days_of([((6, 6), (12, 12)), ((3, 3), (24, 24))], workday=8)]
    [1, 2, 3]
    """
    least, most = (_begun([(work[k], wait[k]) for work, wait in tasks], workday) for k in (0, 1))
    return tuple(Day(*both) for both in zip(least, most, strict=True))


def _begun(tasks: Sequence[Range], workday: float) -> list[int]:
    def at_bench(clock: float) -> float:
        """Return the first hour at the bench from an hour on."""
        day, hour = divmod(clock + _SLACK, 24)
        return (day + 1) * 24 if hour >= workday else clock

    days, clock = [], 0.0
    for work, wait in [*tasks, (0.0, 0.0)]:
        clock = at_bench(clock)
        days.append(int(clock // 24) + 1)
        while work > _SLACK:
            clock = at_bench(clock)
            done = min(work, workday - clock % 24)
            clock, work = clock + done, work - done
        clock += wait
    return days
