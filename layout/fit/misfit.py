"""Why nothing fits: what the wood would give without the limits, and which of them it breaks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..geometry.point import Point
from ..outlines import OWN_OUTLINE, PIECE_AS_FOUND
from ..panel.sound import SoundWood
from .families import answered, unlimited
from .outright import are_parted
from .own.misfit import own_reason
from .points import clear_of, lost
from .wish import Goal, Limits, Span, Wish

_ROUGH = 0.02
"""Gap to which the largest top without limits is sought: a reason needs no more."""


def reason(wood: SoundWood, wish: Wish, shape: str) -> str:
    """Return why no top of that shape fits, in one line."""
    told = _at_a_glance(wood, wish, shape)
    if told:
        return told
    if shape == OWN_OUTLINE and wish.own is not None and not wish.scaled:
        return own_reason(clear_of(wood, wish.avoids), wish, wish.own)
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


def _at_a_glance(wood: SoundWood, wish: Wish, shape: str) -> str:
    """Return what rules a shape out without a search; empty where nothing does."""
    if wood.inner.is_empty:
        return f"no {shape} fits: no sound wood is left within the margins and clearances"
    outside = lost(clear_of(wood, wish.avoids), wish.covers)
    limits, told = wish.limits, ""
    if outside:
        told = (
            f"no {shape} can cover the point {outside[0].x:g}, {outside[0].y:g}: no sound wood "
            "lies there; move the point, or lower a margin or clearance"
        )
    elif limits.width.least > limits.length.greatest:
        told = (
            f"no {shape} can be at most {limits.length.greatest:g} mm long and at least "
            f"{limits.width.least:g} mm wide: lower the least width"
        )
    elif shape == "circle" and not limits.ratio.holds(1.0):
        told = f"no circle has a ratio {_span(limits.ratio, '')}: it is as long as wide"
    elif shape not in (OWN_OUTLINE, PIECE_AS_FOUND) and are_parted(wood, wish):
        told = (
            f"no {shape} can cover {_points(wish.covers)}: not all between them is sound wood; "
            "cover fewer points"
        )
    return told


def undecided(wish: Wish, shape: str, bound: float) -> str:
    """Return in one line what is known where the search ended before it found a top."""
    if shape == OWN_OUTLINE and not wish.scaled:
        return (
            f"no place for the {shape} was found within the time or the effort "
            "allowed, but not all are ruled out: allow more time, or lower a margin or clearance"
        )
    most = {
        Goal.AREA: f"of up to {bound / 1e6:.3f} m²",
        Goal.LENGTH: f"of up to {bound:.0f} mm length",
        Goal.WIDTH: f"of up to {bound:.0f} mm width",
        Goal.NEAREST: "near the wanted size",
    }[wish.goal]
    return (
        f"no {shape} {_told(wish)} was found within the time or the effort "
        f"allowed, but one {most} is not ruled out: allow more time, or loosen a limit"
    )


def _told(wish: Wish) -> str:
    limits = wish.limits
    parts = [
        f"{name} {_span(span, unit)}"
        for name, span, unit, bare in (
            ("a length", limits.length, " mm", 0.0),
            ("a width", limits.width, " mm", 0.0),
            ("a ratio", limits.ratio, "", 1.0),
        )
        if span.least > bare or not math.isinf(span.greatest)
    ]
    parts = [f"with {' and '.join(parts)}"] if parts else []
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
