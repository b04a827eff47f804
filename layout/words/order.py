"""The whole work in words: every step, how long it takes, and what is waited for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from ..legs.wish import Fixing
from ..work.deeds import Day, Deed
from ..work.order import Task, WorkOrder
from .say import Passage, Table, capital, counted, listed, passage, ranged, whole_up

TITLES = {
    Deed.ASK: "See it, ask for its history. What was it, how old, where did it stand, what is on "
    "it? Measure it, knock on it, look under it; leave it where an answer is bad.",
    Deed.CLEAN: "Wash it. Both faces and the edges with a wrung-out cloth, warm water and a little "
    "soap; stand it on edge to dry overnight.",
    Deed.TEST: "Test the old coat for lead. In three places, down to the wood, with a kit or by a "
    "laboratory; until lead is ruled out it is treated as lead.",
    Deed.METAL: "Find and pull all metal",
    Deed.STRIP: "Take the old coat off. With stripper and scraper, on a sheet that catches all of "
    "it, then washed down",
    Deed.SHORTEN: "Cut it short",
    Deed.FLATTEN: "Flatten it",
    Deed.REST: "Let it rest",
    Deed.MARK: "Mark out",
    Deed.CHECK: "check the distances",
    Deed.CUT: "Cut the top out",
    Deed.LIP: "Glue the lipping on",
    Deed.EDGE: "Edge it",
    Deed.MASK: "Mask where the legs are glued. Inside the pencil lines: glue holds on bare wood "
    "only.",
    Deed.RAISE: "Raise the grain. Wipe it evenly with a wet cloth and let it dry: the fibres that "
    "the finish would raise rise now.",
    Deed.UNDERSIDE: "Coat underside and edge",
    Deed.BATTENS: "Screw the battens on",
    Deed.LEVEL: "Level it, pads under the feet. On its own floor or a flat one: pads or adjusters "
    "under the feet until none rocks.",
    Deed.PHOTOGRAPH: "Photograph it. By daylight, before it leaves: listing.txt says what. Then "
    "weigh it and fill in what listing.txt leaves open.",
    Deed.WEIGH: "weigh it, fill in the listing",
}
"""What each step is called, and what is told of it where no craft tells. A dry fit is called by
what it tries, legs by how they are held, the rest by their own names."""

FITTED = {
    Deed.MEND: passage(
        "Try every plug, key and patch dry",
        "Each goes home by hand and its grain runs with the panel's, before any glue is open.",
    ),
    Deed.LIP: passage(
        "Try the lipping dry",
        "All round with every cramp it will have: joints closed, no gap to the core.",
    ),
    Deed.LEGS: passage(
        "Stand the legs on dry",
        "On their marks; pencil round each. None rocks, or it is planed, ground or bedded until it "
        "sits.",
    ),
}
"""What is tried dry, by what is fixed after it."""

_AGAIN = {Deed.TEST: "Test the bare wood for lead", Deed.MARK: "Mark out again"}
"""What is called by another name when it is done a second time."""

LEGS = {
    Fixing.SCREWED: "Screw the legs on",
    Fixing.GLUED: "Glue the legs on",
    Fixing.LOOSE: "Lay the top on its legs",
}
"""What fixing the legs is called."""

# What is told in one row with what follows it
_ROW_OF = {d: row for row in ((Deed.MARK, Deed.CHECK), (Deed.PHOTOGRAPH, Deed.WEIGH)) for d in row}
_SIDES = (Deed.UNDERSIDE, Deed.COAT)


def title_of(task: Task, fixing: Fixing | None = None) -> str:
    """Return what a task is called."""
    deed = task.deed
    if deed is Deed.FIT:
        assert task.of is not None
        return FITTED[task.of].title
    if deed is Deed.LEGS:
        return "Fix the legs" if fixing is None else LEGS[fixing]
    words = _AGAIN.get(deed, "") if task.part > 1 else ""
    words = words or TITLES.get(deed, deed.value).partition(". ")[0]
    if deed is Deed.STRIP:
        return words + ", wet" * task.wet + ", if it has one" * task.perhaps
    if deed in (Deed.SAND, Deed.RUB):
        again = " off what rose" if task.part > 1 else ""
        return f"{words}{again} with {listed(map(str, task.grits), 'then')}"
    return words


def together(tasks: Sequence[Task]) -> Iterator[tuple[Task, ...]]:
    """Yield the tasks, those that are one row of the table together: all coats of one side."""
    rows = groupby(tasks, lambda task: _side(task) or _ROW_OF.get(task.deed) or task)
    return (tuple(held) for _, held in rows)


def _side(task: Task) -> Deed | None:
    """Return the side that a task coats, or makes ready for its coat."""
    return next((deed for deed in (task.deed, task.of) if deed in _SIDES), None)


def hours_words(least: float, most: float) -> str:
    """Return hours as a range: minutes below an hour, else to the next quarter.

    >>> hours_words(0.08, 0.2), hours_words(0.5, 2.67), hours_words(2.0, 2.0)
    ('5 to 15 min', '1/2 to 2 3/4 h', '2 h')
    """
    if most <= 1 - 1 / 12:
        minutes = (str(max(5, 5 * whole_up(hours * 12))) for hours in (least, most))
        return f"{ranged(minutes)} min"
    quarters = (divmod(max(1, whole_up(4 * hours)), 4) for hours in (least, most))
    parts = ((str(whole or ""), ("", "1/4", "1/2", "3/4")[rest]) for whole, rest in quarters)
    return f"{ranged(' '.join(filter(None, part)) for part in parts)} h"


def wait_words(least: float, most: float) -> str:
    """Return a wait: hours up to two days, else days; empty where there is none.

    >>> wait_words(12, 12), wait_words(24, 24), wait_words(168, 168), wait_words(240, 360)
    ('12 h', '24 h', '7 days', '10 to 15 days')
    """
    if most <= 0:
        return ""
    if most <= 48:
        return f"{ranged(f'{value:.0f}' for value in (least, most))} h"
    return f"{ranged(f'{whole_up(value / 24)}' for value in (least, most))} days"


def day_words(day: Day) -> str:
    """Return a day that is counted from the first: ``day 6``, ``day 6 to 7``."""
    return f"day {ranged(map(str, (day.least, day.most)))}"


def worked_words(order: WorkOrder) -> str:
    """Return the hours and the days in one line."""
    hours = hours_words(order.least, order.most)
    return f"{hours}; ready on {day_words(order.ready)}, if begun on day 1"


def order_words(order: WorkOrder, workday: float, fixing: Fixing | None = None) -> Passage:
    """Return the whole work in one table: step, hours, wait, day."""
    rows = tuple(_row(held, fixing) for held in together(order.tasks))
    hard = f", hard by {day_words(order.cured)}" if order.cured != order.ready else ""
    return passage(
        "The whole work",
        f"{worked_words(order)}{hard}. {workday:g} h a day; without making legs. Hours: common "
        "practice, or yours by panelwright hours. Drying: labels, from memory, at 20 °C in good "
        "air.",
        tables=[Table(("Step", "Hours", "Then wait", "Day"), rows, halves=True)],
    )


def _row(held: Sequence[Task], fixing: Fixing | None) -> tuple[str, ...]:
    coats = [task for task in held if task.deed in _SIDES]
    title = ", ".join(title_of(task, fixing) for task in coats[:1] or held)
    least, most = sum(task.least for task in held), sum(task.most for task in held)
    wait = wait_words(*held[-1].wait)
    if len(coats) > 1:
        title += f", {counted(len(coats), 'coat')}"
        first = wait_words(*coats[0].wait)
        wait = f"{wait} each" if first == wait else f"{first}, {wait}"
    day = Day(held[0].day.least, held[-1].day.most)
    cells = (hours_words(least, most) if most else "", wait, day_words(day).removeprefix("day "))
    return (capital(title), *(cell.replace(" to ", "–") or "–" for cell in cells))


def wait_told(order: WorkOrder, task: Task) -> str:
    """Return what is waited for after a task, and when the work goes on; empty for no wait."""
    waits = wait_words(*task.wait)
    if not waits:
        return ""
    at = next(i for i, other in enumerate(order.tasks) if other is task)
    day = next((later.day for later in order.tasks[at + 1 :]), order.ready)
    return f"Wait {waits}. Go on on {day_words(day)}, if begun on day 1."


def step_words(task: Task, *, faces: bool = True) -> Passage | None:
    """Return what is done in a step that no craft tells of, else None; to `faces` or the edge."""
    deed, again = task.deed, task.part > 1
    if deed is Deed.FIT:
        return FITTED[Deed.LEGS] if task.of is Deed.LEGS else None
    told = TITLES.get(deed, "").partition(". ")[2]
    if deed is Deed.TEST and again:
        told = ""  # told with the stripping
    elif deed is Deed.STRIP:
        told += _STRIPPED[task.wet]
    elif deed is Deed.SAND and again:
        told = "Lightly, only what rose; the next coat raises little more."
    elif deed is Deed.SAND:
        until = "until they are even"
        if len(task.grits) > 1:
            until = "each grit until the marks of the one before are gone"
        where, finest = "Both faces and the edge" if faces else "The edge", task.grits[-1]
        told = f"{where}, along the grain, {until}; finer than {finest} closes them to the finish."
    return passage(capital(title_of(task)), told) if told else None


_STRIPPED = {
    False: "; what is left in the grain goes with the first grit.",
    True: ". It may hold lead: nothing dry, no sander, no heat; wipe up wet, hand it in as local "
    "rules say. Then test the bare wood: what is left in the grain is as good as paint, and "
    "nothing is sawn, planed or sanded before that shows none.",
}
"""How a coat comes off, by whether it is stripped wet."""
