"""Local search: from a top to the best near it, by small steps, each a linear program.

The best step within a distance that is trusted is a linear program on what is near; it is taken
where the top that then really fits is better, and tried smaller where it is not.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple, Protocol, TypeVar

import numpy as np

from ..geometry.tolerance import ROUNDING
from .linear_program import maximised
from .wood.edges import Array

_MOST_STEPS = 80

_CLOSE = 1.0
"""mm: things farther off count as nearer than they are, so only where no step so long gains
anything there is none."""
_MORE = 1e-9
"""Share of its worth that a step must gain to be followed by a longer one."""
_BROKEN = 4 * ROUNDING
"""mm: a top that breaks a limit by more must first keep it, whatever a step gains."""
_TRIED = 1e-3
"""mm: so far a top is moved to see how that changes what it keeps away by."""

Top = TypeVar("Top")


class Steps(NamedTuple):
    """Steps from a top, in unknowns of a mm each, and what they gain."""

    gain: Array
    """(k,) array."""
    rows: Array
    limits: Array
    """(m, k) and (m,) arrays: ``rows @ step <= limits``."""
    low: Array
    high: Array
    """(k,) arrays: how far each unknown may go."""


class Movable(Protocol[Top]):
    """Tops that can be moved."""

    def steps(self, top: Top, trust: float) -> Steps:
        """Return the steps of a top, at most `trust` mm each way, on what is near it."""

    def moved(self, top: Top, step: Array) -> Top:
        """Return the top after a step, whether it fits or not."""

    def fitted(self, top: Top) -> tuple[float, Top] | None:
        """Return what the top is worth, made to fit, and the top; None where none of it is left."""


def climbed(
    tops: Movable[Top],
    start: tuple[float, Top],
    steps: tuple[float, float],
    *,
    nothing: float = 0.0,
    enough: float = math.inf,
    away: Callable[[Top], float] | None = None,
) -> tuple[float, Top]:
    """Return a local best reached from a top that fits, never a worse one, with its worth.

    The `steps` are the longest at first, and the one with which it ends, mm. It ends too where no
    step promises to gain more than `nothing`, mm, and at the first top worth `enough`. By how much
    a top keeps away from where it may not be, `away` tells: less than 0 it may not be.
    """
    (worth, top), (trust, last) = start, steps
    for _ in range(_MOST_STEPS):
        if trust < last or worth >= enough:
            break
        step, promise = best_step(tops, top, trust, away)
        if promise < nothing:
            if trust <= _CLOSE:
                break
            trust = _CLOSE
            continue
        found = tops.fitted(tops.moved(top, step))
        if found is None or found[0] <= worth or (away is not None and away(found[1]) < 0):
            trust /= 4
            continue
        trust *= 2.0 if found[0] - worth > _MORE * abs(worth) else 0.5
        worth, top = found
    return worth, top


def best_step(
    tops: Movable[Top], top: Top, trust: float, away: Callable[[Top], float] | None = None
) -> tuple[Array, float]:
    """Return the step of at most `trust`, mm, that promises most, and what none gains more than."""
    gain, rows, limits, low, high = tops.steps(top, trust)
    if away is not None:
        here = away(top)
        tried = [away(tops.moved(top, way)) for way in _TRIED * np.eye(len(gain))]
        rows = np.vstack([rows, (here - np.array(tried)) / _TRIED])
        limits = np.append(limits, max(here, 0.0))
    best = maximised(gain, rows, limits, low, high)
    lacks = bool(limits.min(initial=0.0) < -_BROKEN)
    return best.step, math.inf if lacks else best.value
