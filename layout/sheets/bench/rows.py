"""What a bench sheet is made of: sections of steps and tables, all in words already."""

from __future__ import annotations

from dataclasses import dataclass

from ...drawing.scene import Scene
from ...units import Tape
from ...words.passage import Passage, Table
from ...words.say import sentence

__all__ = ["BenchStep", "Section", "Table", "sentence", "unit_words"]


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

    @classmethod
    def of(cls, told: Passage, drawing: Scene | None = None) -> BenchStep:
        """Return the step of a passage, with its picture."""
        table, more = (*told.tables, None, None)[:2]
        return cls(told.title, told.words, table, told.warnings, told.points, drawing, more)

    @property
    def tables(self) -> tuple[Table, ...]:
        """Its tables, in order."""
        return tuple(table for table in (self.table, self.more) if table is not None)


@dataclass(frozen=True, slots=True)
class Section:
    """Steps that belong together."""

    title: str
    steps: tuple[BenchStep, ...]


def unit_words(tape: Tape) -> str:
    """Return what the figures of a table count in."""
    return "inches" if tape.imperial else "mm"
