"""`panelwright keys WORD`: what a job file can say, by the words that makers use.

The keys are shipped as rows beside the library, made from its own: none of it is imported, so that
an answer comes at once.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from textwrap import wrap
from typing import Any

import click

from .reading import answer, as_json_option, stop

WIDTH = 88

EXAMPLES = """
\b
Examples:
  panelwright keys
  panelwright keys ring stain
  panelwright keys overhang
  panelwright keys [legs]
  panelwright keys --schema plan > plan.schema.json
"""


@click.command(epilog=EXAMPLES)
@click.argument("words", nargs=-1, metavar="[WORD]...")
@as_json_option
@click.option(
    "--schema",
    type=click.Choice(("job", "plan")),
    help="Print the JSON Schema of a job file, or of plan.json, instead.",
)
def keys(words: tuple[str, ...], schema: str | None) -> None:
    """Search the keys of a job file by name, by value or by a plain word.

    Each is told with its values, what holds where it is left out, and an example. Without a WORD
    the names of all keys are listed; a heading such as [legs] gives a whole table.
    """
    if schema is not None:
        click.echo((REFERENCE / f"{schema}.schema.json").read_text("utf-8"), nl=False)
        return
    rows = every_row()
    asked = " ".join(words)
    told: list[tuple[Row, str]] = found(rows, asked) if asked else [(r, r.example) for r in rows]
    if not told:
        near = nearest(rows, asked)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        stop(f"No key is found by {asked!r}{hint} `panelwright keys` lists them all.")
    answer(
        lambda: {"keys": [row.record | {"example": example} for row, example in told]},
        lambda: _told(told) if asked else _listed(rows),
    )


def _told(told: list[tuple[Row, str]]) -> Iterator[str]:
    heading = None
    for row, example in told:
        if row.table != heading:
            heading = row.table
            yield heading or "The top of the file"
        yield f"  {example or row.name}"
        left_out = f"Left out: {row.left_out}." if row.left_out else ""
        written, _, also = row.written.partition("; also ")
        more = f"; also {also.count('(')} more words" if also else ""
        for text in (f"{row.meaning}.", f"Value: {written}{more}. {left_out}"):
            yield from (f"      {line}" for line in wrap(text.replace("`", ""), WIDTH))


def _listed(rows: Sequence[Row]) -> Iterator[str]:
    for table in dict.fromkeys(row.table for row in rows):
        yield table or "The top of the file"
        names = ", ".join(row.name for row in rows if row.table == table)
        yield from (f"  {line}" for line in wrap(names, WIDTH))


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
    """Return the keys that a word or a heading finds, nearest first, with examples that fit."""
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
