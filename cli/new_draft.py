"""A new job in the making: what an answer means, and whether the reader of job files takes it."""

from __future__ import annotations

import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from .keys import row_at

if TYPE_CHECKING:
    from ..layout.keys.place import Trail
    from ..layout.plan.job import Job

Tables = dict[str, Any]

_BY = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_CORNER = r"[^,;\s]+,[^,;\s]+"
_DEFECT = re.compile(r"(?P<kind>\D+?)\s+(?P<size>\d.*?)\s+at\s+(?P<at>.+)", re.IGNORECASE)
_NONE = ("", "none", "no", "no limit", "0")

CORNERED = "corner A is the origin, at the lower left; x runs along the edge AB, y up"
ROUND = "the box round it has its lower left corner at the origin; x runs to the right, y up"
"""Said beside an outline, whose own keys have no lines of their own."""


def figure(text: str) -> int | float | str:
    """Return a number where a text is one; else the text, which may be a length with its unit.

    >>> figure("600"), figure("31 3/8"), figure("80 cm")
    (600, '31 3/8', '80 cm')
    """
    plain = text.strip()
    if not re.fullmatch(r"-?\d+(\.\d+)?", plain):
        return plain
    return float(plain) if "." in plain else int(plain)


def size(text: str) -> list[int | float | str]:
    """Return the one figure or the two of a size.

    >>> size("1200 x 600"), size("8"), size("6ft by 2ft 6in")
    ([1200, 600], [8], ['6ft', '2ft 6in'])
    """
    parts = [figure(part) for part in _BY.split(text.strip())]
    if len(parts) > 2 or "" in parts:
        raise ValueError(f"{text!r} is not a size: write length x width, such as 1200 x 600")
    return parts


def figures(text: str, count: int, form: str) -> list[int | float | str]:
    """Return so many figures with commas between them."""
    parts = [figure(part) for part in re.split(r"[,;]", text)]
    if len(parts) != count or "" in parts:
        raise ValueError(f"{text!r} is not of the form {form}: write {count} figures with commas")
    return parts


def corners(text: str) -> list[list[int | float | str]]:
    """Return the corners that one line gives, each ``x, y``.

    >>> corners("31 3/8, 5"), corners("0,0 1200,0"), corners("[[0, 0], [1200, 0]]")
    ([['31 3/8', 5]], [[0, 0], [1200, 0]], [[0, 0], [1200, 0]])
    """
    rows = re.findall(r"\[([^\[\]]+)\]", text)
    if not rows and re.fullmatch(rf"{_CORNER}(\s+{_CORNER})+", text.strip()):
        rows = text.split()
    if not rows and "," in text:
        rows = [row for row in text.split(";") if row.strip()]
    return [figures(row, 2, "x, y") for row in rows or [text]]


def outline(text: str) -> Tables:
    """Take ``1200 x 600``, ``900`` of a round panel, ``oval 1400 x 800``, or its corners."""
    plain = text.strip()
    if "," in plain and not _BY.search(plain):
        return {"points": corners(plain)}
    parts = size(re.sub(r"^(oval|round)\s+", "", plain, flags=re.IGNORECASE))
    if len(parts) == 1:
        return {"diameter": parts[0]}
    if plain.casefold().startswith("oval"):
        return {"axes": parts}
    return dict(zip(("length", "width"), parts, strict=True))


def radii(text: str) -> Tables:
    """Take one radius for all corners, or four for A, B, C, D."""
    return {"radii": figures(text, 4, "A, B, C, D")} if "," in text else {"radius": figure(text)}


def defect(text: str) -> list[Tables]:
    """Take a defect in one line: ``screw hole 8 at 60, 400``."""
    match = _DEFECT.fullmatch(text.strip())
    if match is None:
        raise ValueError(
            f"{text!r} is no defect: write its kind, its size and where its middle is, such as "
            '"screw hole 8 at 60,400" or "split 250x4 at 300,120"'
        )
    at = figures(match["at"], 2, "x, y")
    return [{"kind": match["kind"].strip(), **spot(match["size"]), "at": at}]


def spot(text: str) -> Tables:
    """Take the diameter of a defect, or its length by its width."""
    parts = size(text)
    return {"diameter": parts[0]} if len(parts) == 1 else {"size": parts}


def several(text: str) -> str | list[str]:
    """Take one word, or several with commas between them."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    return parts[0] if len(parts) == 1 else parts


def one_or_two(text: str) -> int | float | str | list[int | float | str]:
    """Take a side or diameter, or a length by a width."""
    parts = size(text)
    return parts[0] if len(parts) == 1 else parts


def yes_or_no(text: str) -> bool:
    """Take yes or no."""
    word = text.strip().casefold()
    if word not in ("y", "yes", "n", "no", "true", "false"):
        raise ValueError(f"{text!r} is neither yes nor no")
    return word in ("y", "yes", "true")


def unless_none(form: Callable[[str], Tables]) -> Callable[[str], Tables]:
    """Return a form that takes `none`, `no` and `0` too: then nothing is written."""
    return lambda text: {} if text.strip().casefold() in _NONE else form(text)


@dataclass(frozen=True, slots=True)
class Question:
    """A question as a person sees it, and what becomes of the answer."""

    into: str
    """The key that the answer is written into: ``panel.thickness``. Of a list of tables the newest
    is meant; an answer that is a table, or a list of them, joins what stands there."""
    asks: str = ""
    takes: str = ""
    """How an answer is written."""
    usual: str | tuple[str, str] = ""
    """What Enter stands for, or that in mm and in inches; empty where there is nothing usual."""
    form: Callable[[str], Any] = figure
    key: str = ""
    """The key that tells more of it, where that is another one."""
    about: tuple[str, ...] = ()
    """The keys, with all below them, that must be right then; else those of its table."""
    apart: str = ""
    """How an answer begins that is not written down."""
    refused: str = ""
    """Why the answer before was not taken; then the question is the same one again."""


@dataclass(slots=True)
class Draft:
    """What is known of a job so far."""

    tables: Tables = field(default_factory=dict)
    job: Job | None = None
    """The job as far as it is known; None where it is not whole yet."""

    def usual(self, question: Question) -> str:
        """Return what is usual where the maker counts as here."""
        if isinstance(question.usual, str):
            return question.usual
        return question.usual[self.tables["units"].casefold().startswith(("in", "f"))]

    def hold(self, question: Question, value: Any) -> None:  # noqa: ANN401 - as a job file has it
        """Hold what an answer means; a `ValueError` says why the reader of job files refuses it."""
        tables = deepcopy(self.tables)
        _put(tables, question.into, value)
        wrong, job = _read(tables, *(question.about or (question.into.partition(".")[0],)))
        if wrong:
            raise ValueError("; ".join(wrong))
        self.tables, self.job = tables, job

    def lacks(self, key: str) -> bool:
        """Return whether the reader finds anything wrong with a key."""
        return bool(_read(self.tables, key)[0])

    def text(self, name: str) -> str:
        """Return the file of this name, with what each key means beside it."""
        from ..layout.plan.written import written

        heading = (
            f"Written by `panelwright new`. After a change: panelwright check {name}",
            "More keys, each with an example: panelwright keys WORD, or panelwright keys [top]",
        )
        return written(self.tables, self._remark, heading)

    def _remark(self, trail: Trail) -> str:
        if trail == ("panel", "outline"):
            outline = self.tables["panel"]["outline"]
            return ROUND if outline.keys() & {"diameter", "axes"} else CORNERED
        row = row_at(trail)
        return row.meaning.replace("`", "") if row else ""


def _put(tables: Tables, into: str, value: Any) -> None:  # noqa: ANN401 - as a job file has it
    *way, name = into.split(".")
    for part in way:
        tables = _newest(tables.setdefault(part, {}))
    if isinstance(value, dict):
        if value:
            _newest(tables.setdefault(name, {})).update(value)
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        tables.setdefault(name, []).extend(value)
    else:
        tables[name] = value


def _newest(held: Any) -> Tables:  # noqa: ANN401 - a table or a list of them
    newest: Tables = held[-1] if isinstance(held, list) else held
    return newest


def _read(tables: Tables, *keys: str) -> tuple[list[str], Job | None]:
    """Return what is wrong with some keys and all below them, and the job if it is whole."""
    from ..layout.jobfile import look_over
    from ..layout.plan.written import written

    reading = look_over(written(tables))
    starts = tuple(f"{key}{sign}" for key in keys for sign in ".[")
    wrong = [p.message for p in reading.problems if f"{p.key}.".startswith(starts)]
    return wrong, reading.job
