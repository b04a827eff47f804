"""A family ready to be searched, and what its search comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from .branch_and_bound import Family
from .found import Fit
from .stand import Elsewhere


@dataclass(frozen=True, slots=True)
class Entry:
    """A family ready to be searched."""

    family: Family[Any, Any]
    finish: Callable[[Any], Fit | None]
    """Makes a proved fit, or None, from the family's own kind of top."""
    elsewhere: Elsewhere[Any] | None = None
    """Looks for other places than the best; None where the family has no choice of them."""
    base: float = 0.0
    """What the family adds to what the goal counts, so that its scores are positive."""
    gap: float | None = None
    """Share of its scores at which the search ends; None for that of the wish."""
    enough: float = 0.0
    """Score up to which tops are of no interest."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search came to: a proved top, if any was found, and a bound for all."""

    fit: Fit | None
    bound: float
    steps: int
    looks: float = 0.0
    """What it took: see `Family.looks`."""
