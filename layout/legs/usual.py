"""How high tables stand, by use, and what legs are made of: wood, board, metal, stone, clay."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.alike import at_least, at_most
from ..panel.materials import MATERIALS, Material

_INCH = 25.4

SAT_ON = 900.0
"""Somebody may sit down on the edge of a table up to this high, mm (our choice): then the force
counts at its very edge, not where a standard presses."""

DINED_AT = 480.0
"""Nobody dines at a table whose face is lower than this, mm (ours): somebody sits down on it."""

LOAD = 600.0
"""What presses on the edge of any other table, N: some 60 kg (common practice)."""

SITTER = 800.0
"""What somebody who sits down on the edge of a low table brings, N: 80 kg (common practice)."""

KNEE_HEIGHT = 24 * _INCH
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


HEIGHTS = (
    UsualHeight("coffee", 15 * _INCH, 18 * _INCH, "from memory: 15 to 18 in"),
    UsualHeight("dining", 28 * _INCH, 30 * _INCH, "Time-Saver Standards: 28 to 30 in", seats=True),
    UsualHeight("bench", 430.0, 460.0, "from memory"),
    UsualHeight("bar", 1050.0, 1100.0, "from memory"),
)
"""Usual heights by use."""


def use_of(height: float) -> UsualHeight | None:
    """Return the first use for which a table so high, mm, is usual; None where there is none."""
    return next((u for u in HEIGHTS if at_least(height, u.least) and at_most(height, u.most)), None)


_MEMORY = "from memory"

METALS = {
    "steel": Material("steel", 7850.0, _MEMORY),
    "aluminium": Material("aluminium", 2700.0, _MEMORY),
}
"""By the name that a job file uses."""

MASONRY = {
    "concrete": Material("concrete", 2350.0, "from memory: 2300 to 2400"),
    "brick": Material("brick", 1900.0, "from memory: 1800 to 2000"),
    "fired clay": Material("fired clay", 1900.0, "from memory: 1800 to 2000"),
}
"""What takes no wood screw, is hard and uneven on top, and weighs much."""

LEG_MATERIALS: dict[str, Material] = {**MATERIALS, **METALS, **MASONRY}
"""Every material of legs by the name that a job file uses."""


def is_wooden(name: str) -> bool:
    """Return whether legs of this material are wood or board; so are legs of unnamed material."""
    return name not in METALS and name not in MASONRY
