"""The whole work in words: every step with what to do, how long it takes, and what is waited for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..legs.wish import Fixing
from ..work.coats import NewCoat
from ..work.deeds import Deed
from ..work.order import Task, WorkOrder
from .amounts import day_words, hours_words, wait_words
from .passage import Passage, Table
from .say import listed

TITLES = {
    Deed.ASK: "See it, ask for its history",
    Deed.CLEAN: "Wash it",
    Deed.TEST: "Test the old coat for lead",
    Deed.METAL: "Find and pull all metal",
    Deed.STRIP: "Take the old coat off",
    Deed.SHORTEN: "Cut it short",
    Deed.FLATTEN: "Flatten it",
    Deed.REST: "Let it rest",
    Deed.MARK: "Mark out",
    Deed.CHECK: "Check the distances",
    Deed.MEND: "Mend",
    Deed.CUT: "Cut the top out",
    Deed.LIP: "Glue the lipping on",
    Deed.EDGE: "Edge it",
    Deed.PROFILE: "Shape the edge",
    Deed.SAND: "Sand",
    Deed.MASK: "Mask where the legs are glued",
    Deed.RAISE: "Raise the grain",
    Deed.DUST: "dust off",
    Deed.UNDERSIDE: "coat underside and edge",
    Deed.BATTENS: "Screw the battens on",
    Deed.RUB: "rub down",
    Deed.COAT: "coat the top",
    Deed.LEVEL: "Level it, pads under the feet",
    Deed.PHOTOGRAPH: "Photograph it",
    Deed.WEIGH: "Weigh it, write the listing",
}
"""What each step is called; a dry fit by what it tries, legs by how they are held."""

_FITTED = {
    Deed.MEND: "Try every plug, key and patch dry",
    Deed.LIP: "Try the lipping dry",
    Deed.LEGS: "Stand the legs on dry",
}

_LEGS = {
    Fixing.SCREWED: "Screw the legs on",
    Fixing.GLUED: "Glue the legs on, upside down",
    Fixing.LOOSE: "Lay the top on its legs",
}

_ONE_STEP = (Deed.DUST, Deed.RUB)
"""What is told in one row with the coat that it is done for."""


def title_of(task: Task, fixing: Fixing | None = None) -> str:
    """Return what a task is called."""
    if task.deed is Deed.FIT:
        assert task.of is not None
        return _FITTED[task.of]
    if task.deed is Deed.LEGS:
        return "Fix the legs" if fixing is None else _LEGS[fixing]
    words = TITLES[task.deed]
    if task.deed is Deed.TEST and task.part > 1:
        return "Test the bare wood for lead"
    if task.deed is Deed.STRIP:
        wet = ", wet" if task.wet else ""
        return f"{words}{wet}" + (", if it has one" if task.perhaps else "")
    if task.deed in (Deed.SAND, Deed.RUB):
        again = " off what rose" if task.part > 1 else ""
        return f"{words}{again} with {listed(map(str, task.grits), 'then')}"
    return f"{words}, {task.part} of {task.parts}" if task.parts > 1 else words


def together(tasks: Sequence[Task]) -> Iterator[tuple[Task, ...]]:
    """Yield the tasks, those that are one step for the maker together."""
    held: list[Task] = []
    for task in tasks:
        held.append(task)
        if task.deed not in _ONE_STEP:
            yield tuple(held)
            held = []


def order_words(order: WorkOrder, workday: float, fixing: Fixing | None = None) -> Passage:
    """Return the whole work in one table: step, hours, wait, day."""
    rows = tuple(_row(held, fixing) for held in together(order.tasks))
    words = [
        f"{hours_words(order.least, order.most)} of work, and waits; begun on day 1, {workday:g} h "
        f"a day, it is ready for careful use on {day_words(order.ready)}"
        + (
            f"; its finish is hard by {day_words(order.cured)}."
            if order.cured != order.ready
            else "."
        ),
        "Hours are common practice, or your own (panelwright hours); making legs is not counted. "
        "Times to dry hold at 20 °C and in good air, by labels from memory: yours go before them.",
    ]
    table = Table(("Step", "Hours", "Then wait", "Day"), rows)
    return Passage("The whole work", tuple(words), tables=(table,))


def _row(held: Sequence[Task], fixing: Fixing | None) -> tuple[str, ...]:
    title = ", ".join(title_of(task, fixing) for task in held)
    least, most = sum(task.least for task in held), sum(task.most for task in held)
    hours = hours_words(least, most) if most else "–"
    wait = wait_words(*held[-1].wait) or "–"
    return title[:1].upper() + title[1:], hours, wait, day_words(held[0].day).removeprefix("day ")


def step_words(task: Task, coat: NewCoat = NewCoat.NONE, *, faces: bool = True) -> Passage | None:
    """Return what is done in a step that no craft tells of; None for one that a craft does.

    Parameters
    ----------
    coat : NewCoat
        What the top is finished with.
    faces : bool
        Whether its faces are sanded and finished too; of laminate only the edge is.
    """
    told = _told(task, coat, "both faces and the edge" if faces else "the edge")
    if told is None:
        return None
    title = title_of(task)
    return Passage(title[:1].upper() + title[1:], (told,))


def _told(task: Task, coat: NewCoat, where: str) -> str | None:  # noqa: PLR0911 - one a step
    if task.deed is Deed.STRIP:
        return _stripped(task)
    if task.deed is Deed.TEST and task.part > 1:
        return (
            "What is left in the grain is as good as paint: no saw, plane or sander before the "
            "test shows none."
        )
    if task.deed is Deed.SAND:
        if task.part > 1:
            return "Lightly, only what rose; the next coat raises little more."
        grits = listed(map(str, task.grits), "then")
        return (
            f"{where[:1].upper()}{where[1:]} with {grits}, along the grain, each until the marks "
            f"of the one before are gone; finer than {task.grits[-1]} closes the wood to the "
            "finish."
        )
    if task.deed in (Deed.UNDERSIDE, Deed.COAT):
        side = "underside and edge" if task.deed is Deed.UNDERSIDE else "top"
        side = side if "faces" in where else "edge"
        return (
            f"A thin coat of {coat.value} on the {side}, as its label says; "
            f"{wait_words(*task.wait)} until the next step."
        )
    if task.deed is Deed.FIT:
        return None if task.of is not Deed.LEGS else _PLAIN[Deed.FIT]
    return _PLAIN.get(task.deed)


def _stripped(task: Task) -> str:
    how = "With stripper and scraper, on a sheet that catches all of it, then washed down"
    if task.wet:
        return (
            f"{how}. It may hold lead: nothing dry, no sander, no heat; gather and wipe it up wet, "
            "and hand it in as local rules say."
        )
    return f"{how}; what is left in the grain goes with the first grit."


_PLAIN = {
    Deed.ASK: "What was it, how old, where did it stand, what is on it? Measure it, knock on it, "
    "look under it; leave it where an answer is bad.",
    Deed.CLEAN: "Both faces and the edges with warm water, a little soap and a brush; wipe dry, "
    "stand it on edge to dry overnight.",
    Deed.TEST: "In three places, down to the wood, with a kit or by a laboratory; until lead is "
    "ruled out it is treated as lead.",
    Deed.FIT: "On their marks; pencil round each. None rocks, or it is planed until it sits.",
    Deed.MASK: "Inside the pencil lines: glue holds on bare wood only.",
    Deed.RAISE: "Wipe it evenly with a wet cloth and let it dry: the fibres that the finish would "
    "raise rise now.",
    Deed.DUST: "With a vacuum cleaner, then a damp cloth.",
    Deed.RUB: "Lightly and by hand, never through the coat; then the dust off.",
    Deed.LEVEL: "On its own floor or a flat one: pads or adjusters under the feet until none "
    "rocks.",
    Deed.PHOTOGRAPH: "By daylight, before it leaves: listing.txt says what.",
    Deed.WEIGH: "Then fill in what listing.txt leaves open.",
}
"""What is told of steps without figures."""
