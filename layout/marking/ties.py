"""Tie measurements: which two reference points fix a mark best."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from ..geometry.alike import at_least, at_most, first_of_best
from ..geometry.point import Point
from ..geometry.tolerance import ROUNDING
from ..panel.reference import Reference
from .mark import Tie, Ties

READING_ERROR = 0.5
"""Half a division of a tape in millimetres, mm."""

TAPE_ERROR = 0.5e-3
"""What a tape is out by hook, sag and class, a mm: with the reading 2 mm at 3 m (common
practice)."""

NEAREST_TIE = 20.0
"""A tape shorter than this is held by its hook and read at nothing: no tie, mm."""

WORST_TIE = 12.0
"""A tie measurement that may be out by more than this is not worth taking, mm."""


def tape_error(distance: float) -> float:
    """Return how far a careful tape may be out over a distance, mm."""
    return READING_ERROR + TAPE_ERROR * distance


def best_ties(point: Point, references: Sequence[Reference]) -> Ties | None:
    """Return the two tapes that fix a point with the smallest error; None where none do.

    Two tapes that are out by s₁ and s₂ and cross at an angle θ leave the point out by
    √(s₁² + s₂²) / sin θ, so a crossing near a right angle and short tapes are best.
    """
    pairs = (_crossed(point, one, other) for one, other in combinations(references, 2))
    good = [pair for pair in pairs if pair is not None and at_most(pair.error, WORST_TIE)]
    return first_of_best(good, lambda pair: -pair.error, tolerance=ROUNDING) if good else None


def _crossed(point: Point, one: Reference, other: Reference) -> Ties | None:
    first, second = one.point - point, other.point - point
    if not at_least(min(first.norm, second.norm), NEAREST_TIE):
        return None
    sine = abs(first.cross(second)) / (first.norm * second.norm)
    if sine < 1e-6:
        return None
    error = math.hypot(tape_error(first.norm), tape_error(second.norm)) / sine
    return Ties(
        Tie(one.name, first.norm),
        Tie(other.name, second.norm),
        math.atan2(abs(first.cross(second)), first.dot(second)),
        error,
    )
