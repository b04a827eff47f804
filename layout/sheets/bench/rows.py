"""What a bench sheet is made of: sections of steps and tables, all in words already."""

from __future__ import annotations

from dataclasses import dataclass

from ...drawing.scene import Scene
from ...units import Tape


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of words under headings."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """Each as long as the headings."""
    caption: str = ""


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One thing to do and tick off."""

    title: str
    words: tuple[str, ...] = ()
    """Sentences."""
    table: Table | None = None
    warnings: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    """What is done within the step, one after the other."""
    drawing: Scene | None = None
    more: Table | None = None
    """A second table under the first."""

    @property
    def tables(self) -> tuple[Table, ...]:
        """Its tables, in order."""
        return tuple(table for table in (self.table, self.more) if table is not None)


def sentence(words: str) -> str:
    """Return words with a capital at their head and a full stop at their end."""
    ended = words if words.endswith((".", "!", "?")) else f"{words}."
    return ended[:1].upper() + ended[1:]


@dataclass(frozen=True, slots=True)
class Section:
    """Steps that belong together."""

    title: str
    steps: tuple[BenchStep, ...]


def unit_words(tape: Tape) -> str:
    """Return what the figures of a table count in."""
    return "inches" if tape.imperial else "mm"
