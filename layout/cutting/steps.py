"""The straight cuts as steps at the bench, with what a slab needs between them."""

from __future__ import annotations

from ..geometry.tolerance import SAME_FIGURE
from ..marking.step import Figure, Step
from .again import MarkedAgain
from .bench import Bench
from .cut import EdgePoint, SkippedTrim, Trim, TrimKind
from .sides import SHORT_OF_CORNER

HEAVY = 10.0
"""A falling piece heavier than this wants a second pair of hands, kg (common practice)."""

LONG_STRIP, NARROW_STRIP = 1000.0, 150.0
"""A strip as long and narrow as this bends into the blade unless it lies on boards, mm (our
choice)."""

PAST_EACH_END = 150.0
"""A straightedge reaches this far past both ends of a cut, mm: the saw starts and ends on it
(common practice)."""

REST = 7
"""Days that a flattened slab lies before it is trusted (common practice)."""

TWIST_LEFT = 2.0
"""Twist that a flattened slab may have after its rest, mm (common practice)."""


def flatten_step(bench: Bench) -> Step:
    """Return the flattening of a slab that has been cut roughly to length."""
    what = (
        "now that it is short there is less twist to lose: carry {line} and both centrelines down "
        "the new ends with a knife; plane or rout both faces flat, from {found} to {thickness}."
    )
    return Step.of(
        "Flatten",
        what.replace("{line}", bench.datum.name),
        about="flatten",
        found=bench.top.panel.thickness,
        thickness=bench.top.thickness,
    )


def rest_step(again: MarkedAgain) -> Step:
    """Return the rest of a flattened slab, and that it is marked again."""
    what = (
        f"{REST} days on sticks, air at both faces; then winding sticks: twist at most {{twist}}, "
        f"else flatten once more. Strike {again.datum.name} again through its marks on the ends, "
        "and set everything out once more from the table below."
    )
    return Step.of("Rest, mark again", what, about="rest", twist=TWIST_LEFT)


def trim_step(bench: Bench, trim: Trim, face: str) -> Step:
    """Return a straight cut.

    Parameters
    ----------
    bench : Bench
        With the datum that the cut is marked by.
    face : str
        How the show face lies, in words.
    """
    words, figures = _line_words(bench, trim.start, trim.end)
    parts = ["either face up" if trim.kind is TrimKind.ROUGH else face, f"saw line {words}"]
    if trim.guide is not None:
        where, more = _line_words(bench, trim.guide.start, trim.guide.end, prefix="guide_")
        parts.append(f"guide {where}, {trim.guide.blade_side} of the blade, on the kept side")
        parts.append("straightedge at least {straightedge} long")
        figures += [*more, Figure("straightedge", trim.sawn + 2 * PAST_EACH_END)]
    else:
        parts.append(
            "clamp the guide by the saw's own offset: make a test cut and measure from the kept "
            "side of the kerf to the edge of the base"
        )
    depths = [Figure(f"depth_{i}", depth) for i, depth in enumerate(trim.depths, start=1)]
    parts.append("depth " + " then ".join(f"{{{depth.name}}}" for depth in depths))
    if trim.kind.stops:
        parts += [_stop_words(trim), *trim.warnings]
        figures += [*depths, Figure("short", SHORT_OF_CORNER)]
    else:
        parts.append(
            "left: a piece {widest} wide"
            if trim.widest - trim.narrowest <= SAME_FIGURE
            else "left: a piece up to {widest} wide"
        )
        figures += [*depths, Figure("narrowest", trim.narrowest), Figure("widest", trim.widest)]
        parts += [support_words(trim), *trim.warnings]
    title = f"{trim.label}: {trim.kind.value}"
    return Step(title, "; ".join(parts) + ".", tuple(figures), trim.label)


def _stop_words(trim: Trim) -> str:
    """Return how a cut ends that stops short of a hollow corner."""
    if trim.kind is TrimKind.TO_CORNER:
        return "stop {short} short of the hollow corner; nothing falls off yet"
    return (
        "let the blade in {short} past the hollow corner and saw outwards to the edge; nothing "
        "falls off yet"
    )


def support_words(trim: Trim) -> str:
    """Return what holds the falling piece."""
    if trim.heaviest > HEAVY:
        return "two supports on each side of the cut, a second person at the falling piece"
    if trim.sawn >= LONG_STRIP and trim.widest <= NARROW_STRIP:
        return "boards under the cut carry the strip along its whole length, so that it cannot bind"
    return "the falling piece is held, not left to hang"


def skipped_step(side: SkippedTrim, number: int) -> Step:
    """Return a side that is not sawn, and why; they are numbered from 1."""
    title = f"No saw cut: {side.kind.value}"
    return Step(title, f"{side.reason}.", (Figure("strip", side.strip),), f"skipped {number}")


def _line_words(
    bench: Bench, start: EdgePoint, end: EdgePoint, prefix: str = ""
) -> tuple[str, list[Figure]]:
    """Return how to find a line: one offset where it runs square to the datum, else both ends."""
    datum = bench.datum
    if abs(start.along - end.along) <= SAME_FIGURE:
        return f"{{{prefix}x}} along {datum.name} from {datum.first.name}, square across", [
            Figure(f"{prefix}x", start.along)
        ]
    if abs(start.square - end.square) <= SAME_FIGURE:
        return f"{{{prefix}y}} square from {datum.name}", [Figure(f"{prefix}y", start.square)]
    words, figures = [], []
    for name, point in (("start", start), ("end", end)):
        key = f"{prefix}{name}"
        if point.corner:
            words.append(f"the edge point {{{key}}} from {point.corner}")
            figures.append(Figure(key, point.distance))
        else:
            words.append(f"the edge point {{{key}_along}} along, {{{key}_square}} square")
            figures.append(Figure(f"{key}_along", point.along))
            figures.append(Figure(f"{key}_square", point.square))
    return "from " + " to ".join(words), figures
