"""What a wish asks of a finished top: what its sizes are worth, and which of them are allowed."""

from __future__ import annotations

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from ..errors import LayoutError
from ..outlines import Outline
from .wish import Goal, Limits, Wish

Figure = TypeVar("Figure", float, NDArray[np.float64])

Ends = tuple[float, float]
"""The least and the greatest."""
Row = tuple[float, float, float]
"""a, b and c of a limit: ``a · length + b · width <= c``."""

_HAIR, _SIZE_SLACK = 1e-9, 1e-6
"""What a turn, radians, and a size, mm, may lie beyond a limit by rounding."""


def worth(wish: Wish, length: Figure, width: Figure, area: Figure) -> Figure:
    """Return what tops of these sizes are worth, mm and mm²; more is better."""
    match wish.goal:
        case Goal.AREA:
            return area
        case Goal.LENGTH:
            return length
        case Goal.WIDTH:
            return width
        case Goal.NEAREST:
            long, wide = wanted(wish)
            miss: Figure = np.hypot(length - long, width - wide)
            return nearness(wish, miss)


def nearness(wish: Wish, miss: Figure) -> Figure:
    """Return what a top is worth whose sizes lie so far, mm, from the wanted ones."""
    size = math.hypot(*wanted(wish))
    return size / (size + miss)


def wanted(wish: Wish) -> tuple[float, float]:
    """Return the length and width that the nearest top is measured from, mm."""
    assert wish.wanted is not None
    return wish.wanted


def check(wish: Wish, *, slim: bool = True) -> None:
    """Raise a `LayoutError` for a wish that has no best top; `slim` tells whether one may be."""
    if wish.goal is Goal.NEAREST and wish.wanted is None:
        raise LayoutError("the nearest top needs a wanted length and width")
    bare = wish.limits.width.least <= 0 and math.isinf(wish.limits.ratio.greatest)
    if wish.goal is Goal.LENGTH and bare and slim:
        raise LayoutError(
            "the longest top needs a least width or a greatest ratio: else it is a line"
        )


def half_planes(length: Ends, width: Ends, ratio: Ends) -> list[Row]:
    """Return the rows that keep sizes within limits, and the length no less than the width."""
    rows = [(-1.0, max(1.0, ratio[0]), 0.0)]
    if math.isfinite(ratio[1]):
        rows.append((1.0, -ratio[1], 0.0))
    for (least, greatest), (a, b) in ((length, (1.0, 0.0)), (width, (0.0, 1.0))):
        if least > 0:
            rows.append((-a, -b, -least))
        if math.isfinite(greatest):
            rows.append((a, b, greatest))
    return rows


def half_planes_of(limits: Limits) -> list[Row]:
    """Return the rows that keep the sizes of finished tops within the limits of a wish."""
    spans = (limits.length, limits.width, limits.ratio)
    return half_planes(*((span.least, span.greatest) for span in spans))


def broken_limit(limits: Limits, own: Outline) -> str:
    """Return what limit an outline breaks, as the end of a sentence; empty where it keeps all."""
    for name, span, value in (
        ("length", limits.length, own.length),
        ("width", limits.width, own.width),
        ("ratio", limits.ratio, own.length / own.width),
    ):
        if not span.holds(value, _SIZE_SLACK):
            side, limit = ("below", span.least) if value < span.least else ("above", span.greatest)
            return f"has a {name} {side} the limit of {limit:g}"
    return ""


def turn_spans(limits: Limits, period: float) -> list[Ends]:
    """Return the spans of turns to be searched, radians.

    A long side may lie within `most_turn` of the grain either way round; an outline that looks the
    same after half a turn need be searched one way only.
    """
    if limits.most_turn >= math.pi / 2:
        return [(-period / 2, period / 2)]
    if limits.most_turn >= period / 2:
        return [(limits.grain - period / 2, limits.grain + period / 2)]
    ways = (0.0,) if abs(math.remainder(math.pi, period)) < _HAIR else (0.0, math.pi)
    grain, most = limits.grain, limits.most_turn
    return [(grain + way - most, grain + way + most) for way in ways]
