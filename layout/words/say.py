"""What words are told in: the maker's tape, the line measured from, how the face lies."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..panel.datum import Datum
from ..units import Tape


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


def sentence(words: str) -> str:
    """Return words with a capital at their head and a full stop at their end."""
    ended = words if words.endswith((".", "!", "?")) else f"{words}."
    return ended[:1].upper() + ended[1:]


def listed(names: Iterable[str], last: str = "and") -> str:
    """Return names as a sentence lists them.

    >>> listed(["A", "B", "C"]), listed(["A"])
    ('A, B and C', 'A')
    """
    every = list(names)
    head, tail = every[:-1], every[-1:]
    return f"{', '.join(head)} {last} {tail[0]}" if head else "".join(tail)
