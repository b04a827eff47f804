"""What the limits of a wish leave an outline of one size: which, or nothing."""

from __future__ import annotations

from ...geometry.placement import Points
from ...geometry.polygon import Region, convex_hull
from ...outlines import Outline
from ..wish import Limits
from ..wood.edges import diameter

_COARSE = 0.05
"""Tolerance of a polygon that is only compared by its reach, mm."""

_MUCH = 1.1

_SLACK = 1e-6
"""What a size may lie beyond a limit by rounding."""


def broken_limit(limits: Limits, own: Outline) -> str:
    """Return what limit an outline breaks, as the end of a sentence; empty where it keeps all."""
    for name, span, value in (
        ("length", limits.length, own.length),
        ("width", limits.width, own.width),
        ("ratio", limits.ratio, own.length / own.width),
    ):
        if not span.holds(value, _SLACK):
            side, limit = ("below", span.least) if value < span.least else ("above", span.greatest)
            return f"has a {name} {side} the limit of {limit:g}"
    return ""


def is_longer_than(wood: Region, own: Outline) -> bool:
    """Return whether an outline reaches much farther than the wood does at its longest.

    One that is only a little too long is searched for, so that what it lacks can be told.
    """
    if wood.is_empty:
        return True
    return _reach(own.inner(_COARSE)) > _MUCH * _reach(wood.corners)


def _reach(points: Points) -> float:
    return diameter(convex_hull(points))
