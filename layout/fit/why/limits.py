"""Which limits of the wish a top has come to: it could be larger there, but may not be."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ...geometry.tolerance import PROOF_ALLOWANCE, SIZE_SLACK
from ..found import Fit
from ..wish import Wish

_TURN = 1e-4
"""A turn within this of its limit is at it, radians: 0.1 mm over a metre."""


class Limited(Enum):
    """What a wish can limit; the value is what JSON says."""

    LENGTH = "length"
    WIDTH = "width"
    RATIO = "ratio"
    CORNER_RADIUS = "corner radius"
    TURN = "turn"


class End(Enum):
    """Which end of its span a figure has come to."""

    LEAST = "least"
    GREATEST = "greatest"


@dataclass(frozen=True, slots=True)
class LimitMet:
    """A limit that holds a top back."""

    what: Limited
    end: End
    """Of a turn always the greatest."""


def limits_met(fit: Fit, wish: Wish) -> tuple[LimitMet, ...]:
    """Return the limits that the finished top of a fit has come to.

    A corner radius that the wish fixes is no limit that somebody would loosen, and is left out.
    """
    top, limits = fit.outline, wish.limits
    is_round, radius = top.name == "circle", top.figures.get("corner_radius")
    figures = [
        (Limited.LENGTH, top.length, limits.length, SIZE_SLACK),
        (Limited.WIDTH, top.width, limits.width, SIZE_SLACK),
    ]
    if not is_round:
        slack = 2 * SIZE_SLACK / top.width
        figures.append((Limited.RATIO, top.length / top.width, limits.ratio, slack))
    if radius is not None and limits.corner_radius.least < limits.corner_radius.greatest:
        figures.append((Limited.CORNER_RADIUS, radius, limits.corner_radius, PROOF_ALLOWANCE))
    met = []
    for what, value, span, slack in figures:
        # no top is less than once as long as wide: that is no limit of a wish
        free = 1.0 if what is Limited.RATIO else 0.0
        if value >= span.greatest - slack:
            met.append(LimitMet(what, End.GREATEST))
        elif free < span.least and value <= span.least + slack:
            met.append(LimitMet(what, End.LEAST))
    away = abs(limits.off_grain(fit.placement.turn))
    if not is_round and limits.most_turn < math.pi / 2 and away > limits.most_turn - _TURN:
        met.append(LimitMet(Limited.TURN, End.GREATEST))
    return tuple(met)
