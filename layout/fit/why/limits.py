"""Which limits of the wish a top has come to: it could be larger there, but may not be."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from ...geometry.tolerance import PROOF_ALLOWANCE, SIZE_SLACK
from ..found import Fit
from ..wish import Span, Wish

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
    return tuple(_met(fit, wish))


def _met(fit: Fit, wish: Wish) -> Iterator[LimitMet]:
    top, limits = fit.outline, wish.limits
    ratio_slack = 2 * SIZE_SLACK / top.width
    figures = [
        (Limited.LENGTH, top.length, limits.length, SIZE_SLACK),
        (Limited.WIDTH, top.width, limits.width, SIZE_SLACK),
    ]
    if top.name != "circle":
        figures.append((Limited.RATIO, top.length / top.width, limits.ratio, ratio_slack))
    radius, span = top.figures.get("corner_radius"), limits.corner_radius
    if radius is not None and span.least < span.greatest:
        figures.append((Limited.CORNER_RADIUS, radius, span, PROOF_ALLOWANCE))
    for what, value, limit, slack in figures:
        yield from _ends(what, value, limit, slack)
    away = abs(limits.off_grain(fit.placement.turn))
    if top.name != "circle" and limits.most_turn < math.pi / 2 and away > limits.most_turn - _TURN:
        yield LimitMet(Limited.TURN, End.GREATEST)


def _ends(what: Limited, value: float, span: Span, slack: float) -> Iterator[LimitMet]:
    if value >= span.greatest - slack:
        yield LimitMet(what, End.GREATEST)
    elif span.least > 0 and value <= span.least + slack and (what, span.least) != _ROUND:
        yield LimitMet(what, End.LEAST)


_ROUND = (Limited.RATIO, 1.0)
"""No top is less than once as long as wide: that is no limit of a wish."""
