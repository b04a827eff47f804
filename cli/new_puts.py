"""A new job in the making, and where an answer about it goes: the same for questions and options.

Each function takes the tables of a job file as far as they are known and an answer as it was typed,
and writes it where the reader of job files will look for it. Whether it can be so is left to that
reader; a ``ValueError`` only says that an answer has not the form of one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from .keys_found import row_at

if TYPE_CHECKING:
    from ..layout.errors import Problem
    from ..layout.jobfile.job import Reading
    from ..layout.keys.place import Trail
    from ..layout.plan.job import Job

Tables = dict[str, Any]
Put = Callable[[Tables, str], None]

_BY = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_CORNER = r"[^,;\s]+,[^,;\s]+"
_DEFECT = re.compile(r"(?P<kind>\D+?)\s+(?P<size>\d.*?)\s+at\s+(?P<at>.+)", re.IGNORECASE)
_NONE = ("", "none", "no", "no limit", "0")

MARGIN = ("9 mm", "3/8 in")
"""Wood that is usually left at the panel's edges, so that a saw finds some on both sides."""


CORNERED = "corner A is the origin, at the lower left; x runs along the edge AB, y up"
ROUND = "the box round it has its lower left corner at the origin; x runs to the right, y up"
"""Said beside an outline, whose own keys have no lines of their own."""


def usual(tables: Tables, choices: tuple[str, str]) -> str:
    """Return what is usual where the maker counts in mm, or else in inches."""
    return choices[tables["units"].casefold().startswith(("in", "f"))]


def figure(text: str) -> int | float | str:
    """Return a number where a text is one; else the text, which may be a length with its unit.

    >>> figure("600"), figure("31 3/8"), figure("80 cm")
    (600, '31 3/8', '80 cm')
    """
    plain = text.strip()
    if not re.fullmatch(r"-?\d+(\.\d+)?", plain):
        return plain
    number = float(plain)
    return int(number) if number.is_integer() and "." not in plain else number


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


def put_panel(tables: Tables, text: str) -> None:
    """Take ``1200 x 600``, ``900`` of a round panel, ``oval 1400 x 800``, or its corners."""
    plain = text.strip()
    if "," in plain and not _BY.search(plain):
        outline: Tables = {"points": corners(plain)}
    else:
        parts = size(re.sub(r"^(oval|round)\s+", "", plain, flags=re.IGNORECASE))
        outline = {"diameter": parts[0]}
        if len(parts) == 2:
            oval = plain.casefold().startswith("oval")
            outline = {"axes": parts} if oval else {"length": parts[0], "width": parts[1]}
    tables.setdefault("panel", {})["outline"] = outline


def put_corners(held: list[list[int | float | str]]) -> Put:
    """Return what takes the corners of a panel, read already."""

    def put(tables: Tables, text: str) -> None:
        tables.setdefault("panel", {})["outline"] = {"points": held}

    return put


def put_radius(tables: Tables, text: str) -> None:
    """Take one radius for all corners, or four for A, B, C, D."""
    if text.strip().casefold() in _NONE:
        return
    many = "," in text
    value = figures(text, 4, "A, B, C, D") if many else figure(text)
    tables["panel"]["outline"]["radii" if many else "radius"] = value


def put_bows(tables: Tables, text: str) -> None:
    """Take how far the four edges bow."""
    if text.strip().casefold() not in _NONE:
        tables["panel"]["outline"]["bows"] = figures(text, 4, "AB, BC, CD, DA")


def put_defect(tables: Tables, text: str) -> None:
    """Take a defect in one line: ``screw hole 8 at 60, 400``."""
    match = _DEFECT.fullmatch(text.strip())
    if match is None:
        raise ValueError(
            f"{text!r} is no defect: write its kind, its size and where its middle is, such as "
            '"screw hole 8 at 60,400" or "split 250x4 at 300,120"'
        )
    tables["panel"].setdefault("defects", []).append({"kind": match["kind"].strip()})
    put_defect_size(tables, match["size"])
    put_defect_at(tables, match["at"])


def put_defect_size(tables: Tables, text: str) -> None:
    """Take the diameter of the newest defect, or its length by its width."""
    parts = size(text)
    newest = tables["panel"]["defects"][-1]
    newest.update({"diameter": parts[0]} if len(parts) == 1 else {"size": parts})


def put_defect_at(tables: Tables, text: str) -> None:
    """Take where the middle of the newest defect is."""
    tables["panel"]["defects"][-1]["at"] = figures(text, 2, "x, y")


def put_shape(tables: Tables, text: str) -> None:
    """Take one shape, or several with commas between them."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    tables.setdefault("top", {})["shape"] = parts[0] if len(parts) == 1 else parts


def put_most(tables: Tables, text: str) -> None:
    """Take how long and wide the top may be at most."""
    if text.strip().casefold() in _NONE:
        return
    parts = size(text)
    tables["top"].update(zip(("most_length", "most_width"), parts * 2, strict=False))


def put_legs(tables: Tables, text: str) -> None:
    """Take how many legs there are; none is a top alone."""
    if text.strip().casefold() in _NONE:
        tables.pop("legs", None)
    else:
        tables["legs"] = {"count": figure(text)}


def put_foot_size(tables: Tables, text: str) -> None:
    """Take the side or diameter of a foot, or its length by its width."""
    parts = size(text)
    tables["legs"]["size"] = parts[0] if len(parts) == 1 else parts


def put_router(tables: Tables, text: str) -> None:
    """Take yes or no."""
    word = text.strip().casefold()
    if word not in ("y", "yes", "n", "no", "true", "false"):
        raise ValueError(f"{text!r} is neither yes nor no")
    tables.setdefault("tools", {})["router"] = word in ("y", "yes", "true")


def put_edges(tables: Tables, text: str) -> None:
    """Take the edges of the panel that are kept."""
    names = re.split(r"[,\s]+", text.strip())
    tables.setdefault("top", {})["keep"] = [edge.upper() for edge in names]


WORDS = ("units", "name", "build", "foot", "paper")
"""Keys whose answers are words even where they look like numbers."""


def put_key(table: str, name: str) -> Put:
    """Return what takes the value of a key as it is written.

    Parameters
    ----------
    table : str
        The table that it stands in; empty for the top of the file.
    """

    def put(tables: Tables, text: str) -> None:
        into = tables.setdefault(table, {}) if table else tables
        into[name] = text.strip() if name in WORDS else figure(text)

    return put


class RefusedError(ValueError):
    """An answer that cannot be taken; the message says why."""


@dataclass(slots=True)
class Draft:
    """What is known of a job so far."""

    tables: Tables = field(default_factory=dict)
    job: Job | None = None
    """The job as far as it is known; None where it is not whole yet."""

    def take(self, put: Put, answer: str, *about: str) -> None:
        """Take an answer, or leave everything as it was.

        Parameters
        ----------
        about : str
            The keys, with all below them, that the reader must find nothing wrong with then.

        Raises
        ------
        RefusedError
            If the answer has not the form of one, or the reader of job files refuses it.
        """
        tables = deepcopy(self.tables)
        try:
            put(tables, answer)
        except ValueError as error:
            raise RefusedError(str(error)) from None
        reading = _reading(tables)
        wrong = [problem.message for problem in reading.problems if _is_about(problem, about)]
        if wrong:
            raise RefusedError("; ".join(wrong))
        self.tables, self.job = tables, reading.job

    def lacks(self, key: str) -> bool:
        """Return whether the reader finds anything wrong with a key."""
        return any(_is_about(problem, (key,)) for problem in _reading(self.tables).problems)

    def text(self, name: str) -> str:
        """Return the file of this name, with what each key means beside it."""
        from ..layout.jobfile.written import written

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


def _reading(tables: Tables) -> Reading:
    from ..layout.jobfile import look_over
    from ..layout.jobfile.written import written

    return look_over(written(tables))


def _is_about(problem: Problem, keys: tuple[str, ...]) -> bool:
    return any(problem.key == key or problem.key.startswith((f"{key}.", f"{key}[")) for key in keys)
