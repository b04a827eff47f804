"""What is told of cutting: each act by its type, and what stands against a plan of cuts."""

from __future__ import annotations

from ..concern import Concern
from ..cutting.plan import CutMatter
from ..work.blades import BladeMatter
from . import cuts_curves, cuts_straight, edge
from .cuts_told import words_of
from .say import Say, listed

__all__ = ["concern_words", "words_of"]

_REGISTERED = (cuts_curves, cuts_straight, edge)
"""Importing them gives `words_of` its words."""


def concern_words(concern: Concern, say: Say) -> str:
    """Return one sentence about what stands against a plan of cuts, with what to do."""
    if concern.matter is CutMatter.NO_ROOM:
        return _no_room(concern, say)
    cut, *names = concern.who
    what = listed(names)
    if concern.matter is BladeMatter.CROSSES:
        return f"{cut} runs through {what}: take it out first, or lay the top elsewhere."
    return f"{cut} passes closer to {what} than its clearance: sweep there again first."


def _no_room(concern: Concern, say: Say) -> str:
    assert concern.found is not None and concern.limit is not None
    where = f"Along {listed(concern.who)}" if concern.who else "On one side"
    tape = say.tape
    found, needed = tape.exact(concern.found, 1), tape.exact(concern.limit, 1)
    margin = f"{tape.figure(concern.limit, at_least=True)} {tape.unit}"
    return (
        f"{where} only {found} {tape.unit} stands outside the line, and a saw needs {needed}: what "
        f'it leaves, its kerf and {tape.measure(3.0)} that fall off. Write margin = "{margin}" '
        "under [top] for a saw cut there, or rout or plane it."
    )
