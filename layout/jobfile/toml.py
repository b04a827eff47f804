"""From the bytes of a job file to its tables, with the line of everything in them."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from typing import Any

from ..errors import JobError, Problem
from ..keys.place import Trail
from .lines import MOST_LEVELS, NestedTooDeepError, lines_of
from .mending import Fault, fault_in

LONGEST = 1_000_000
"""Bytes, or characters, that a job file may hold: a survey of 5,000 points takes a tenth."""

MOST_FAULTS = 50
"""Lines that are no TOML after which reading stops: then it is another kind of file."""


@dataclass(frozen=True, slots=True)
class Tables:
    """A job file as tables, and where each key of it stands."""

    values: dict[str, Any]
    """As the standard reader gives them; `mending.UNREADABLE` where it could not."""
    lines: dict[Trail, int]
    """The line, from 1, of each key, table and list item."""
    problems: tuple[Problem, ...] = ()
    """Lines that are no TOML, where the rest could be read in spite of them."""


def decoded(data: bytes) -> str:
    """Return the text of a job file.

    Raises
    ------
    JobError
        If the bytes are not UTF-8, with the line where they stop being it.
    """
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" in data[:200]:
        raise JobError([Problem("", "the file is not UTF-8 text: save it as plain text, UTF-8")])
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        byte, line = data[error.start], data.count(b"\n", 0, error.start) + 1
        message = f"the byte {byte:#04x} is not UTF-8: save the file as plain text, UTF-8"
        raise JobError([Problem("", message, line)]) from None


def tables_of(text: str) -> Tables:
    """Return the tables of a TOML text; a faulty line is left out and told, and the rest is read.

    Raises
    ------
    JobError
        If the rest cannot be read for sure, with what was found so far.
    """
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if len(plain) > LONGEST:
        raise JobError([Problem("", f"the file holds over {LONGEST:,} characters: no job does")])
    rows, found = plain.split("\n"), list[Problem]()
    try:
        while len(found) < MOST_FAULTS:
            fault = _first_fault(rows)
            if fault is None:
                whole = "\n".join(rows)
                return Tables(tomllib.loads(whole), lines_of(whole), tuple(found))
            found.append(fault.problem)
            if fault.mended is None:
                break
            rows = fault.mended
    except NestedTooDeepError as error:
        found.append(_too_deep(error.line))
    except RecursionError:
        found.append(_too_deep(None))
    raise JobError(found)


def _first_fault(rows: list[str]) -> Fault | None:
    try:
        tomllib.loads("\n".join(rows))
    except ValueError as error:  # no TOML, or a number beyond what Python turns into one
        return fault_in(rows, str(error))
    return None


def _too_deep(line: int | None) -> Problem:
    return Problem("", f"lists or tables nest more than {MOST_LEVELS} deep: no job needs it", line)
