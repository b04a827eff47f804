"""What stands against a plan, or is worth knowing about it: a fact, told in `words`."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


@dataclass(frozen=True, slots=True)
class Concern:
    """One thing that the maker should put right or know."""

    matter: Enum
    """What it is about: each craft has its own list."""
    who: tuple[str, ...] = ()
    """Labels of the cuts, legs, marks or defects it is about; none where it is about all."""
    found: float | None = None
    limit: float | None = None
    """What was found and what it is held against: mm, or what else the matter is counted in: N,
    kg, degrees, a year."""
