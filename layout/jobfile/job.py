"""From the text of a job file to a job, or to every problem in it.

A reader notes what is wrong, goes on with what it has, and leaves out only the checks that need
what could not be read, so that one slip is told once.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from ..cutting.tools import Tools
from ..errors import JobError, LayoutError, Problem
from ..keys.key import Section, Values
from ..keys.place import MOST_NOTED, UNREADABLE, EnoughError, Notes, Place, nearest_line
from ..money.price import MoneyWish
from ..offcuts.wish import OffcutWish
from ..plan.job import UNSAID, Job, tied
from ..template.paper import LETTER
from ..template.wish import TemplateWish
from ..units import Units
from ..work.wish import MaterialsWish, WorkWish
from .legs import read_legs
from .panel import read_panel
from .sections import HEAD, MATERIALS, MONEY, OFFCUTS, TEMPLATE, TOOLS, WORK, read_section
from .toml import Tables, decoded, tables_of
from .top import read_top


@dataclass(frozen=True, slots=True)
class Reading:
    """What came of reading a job file."""

    job: Job | None
    """None where there are problems."""
    problems: tuple[Problem, ...]
    """Everything that is wrong, in the order of the file."""
    missing: tuple[Problem, ...] = ()
    """What a plan needs and the file does not say; a fit does without."""


def read_job(text: str | bytes, *, source: str = "job.toml") -> Job:
    r"""Return the job that a text in TOML describes; bytes are UTF-8.

    A `JobError` holds all that is wrong: each problem with its key, its line and what to do.
    `source` is what the file is called.

    >>> job = read_job("[panel]\noutline = { length = 1981, width = 838 }")
    >>> job.panel.boundary.bounds.width, job.wish.shapes[0], [p.key for p in job.missing]
    (1981.0, 'circle', ['panel.thickness'])
    """
    reading = look_over(text, source=source)
    if reading.job is None:
        raise JobError(reading.problems)
    return reading.job


def look_over(text: str | bytes, *, source: str = "job.toml") -> Reading:
    """Return the job, or what is wrong, and what a plan would miss; raise nothing."""
    try:
        tables = tables_of(decoded(text) if isinstance(text, bytes) else text)
    except JobError as error:
        return Reading(None, error.problems)
    if not tables.values:
        message = f"{source} says nothing: describe the panel under [panel] and the top under [top]"
        return Reading(None, tables.problems or (Problem("", message),))
    notes = Notes(tables.lines)
    try:
        job, missing = _job(tables, notes)
    except EnoughError:
        stopped = Problem("", f"reading stopped after {MOST_NOTED} problems: mend these first")
        return Reading(None, (*notes.in_order(*tables.problems), stopped))
    found = notes.in_order(*tables.problems)
    return Reading(None if found else job, found, missing)


def _job(tables: Tables, notes: Notes) -> tuple[Job | None, tuple[Problem, ...]]:
    """Return the job where nothing is wrong with any part of it, and what is missing."""
    head = read_section(tables.values, HEAD, Place(notes))
    notes.units = head["units"] or Units.MM
    parts = {name: _part(head, name, section, made) for name, section, made in _PARTS}
    if head.lacks("panel"):
        head.at("panel").wrong(
            "the panel is missing: open it with [panel] and give at least its outline"
        )
    raw = head["panel"] if head.has("panel") else UNREADABLE
    panel = read_panel(raw, head.at("panel"), parts["tools"] or Tools())
    values = panel.values
    lacks = "the thickness is missing: a plan weighs and stands the table by it"
    line = nearest_line(tables.lines, ("panel", "thickness"))
    missing = () if values.has("thickness") else (Problem("panel.thickness", lacks, line),)
    thickness = values["flattened"] or values["thickness"]
    top = read_top(_table(head, "top"), head.at("top"), thickness)
    legs = None
    if head.has("legs"):
        narrow = min(panel.narrow, top.wish.limits.width.greatest if top.wish else math.inf)
        legs = read_legs(head["legs"], head.at("legs"), values, narrow)
    if tables.problems or not notes.are_empty or top.wish is None or None in parts.values():
        return None, missing
    try:
        board = panel.panel()
        if board is None:
            return None, missing
        wish = tied(top.wish, board, top.values)
        if not notes.are_empty:
            return None, missing
        job = Job(
            panel=board,
            wish=wish,
            profile=top.profile,
            **parts,
            legs=legs[0] if legs else None,
            table=legs[1] if legs else UNSAID,
            units=notes.units,
            name=head["name"] or values["name"],
            **{name: top.values[name] for name in ("margin", "tape_error", "step")},
            datum=panel.datum,
            damaged=values["damaged"],
            missing=missing,
        )
    except LayoutError as error:
        notes.note((), str(error))
        return None, missing
    return job, missing


_PARTS: tuple[tuple[str, Section, Any], ...] = (
    ("tools", TOOLS, Tools),
    ("template", TEMPLATE, TemplateWish),
    ("offcuts", OFFCUTS, OffcutWish),
    ("materials", MATERIALS, MaterialsWish),
    ("work", WORK, WorkWish),
    ("money", MONEY, MoneyWish),
)
"""The tables that each make one part of a job."""


def _part(head: Values, name: str, section: Section, made: Any) -> Any:  # noqa: ANN401 - a wish
    values, more = read_section(_table(head, name), section, head.at(name)), {}
    if name == "tools" and not values.only_one_of("string", "string_stretch"):
        return None
    if name == "tools" and values.has("string"):
        more = {"string_stretch": values["string"]}
    if name == "template" and head.place.units.is_imperial and not values.has("paper"):
        more = {"paper": LETTER}
    return values.made(made, **more)


def _table(head: Values, name: str) -> object:
    """Return what stands under a heading of its own; an empty table where it is left out."""
    return head[name] if head.has(name) else {}
