"""From the bytes of a job file to its tables, with the line of everything in them.

The standard reader stops at its first fault. A faulty statement is taken out and the reading starts
again, where it is certain which it is: all before it is whole TOML, and it ends on its own line.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import Any

from ..errors import JobError, Problem
from ..keys.place import UNREADABLE, Trail, key_text
from .lines import MOST_LEVELS, NestedTooDeepError, Walk, lines_of

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
    """Return the text of a job file; a `JobError` tells the line where it is not UTF-8."""
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

    A `JobError` tells what was found so far where the rest cannot be read for sure.
    """
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if len(plain) > LONGEST:
        raise JobError([Problem("", f"the file holds over {LONGEST:,} characters: no job does")])
    rows, found = plain.split("\n"), list[Problem]()
    deep = f"lists or tables nest more than {MOST_LEVELS} deep: no job needs it"
    try:
        while rows and len(found) < MOST_FAULTS:
            whole = "\n".join(rows)
            try:
                values = tomllib.loads(whole)
            except ValueError as error:  # no TOML, or a number beyond what Python turns into one
                problem, rows = fault_in(rows, str(error))
                found.append(problem)
            else:
                return Tables(values, lines_of(whole), tuple(found))
    except NestedTooDeepError as error:
        found.append(Problem("", deep, error.line))
    except RecursionError:
        found.append(Problem("", deep))
    raise JobError(found)


_FARTHEST_BACK = 200
"""Lines that a statement at fault may have begun before the reader noticed."""

_MOST_READ = 4_000_000
"""Signs that are read again to find where it began: a long file is not read two hundred times."""

_LONG_DIGITS = re.compile(r"[\d_]{1000,}")
_PLACE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)\s*$")

_TWICE = "Cannot overwrite a value"

_ADVICE = (
    (_TWICE, "this key stands here for the second time: keep one of them"),
    ("Duplicate inline table key", "a key stands twice between the same { }: keep one of them"),
    ("Cannot declare",
     "this table is opened twice: put its keys together, or write [[…]] for a list"),
    ("Cannot mutate immutable", "this adds to a table or list that is already complete"),
    ("Expected '=' after a key",
     "a key is followed by = and its value, and has no blank in it: write key = value"),
    ("Unterminated string", "a text is not closed: add the missing quote"),
    ("Illegal character '\\n'", "a text is not closed on its line: add the missing quote"),
    ("Illegal character", "a control character stands here: type the line again"),
    ("Found invalid character", "a control character stands here: type the line again"),
    ("Unescaped '\\'", "a backslash stands in a text: write \\\\, or put the text in '…'"),
    ("Unclosed array", "a list is not closed: add the missing ]"),
    ("Unclosed inline table", "a table is not closed: add the missing }"),
    ("Invalid initial character for a key part",
     "no key starts here: it is made of letters, digits, _ and -, and a { } stays on one line"),
    ("Invalid statement", "no key starts here: a line is key = value, [table] or # remark"),
    ("Invalid value", 'this is no value: a text stands in quotes, "oak", and so does "31 3/8"'),
    ("Expected newline or end of document",
     "the line goes on after its value: a length with a unit or a fraction stands in quotes, "
     "\"31 3/8 in\", and inside them inches are in or \\\""),
    ("Expected ']", "a table name is not closed: add the missing ]"),
    ("Exceeds the limit", "a number has thousands of digits: write it to the millimetre"),
)  # fmt: skip
"""How the standard reader begins what it says, and what a maker can do about it."""


def fault_in(rows: list[str], said: str) -> tuple[Problem, list[str]]:
    """Return what the standard reader complained of in these words, and the rows without it.

    There are none where reading on would be guessing.
    """
    place = _PLACE.search(said)
    message = said[: place.start()] if place else said
    last = _line_of(rows, place)
    first = _start(rows, last)
    told = next((advice for start, advice in _ADVICE if message.startswith(start)), message)
    if first is None:
        return Problem("", told, last), []
    before = Walk("\n".join(rows[: first - 1]))
    table = before.document()
    trail = _trail(rows[first - 1], table)
    if trail is None:
        return Problem("", told, first), []
    key = key_text(trail)
    if message.startswith(_TWICE):
        earlier = before.lines.get(trail)
        told += f" (the first is on line {earlier})" if earlier else ""
        return Problem(key, told, first), [
            *rows[: first - 1], *[""] * (last - first + 1), *rows[last:]
        ]  # fmt: skip
    if first != last:
        told += f"; the value starts on line {first}: is it closed?"
        return Problem(key, told, last), []
    if rows[first - 1].rstrip().endswith(("{", "[", ",")):
        return Problem(key, told, first), []
    names = ".".join(f'"{name}"' for name in trail[len(table) :])
    row = f'{names} = "{UNREADABLE}"'
    return Problem(key, told, first), [*rows[: first - 1], row, *rows[first:]]


def _line_of(rows: list[str], place: re.Match[str] | None) -> int:
    if place and place[1]:
        return int(place[1])
    if place is None:  # a number that Python cannot turn into one comes without its place
        return next((i for i, row in enumerate(rows, 1) if _LONG_DIGITS.search(row)), len(rows))
    return max((i for i, row in enumerate(rows, 1) if row.strip()), default=1)


def _start(rows: list[str], last: int) -> int | None:
    """Return the line on which the statement that fails at line `last` starts."""
    text = "\n".join(rows[: last - 1])
    back = min(_FARTHEST_BACK, _MOST_READ // (len(text) + 1) + 1)
    for first in range(last, max(0, last - back), -1):
        try:
            tomllib.loads("\n".join(rows[: first - 1]))
        except ValueError:
            continue
        return first
    return None


def _trail(row: str, table: Trail) -> Trail | None:
    """Return the key that a row sets, or None where it sets none."""
    walk = Walk(row)
    try:
        names = walk.key()
    except (ValueError, IndexError):
        return None
    plain = all(re.fullmatch(r"[A-Za-z0-9_-]+", name) for name in names)
    return (*table, *names) if plain else None
