"""Why nothing fits: what the wood would give without the limits, and which of them it breaks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..geometry.point import Point
from ..outlines import OWN_OUTLINE
from ..panel.sound import SoundWood
from .families import answered, unlimited
from .own.misfit import own_reason
from .points import clear_of, lost
from .wish import Goal, Limits, Span, Wish

_ROUGH = 0.02
"""Gap to which the largest top without limits is sought: a reason needs no more."""


def reason(wood: SoundWood, wish: Wish, shape: str) -> str:
    """Return why no top of that shape fits, in one line."""
    if wood.inner.is_empty:
        return f"no {shape} fits: no sound wood is left within the margins and clearances"
    outside = lost(clear_of(wood, wish.avoids), wish.covers)
    if outside:
        return (
            f"no {shape} can cover the point {outside[0].x:g}, {outside[0].y:g}: no sound wood "
            "lies there; move the point, or lower a margin or clearance"
        )
    if shape == OWN_OUTLINE and wish.own is not None and not wish.scaled:
        return own_reason(clear_of(wood, wish.avoids), wish, wish.own)
    limits = wish.limits
    if limits.width.least > limits.length.greatest:
        return (
            f"no {shape} can be at most {limits.length.greatest:g} mm long and at least "
            f"{limits.width.least:g} mm wide: lower the least width"
        )
    free = replace(unlimited(wish), goal=Goal.AREA, gap=_ROUGH)
    largest = answered(wood, free, shape).fit
    if largest is None:
        where = "" if not wish.covers else f" and covers {_points(wish.covers)}"
        return f"no {shape} fits in the sound wood at all{where}"
    size = f"{largest.outline.length:.0f} × {largest.outline.width:.0f} mm"
    return (
        f"no {shape} {_told(wish)} fits: the largest without these limits is about {size}; "
        "loosen a limit, or lower a margin or clearance"
    )


def undecided(wish: Wish, shape: str, bound: float) -> str:
    """Return in one line what is known where the search ended before it found a top."""
    if shape == OWN_OUTLINE and not wish.scaled:
        return (
            f"no place for the {shape} was found within the time or the {wish.most_steps} boxes "
            "allowed, but not all are ruled out: allow more time, or lower a margin or clearance"
        )
    most = {
        Goal.AREA: f"of up to {bound / 1e6:.3f} m²",
        Goal.LENGTH: f"of up to {bound:.0f} mm length",
        Goal.WIDTH: f"of up to {bound:.0f} mm width",
        Goal.NEAREST: "near the wanted size",
    }[wish.goal]
    return (
        f"no {shape} {_told(wish)} was found within the time or the {wish.most_steps} boxes "
        f"allowed, but one {most} is not ruled out: allow more time, or loosen a limit"
    )


def _told(wish: Wish) -> str:
    limits = wish.limits
    parts = [
        f"{name} {_span(span, unit)}"
        for name, span, unit in (
            ("with a length", limits.length, " mm"),
            ("a width", limits.width, " mm"),
            ("a ratio", limits.ratio, ""),
        )
        if span.least > 0 or not math.isinf(span.greatest)
    ]
    if limits.most_turn < math.pi / 2:
        parts.append(_turned(limits))
    if wish.covers:
        parts.append(f"over {_points(wish.covers)}")
    return ", ".join(parts) if parts else "of any size"


def _turned(limits: Limits) -> str:
    """Return how it may be turned; the way it keeps to is the grain, or an edge of the panel."""
    way = f"{math.degrees(limits.grain):.4g}°"
    if limits.most_turn == 0:
        return f"lying at {way}"
    return f"turned at most {math.degrees(limits.most_turn):g}° from the grain at {way}"


def _points(points: Sequence[Point]) -> str:
    return " and ".join(f"{point.x:g}, {point.y:g}" for point in points)


def _span(span: Span, unit: str) -> str:
    if span.least == span.greatest:
        return f"of {span.least:g}{unit}"
    if math.isinf(span.greatest):
        return f"of at least {span.least:g}{unit}"
    if span.least <= 0:
        return f"of at most {span.greatest:g}{unit}"
    return f"from {span.least:g} to {span.greatest:g}{unit}"
