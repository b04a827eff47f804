"""What words are told in, and what is told of one fact.

The maker's tape, the line measured from, how the face lies; a title, sentences, points, tables.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..geometry.tolerance import SAME_PLACE
from ..panel.datum import Datum
from ..units import Tape


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


@dataclass(frozen=True, slots=True)
class Say:
    """What every sentence of a plan needs besides its facts."""

    tape: Tape
    datum: Datum
    """The line that offsets count from."""
    mirrored: bool = False
    """Whether the show face lies down, so that left and right are swapped."""


def unit_words(tape: Tape) -> str:
    """Return what the figures of a table count in."""
    return "inches" if tape.imperial else "mm"


def thin_words(length: float, tape: Tape) -> str:
    """Return a thickness or a diameter: by the tape where that is true, else in decimals.

    >>> thin_words(3.5, Tape()), thin_words(12.0, Tape()), thin_words(3.175, Tape(imperial=True))
    ('3.5 mm', '12 mm', '1/8 in')
    """
    if abs(tape.nearest(length) - length) <= SAME_PLACE:
        return tape.measure(length)
    return f"{tape.exact(length, 1)} {tape.unit}"


def capital(words: str) -> str:
    """Return words with a capital at their head; names within them stay as they are.

    >>> capital("end along DA")
    'End along DA'
    """
    return words[:1].upper() + words[1:]


def sentence(words: str) -> str:
    """Return words with a capital at their head and a full stop at their end."""
    return capital(words if words.endswith((".", "!", "?")) else f"{words}.")


def listed(names: Iterable[str], last: str = "and") -> str:
    """Return names as a sentence lists them.

    >>> listed(["A", "B", "C"]), listed(["A"])
    ('A, B and C', 'A')
    """
    every = list(names)
    head, tail = every[:-1], every[-1:]
    return f"{', '.join(head)} {last} {tail[0]}" if head else "".join(tail)
