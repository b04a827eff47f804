"""What is told of one fact: a title, sentences, a list of points, tables, warnings."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of words under headings."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """Each as long as the headings."""
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Passage:
    """Everything in words about one act, concern or figure."""

    title: str
    words: tuple[str, ...] = ()
    """Sentences."""
    points: tuple[str, ...] = ()
    """What is done within it, one after the other."""
    tables: tuple[Table, ...] = ()
    warnings: tuple[str, ...] = ()
