"""Why nothing fits: what the wood would give without the limits, and which of them it breaks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..geometry.point import Point
from ..outlines import OWN_OUTLINE, PIECE_AS_FOUND
from ..panel.sound import SoundWood
from ..units import Tape
from .families import answered
from .points import are_parted, clear_of, lost
from .wish import ANY, Goal, Span, Wish

_ROUGH = 0.02
"""Gap to which the largest top without limits is sought: a reason needs no more."""


def reason(wood: SoundWood, wish: Wish, shape: str, tape: Tape) -> str:
    """Return why no top of that shape fits, in one line."""
    told = _at_a_glance(wood, wish, shape, tape)
    if told:
        return told
    if shape == OWN_OUTLINE and wish.own is not None and not wish.scaled:
        from .rigid.places import own_reason

        return own_reason(clear_of(wood, wish.avoids), wish, wish.own, tape)
    loose = replace(wish.limits, length=ANY, width=ANY, ratio=Span(1.0))
    free = replace(wish, limits=loose, goal=Goal.AREA, gap=_ROUGH)
    largest = answered(wood, free, shape).fit
    if largest is None:
        where = "" if not wish.covers else f" and covers {_points(wish.covers, tape)}"
        return f"no {shape} fits in the sound wood at all{where}"
    size = f"{tape.figure(largest.outline.length)} × {tape.measure(largest.outline.width)}"
    return (
        f"no {shape} {_told(wish, tape)} fits: the largest without these limits is about {size}; "
        "loosen a limit, or lower a margin or clearance"
    )


def _at_a_glance(wood: SoundWood, wish: Wish, shape: str, tape: Tape) -> str:
    """Return what rules a shape out without a search; empty where nothing does."""
    if wood.inner.is_empty:
        return f"no {shape} fits: no sound wood is left within the margins and clearances"
    outside = lost(clear_of(wood, wish.avoids), wish.covers)
    limits, told = wish.limits, ""
    if outside:
        told = (
            f"no {shape} can cover the point {_points(outside[:1], tape)}: no sound wood "
            "lies there; move the point, or lower a margin or clearance"
        )
    elif limits.width.least > limits.length.greatest:
        told = (
            f"no {shape} can be at most {_size(limits.length.greatest, tape)} long and at least "
            f"{_size(limits.width.least, tape)} wide: lower the least width"
        )
    elif shape == "circle" and not limits.ratio.holds(1.0):
        told = f"no circle has a ratio {_span(limits.ratio)}: it is as long as wide"
    elif shape not in (OWN_OUTLINE, PIECE_AS_FOUND) and are_parted(wood, wish):
        told = (
            f"no {shape} can cover {_points(wish.covers, tape)}: not all between them is sound "
            "wood; cover fewer points"
        )
    return told


def undecided(wish: Wish, shape: str, bound: float, tape: Tape) -> str:
    """Return in one line what is known where the search ended before it found a top."""
    if shape == OWN_OUTLINE and not wish.scaled:
        return (
            f"no place for the {shape} was found within the time or the effort "
            "allowed, but not all are ruled out: allow more time, or lower a margin or clearance"
        )
    most = {
        Goal.AREA: f"of up to {tape.area(bound)}",
        Goal.LENGTH: f"of up to {tape.measure(bound)} length",
        Goal.WIDTH: f"of up to {tape.measure(bound)} width",
        Goal.NEAREST: "near the wanted size",
    }[wish.goal]
    return (
        f"no {shape} {_told(wish, tape)} was found within the time or the effort "
        f"allowed, but one {most} is not ruled out: allow more time, or loosen a limit"
    )


def _told(wish: Wish, tape: Tape) -> str:
    limits = wish.limits
    parts = [
        f"{name} {_span(span, said)}"
        for name, span, said, bare in (
            ("a length", limits.length, tape, 0.0),
            ("a width", limits.width, tape, 0.0),
            ("a ratio", limits.ratio, None, 1.0),
        )
        if span.least > bare or not math.isinf(span.greatest)
    ]
    parts = [f"with {' and '.join(parts)}"] if parts else []
    way = f"{math.degrees(limits.grain):.4g}°"  # of the grain, or of an edge of the panel
    if limits.most_turn == 0:
        parts.append(f"lying at {way}")
    elif limits.most_turn < math.pi / 2:
        parts.append(f"turned at most {limits.most_turn_deg:g}° from the grain at {way}")
    if wish.covers:
        parts.append(f"over {_points(wish.covers, tape)}")
    return ", ".join(parts) if parts else "of any size"


def _points(points: Sequence[Point], tape: Tape) -> str:
    return " and ".join(f"{tape.figure(point.x)}, {tape.figure(point.y)}" for point in points)


def _size(length: float, tape: Tape) -> str:
    """Return a limit as it was given, a figure of mm with all its decimals."""
    return tape.measure(length) if tape.imperial else f"{length:g} mm"


def _span(span: Span, tape: Tape | None = None) -> str:
    """Return a span of lengths; of bare numbers where there is no tape."""
    least, greatest = (
        f"{value:g}" if tape is None or math.isinf(value) else _size(value, tape)
        for value in (span.least, span.greatest)
    )
    if span.least == span.greatest:
        return f"of {least}"
    if math.isinf(span.greatest):
        return f"of at least {least}"
    if span.least <= 0:
        return f"of at most {greatest}"
    return f"from {least} to {greatest}"
