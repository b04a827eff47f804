"""What a bench sheet is made of: sections of steps and tables, all in words already."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of words under headings.

    Attributes
    ----------
    headings : tuple of str
    rows : tuple of tuples of str
        Each as long as the headings.
    caption : str
    """

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str = ""


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One thing to do and tick off.

    Attributes
    ----------
    title : str
    words : tuple of str
        Sentences.
    table : Table or None
    warnings : tuple of str
    """

    title: str
    words: tuple[str, ...] = ()
    table: Table | None = None
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """Steps that belong together."""

    title: str
    steps: tuple[BenchStep, ...]
