"""Phrases that several sheets share."""

from __future__ import annotations

import math

from ..fit.found import Fit
from ..fit.wish import Goal
from ..units import MM_PER_INCH, Tape

BETTER = {Goal.AREA: "larger", Goal.LENGTH: "longer", Goal.WIDTH: "wider", Goal.NEAREST: "nearer"}
"""What a top is that the goal prefers."""


def proof_words(fit: Fit, goal: Goal, tape: Tape) -> str:
    """Return how far from the best a top can be, as a clause; empty where nothing is proved.

    What is left is never told as nothing: the least is a hundredth of a percent or of a mm.
    """
    if fit.clearance_gap is not None:
        least = 0.001 * MM_PER_INCH if tape.imperial else 0.01
        more = tape.exact(max(fit.clearance_gap, least), 2)
        return f"no place gives it over {more} {tape.unit} more clearance"
    if fit.gap is None:
        return ""
    share = math.ceil(1e4 * fit.gap / (1 - fit.gap) - 1e-3) / 1e4  # rounded up, as a bound must be
    return f"no {fit.outline.name} can be more than {max(share, 0.0001):.2%} {BETTER[goal]}"
