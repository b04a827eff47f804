"""Local search: steps within a trusted distance, taken as long as each makes a top better.

Near a top the room to each edge changes almost in proportion to its numbers, and so does its worth.
The best small step is a linear program; it is taken where the top that then really fits is better,
and tried smaller where it is not.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

Top = TypeVar("Top")

_MOST_STEPS = 80

_CLEARLY = 1e-9
"""Share by which a step must make a top better for the next to be longer."""


def climbed(
    top: Top,
    score: float,
    step: Callable[[Top, float], tuple[float, Top] | None],
    trust: float,
    last: float,
) -> tuple[float, Top]:
    """Return a local best reached from a top, never a worse one, with its score.

    Parameters
    ----------
    step : callable
        From a top and a distance, mm, to the top after the best step of at most that, with its
        score, which is −∞ where nothing fits; None where no step promises to gain anything.
    trust, last : float
        The first distance and the least, mm.
    """
    for _ in range(_MOST_STEPS):
        found = step(top, trust) if trust >= last else None
        if found is None:
            break
        if found[0] > score:
            trust *= 2.0 if found[0] > score + _CLEARLY * abs(score) else 0.5
            score, top = found
        else:
            trust /= 4
    return score, top
