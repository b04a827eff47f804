"""The keys of a job file as rows, and those that a word finds.

They are read from the schema that is shipped beside the library and made from its own keys: nothing
of the library is imported, so that an answer comes at once.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Any

REFERENCE = Path(__file__).resolve().parents[1] / "layout" / "reference"
"""In a checkout as in an installed copy."""

EXACT = 2
"""Ranks up to this are what was asked for by its own word; then nothing farther off is told."""

NAMED = 3
"""The rank of what has the word among its own; beyond, it only stands somewhere in what is told."""


@dataclass(frozen=True, slots=True)
class Row:
    """One key as it is told."""

    table: str
    """Its heading as a file writes it; empty for the top of the file."""
    name: str
    written: str
    left_out: str
    meaning: str
    example: str
    also: dict[str, str]
    """Other words that its value may be, and what each stands for."""
    words: tuple[str, ...]
    """What else makers call it."""
    values: tuple[str, ...]

    @property
    def record(self) -> dict[str, Any]:
        """The row for machines."""
        return {
            "table": self.table,
            "key": self.name,
            "value": self.written,
            "left_out": self.left_out,
            "meaning": self.meaning,
            "example": self.example,
        }


@cache
def every_row() -> tuple[Row, ...]:
    """Return every key, in the order of the documents."""
    return tuple(_rows(json.loads((REFERENCE / "job.schema.json").read_text("utf-8")), ""))


def row_at(trail: Sequence[str | int]) -> Row | None:
    """Return the key that a trail through a job file leads to, None where there is none."""
    *tables, name = [part for part in trail if isinstance(part, str)]
    here = (row for row in every_row() if row.table.strip("[]") == ".".join(tables))
    return next((row for row in here if row.name == name), None)


def _rows(table: dict[str, Any], heading: str) -> Iterator[Row]:
    below = []
    for name, told in table["properties"].items():
        inner = _inner(told)
        if inner is not None:
            many = "items" in told or "anyOf" in told
            trail = f"{heading.strip('[]')}.{name}" if heading else name
            below.append((inner, f"[[{trail}]]" if many else f"[{trail}]"))
        if inner is None or "examples" in told:
            yield _row(name, told, heading)
    for inner, here in below:
        yield from _rows(inner, here)


def _inner(told: dict[str, Any]) -> dict[str, Any] | None:
    """Return the table that stands under a key, alone or as one of a list."""
    held: Iterator[dict[str, Any]] = iter(
        (told, told.get("items", {}), *told.get("anyOf", ()), *_choices(told))
    )
    return next((schema for schema in held if "properties" in schema), None)


def _choices(told: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for held in (told.get("items", {}), *told.get("anyOf", ())):
        yield from held.get("anyOf", ())
        yield held.get("items", {})


def _row(name: str, told: dict[str, Any], heading: str) -> Row:
    values = [*told.get("enum", ()), *told.get("items", {}).get("enum", ())]
    for held in told.get("anyOf", ()):
        values += held.get("enum", ())
    example = told["examples"][0] if "examples" in told else None
    return Row(
        table=heading,
        name=name,
        written=told["x-written"],
        left_out=told.get("x-left-out", ""),
        meaning=told["description"],
        example="" if example is None else f"{name} = {_toml(example)}",
        also=told.get("x-also", {}),
        words=tuple(told.get("x-plain", ())),
        values=tuple(values),
    )


def _toml(value: object) -> str:
    """Return a value as TOML writes it; a list and a table on one line."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{name} = {_toml(item)}" for name, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_toml(item) for item in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def found(rows: Sequence[Row], asked: str) -> list[tuple[Row, str]]:
    """Return the keys that a word finds, nearest first, each with an example that fits the word.

    A heading such as ``[top]``, or its bare name, finds the whole table.
    """
    word = _plain(asked)
    table = [row for row in rows if row.table and row.table.strip("[]") == word.strip("[]")]
    if table:
        return [(row, row.example) for row in table]
    ranked = [(_rank(row, word), row) for row in rows]
    near = [(rank, row) for rank, row in ranked if rank is not None]
    best = min((rank for rank, _ in near), default=0)
    most = EXACT if best <= EXACT else best
    kept = sorted((rank, i) for i, (rank, _) in enumerate(near) if rank <= most)
    return [(near[i][1], _example(near[i][1], word)) for _, i in kept]


def _rank(row: Row, word: str) -> int | None:
    """Return how near a key is to a word, from 0; None where they have nothing in common."""
    values = [_plain(text) for text in (*row.values, *row.also)]
    plain = [_plain(text) for text in row.words]
    name = _plain(row.name)
    if word == name:
        return 0
    if word in values:
        return 1
    if word in plain:
        return EXACT
    told = [*values, *plain, name]
    if any(f" {word}" in f" {text}" for text in told):
        return NAMED
    if any(f" {text} " in f" {word} " for text in told) or f" {word}" in f" {_plain(row.meaning)}":
        return NAMED + 1
    return None


def _plain(text: str) -> str:
    """Return a text by which another is found: small letters, no plural, no joining signs."""
    words = text.casefold().replace("_", " ").replace("-", " ").split()
    return " ".join(word[:-1] if len(word) > 3 and word.endswith("s") else word for word in words)


def _example(row: Row, word: str) -> str:
    """Return an example with the value that the word is, or stands for."""
    for value in (*row.values, *row.also):
        if _plain(value) == word or (len(word) > 3 and f" {word}" in f" {_plain(value)}"):
            is_list = row.written.startswith("list")
            written = _toml([value] if is_list else value)
            stands = row.also.get(value)
            return f"{row.name} = {written}" + (f"   # read as {_toml(stands)}" if stands else "")
    return row.example


def nearest(rows: Sequence[Row], asked: str) -> list[str]:
    """Return words that are spelt nearly like one that finds nothing."""
    known = {
        text.casefold(): text
        for row in rows
        for text in (row.name, *row.values, *row.also, *row.words)
    }
    return [known[word] for word in get_close_matches(asked.casefold(), known, n=3)]
