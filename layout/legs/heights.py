"""How high tables stand, by use, and what presses on their edges."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.alike import at_least, at_most
from ..units import MM_PER_INCH

SAT_ON = 900.0
"""Somebody may sit down on the edge of a table up to this high, mm (our choice): then the force
counts at its very edge, not where a standard presses."""

DINED_AT = 480.0
"""Nobody dines at a table whose face is lower than this, mm (ours): somebody sits down on it."""

EDGE = 50.0
"""How far in from the edge the force presses, mm (ISO 7172:1988)."""

LOAD = 600.0
"""What presses on the edge of any other table, N: some 60 kg (common practice)."""

SITTER = 800.0
"""What somebody who sits down on the edge of a low table brings, N: 80 kg (common practice)."""

KNEE_HEIGHT = 24 * MM_PER_INCH
"""Free height under a table that knees want, mm: 24 in (from memory)."""


@dataclass(frozen=True, slots=True)
class UsualHeight:
    """How high a table of one use stands, mm to its upper face, and who says so.

    `seats` tells whether people sit at it with their knees under it.
    """

    use: str
    least: float
    most: float
    source: str
    seats: bool = False


_IN = MM_PER_INCH

HEIGHTS = (
    UsualHeight("coffee", 15 * _IN, 18 * _IN, "from memory: 15 to 18 in"),
    UsualHeight("dining", 28 * _IN, 30 * _IN, "Time-Saver Standards: 28 to 30 in", seats=True),
    UsualHeight("bench", 430.0, 460.0, "from memory"),
    UsualHeight("bar", 1050.0, 1100.0, "from memory"),
)
"""Usual heights by use."""


def use_of(height: float) -> UsualHeight | None:
    """Return the first use for which a table so high, mm, is usual; None where there is none."""
    return next((u for u in HEIGHTS if at_least(height, u.least) and at_most(height, u.most)), None)
