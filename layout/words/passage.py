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
    halves: bool = False
    """Whether it is long and narrow, so that it stands in two columns where there is room."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A figure of the first page, with the words that it needs."""

    figure: str = ""
    note: str = ""
    axis: str = ""
    """What it counts along, for programs that read the page."""


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
    figures: tuple[tuple[str, str], ...] = ()
    """At most two that are read from an arm's length, each with the words for its unit."""
