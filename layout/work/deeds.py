"""Everything that is done from seeing a panel to selling the table: its hours, and its days.

The order of the members is the order of the work; `order` leaves out what a job does not need, and
comes back to dust and coats as often as it must. Work fills the hours at the bench, waits run
through the night.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum


class Deed(Enum):
    """A step of the work; the value is the name that a job file uses for its hours."""

    ASK = "see and ask"
    CLEAN = "clean"
    TEST = "test for lead"
    METAL = "find metal"
    STRIP = "strip"
    SHORTEN = "cut short"
    FLATTEN = "flatten"
    REST = "rest"
    MARK = "mark"
    CHECK = "check"
    FIT = "dry fit"
    MEND = "mend"
    CUT = "cut"
    LIP = "lip"
    EDGE = "edge"
    PROFILE = "shape the edge"
    SAND = "sand"
    MASK = "mask"
    RAISE = "raise the grain"
    DUST = "dust off"
    UNDERSIDE = "coat the underside"
    BATTENS = "battens"
    LEGS = "legs"
    RUB = "rub down"
    COAT = "coat the top"
    LEVEL = "level"
    PHOTOGRAPH = "photograph"
    WEIGH = "weigh"


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


@dataclass(frozen=True, slots=True)
class Effort:
    """How long a step takes, for one of what it is counted by."""

    least: float
    most: float
    """Hours."""
    per: Per


EFFORTS = {
    Deed.ASK: Effort(0.25, 0.5, Per.PIECE),
    Deed.CLEAN: Effort(0.15, 0.4, Per.PANEL),
    Deed.TEST: Effort(0.1, 0.25, Per.PIECE),
    Deed.METAL: Effort(0.25, 0.75, Per.PIECE),
    Deed.STRIP: Effort(0.5, 1.5, Per.STRIPPED),
    Deed.SHORTEN: Effort(0.25, 0.5, Per.PIECE),
    Deed.FLATTEN: Effort(0.75, 2.0, Per.PANEL),
    Deed.MARK: Effort(0.5, 1.0, Per.PIECE),
    Deed.CHECK: Effort(0.15, 0.4, Per.PIECE),
    Deed.FIT: Effort(0.25, 0.5, Per.PIECE),
    Deed.MEND: Effort(0.3, 1.0, Per.MEND),
    Deed.CUT: Effort(0.15, 0.35, Per.CUT),
    Deed.LIP: Effort(0.2, 0.5, Per.EDGE),
    Deed.EDGE: Effort(0.1, 0.25, Per.EDGE),
    Deed.PROFILE: Effort(0.05, 0.15, Per.EDGE),
    Deed.SAND: Effort(0.25, 0.6, Per.FACES),
    Deed.MASK: Effort(0.05, 0.1, Per.LEG),
    Deed.RAISE: Effort(0.1, 0.2, Per.FACES),
    Deed.DUST: Effort(0.05, 0.1, Per.TOP),
    Deed.UNDERSIDE: Effort(0.1, 0.25, Per.COATED),
    Deed.BATTENS: Effort(0.3, 0.75, Per.BATTEN),
    Deed.LEGS: Effort(0.15, 0.4, Per.LEG),
    Deed.RUB: Effort(0.1, 0.2, Per.TOP),
    Deed.COAT: Effort(0.1, 0.25, Per.COATED),
    Deed.LEVEL: Effort(0.2, 0.5, Per.PIECE),
    Deed.PHOTOGRAPH: Effort(0.25, 0.75, Per.PIECE),
    Deed.WEIGH: Effort(0.05, 0.15, Per.PIECE),
}
"""Hours of a practised hand (our estimate of common practice); the maker's own go before them."""

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
