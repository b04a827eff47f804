"""The keys of a job file as rows, and those that a word finds.

They are shipped beside the library and made from its own keys: nothing of the library is imported,
so that an answer comes at once.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
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
    words: list[str]
    """What else makers call it."""
    values: list[str]

    @property
    def record(self) -> dict[str, Any]:
        """The row for machines."""
        held = {"table": self.table, "key": self.name, "value": self.written}
        return {**held, "left_out": self.left_out, "meaning": self.meaning, "example": self.example}


@cache
def every_row() -> tuple[Row, ...]:
    """Return every key, in the order of the documents."""
    return tuple(Row(**row) for row in json.loads((REFERENCE / "keys.json").read_text("utf-8")))


def row_at(trail: Sequence[str | int]) -> Row | None:
    """Return the key that a trail through a job file leads to, None where there is none."""
    *tables, name = [part for part in trail if isinstance(part, str)]
    here = (row for row in every_row() if row.table.strip("[]") == ".".join(tables))
    return next((row for row in here if row.name == name), None)


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
            written = json.dumps([value] if is_list else value, ensure_ascii=False)
            stands = row.also.get(value)
            return f"{row.name} = {written}" + (f'   # read as "{stands}"' if stands else "")
    return row.example


def nearest(rows: Sequence[Row], asked: str) -> list[str]:
    """Return words that are spelt nearly like one that finds nothing."""
    every = (text for row in rows for text in (row.name, *row.values, *row.also, *row.words))
    known = {text.casefold(): text for text in every}
    return [known[word] for word in get_close_matches(asked.casefold(), known, n=3)]
