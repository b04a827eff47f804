"""Where a value stands, in a job file or at a field of a value, and what was noted there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, time
from difflib import get_close_matches
from typing import ParamSpec, TypeVar

from ..errors import LayoutError, Problem
from ..units import Units

Part = str | int
"""A key, or a place in a list counted from 0."""

Trail = tuple[Part, ...]
"""The way from the top of a file to a value."""

UNREADABLE = "\ue000"
"""Stands, in the tables, for a value that is no TOML; a sign that nobody types."""

Given = ParamSpec("Given")
Made = TypeVar("Made")

_CLOSE = 0.6
"""Likeness from which a spelling is suggested: two letters swapped or one missing pass."""

_LONGEST_SHOWN = 40
"""Letters of what a maker wrote that a message repeats."""


MOST_NOTED = 200
"""Problems after which reading stops: then it is another kind of file."""


class EnoughError(Exception):
    """So much is wrong that reading on tells nothing new."""


class Notes:
    """The problems of one file, noted as they are met."""

    held = False
    """Whether values come from a program, which holds mm, shares and members of enums."""

    def __init__(self, lines: Mapping[Trail, int], units: Units = Units.MM) -> None:
        self.lines = lines
        self.units = units
        self._noted: dict[Problem, None] = {}  # a set that keeps its order

    def note(self, trail: Trail, message: str) -> None:
        """Note a problem at a key, once; `EnoughError` is raised when there are `MOST_NOTED`."""
        problem = Problem(key_text(trail), message, nearest_line(self.lines, trail))
        self._noted.setdefault(problem)
        if len(self._noted) >= MOST_NOTED:
            raise EnoughError

    def in_order(self, *others: Problem) -> tuple[Problem, ...]:
        """Return all problems, and others, in the order of the file."""
        return tuple(sorted((*others, *self._noted), key=lambda p: p.line or 0))

    @property
    def are_empty(self) -> bool:
        """Whether nothing is wrong so far."""
        return not self._noted


class Refusal(Notes):
    """Notes nothing: what a program gives wrongly is refused at once."""

    held = True

    def __init__(self, error: type[LayoutError]) -> None:
        super().__init__({})
        self.error = error

    def note(self, trail: Trail, message: str) -> None:
        """Raise the problem as an error of the kind that is asked for."""
        raise self.error(str(Problem(key_text(trail), message)))


@dataclass(frozen=True, slots=True)
class Place:
    """A key or list item of a file; what is wrong with it is noted under its name."""

    notes: Notes
    trail: Trail = ()
    """The way to it from the top of the file."""

    def __truediv__(self, part: str | int) -> Place:
        """Return a key of this table, or an item (from 0) of this list."""
        return Place(self.notes, (*self.trail, part))

    def wrong(self, message: str) -> None:
        """Note what is wrong here."""
        self.notes.note(self.trail, message)

    def made(
        self, make: Callable[Given, Made], *args: Given.args, **more: Given.kwargs
    ) -> Made | None:
        """Return what is made of what stands here; None, and a note, where it cannot be."""
        try:
            return make(*args, **more)
        except LayoutError as error:
            self.wrong(str(error))
            return None

    @property
    def units(self) -> Units:
        """What a bare number counts in."""
        return self.notes.units

    @property
    def held(self) -> bool:
        """Whether the value here comes from a program: in mm, as a share or as a member."""
        return self.notes.held

    def length(self, mm: float) -> str:
        """Return a length as this file would write it: ``12.5 in``."""
        return f"{mm / self.units.mm:.6g} {self.units.value}"


def key_text(trail: Trail) -> str:
    """Return a key as a maker reads it, items of lists counted from 1.

    >>> key_text(("panel", "defects", 0, "size"))
    'panel.defects[1].size'
    """
    text = ""
    for part in trail:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            name = part if re.fullmatch(r"[A-Za-z0-9_-]+", part) else shown(part)
            text += f".{name}" if text else name
    return text


def shown(value: object) -> str:
    """Return a value as a message repeats it: as TOML writes it, and short."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number beyond 10^15"
    if isinstance(value, int | float):
        return f"{value:.10g}"
    if isinstance(value, str):
        short = value if len(value) <= _LONGEST_SHOWN else value[: _LONGEST_SHOWN - 1] + "…"
        return '"' + "".join(sign if sign.isprintable() else "�" for sign in short) + '"'
    if isinstance(value, list):
        return f"a list of {len(value)}"
    kinds = {dict: "table", date: "date or time", time: "date or time"}
    known = (kinds[kind] for kind in kinds if isinstance(value, kind))
    return f"a {next(known, type(value).__name__)}"


def nearest_line(lines: Mapping[Trail, int], trail: Trail) -> int | None:
    """Return the line of a value, or of the nearest thing round it; None where nothing is."""
    for length in range(len(trail), 0, -1):
        line = lines.get(trail[:length])
        if line is not None:
            return line
    return None


def closest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is spelt nearly like this one, if there is one.

    >>> closest("thickenss", ["thickness", "name"])
    'thickness'
    """
    names = {name.casefold(): name for name in known}
    found = get_close_matches(word.casefold()[:80], names, n=1, cutoff=_CLOSE)
    return names[found[0]] if found else None
