"""The cuts as steps at the bench."""

from __future__ import annotations

from ..marking.step import Figure, Step
from .curves import core_path
from .cut import CurveCut, EdgePoint, Facet, SkippedTrim, Trim
from .straight import Bench, StraightCuts

SAME = 0.05
"""Two ends of a line that differ by no more than this have one figure, mm."""


def steps_of(
    bench: Bench,
    cuts: StraightCuts,
    facets: tuple[Facet, ...],
    curves: tuple[CurveCut, ...],
) -> tuple[Step, ...]:
    """Return the steps from the first saw cut to the line."""
    steps = [_trim_step(bench, trim) for trim in cuts.trims]
    steps += [_skipped_step(side) for side in cuts.skipped]
    if facets:
        steps.append(_facets_step(facets))
    steps += [_curve_step(cut) for cut in curves]
    if bench.lipping:
        steps.append(_lipping_step(bench))
    return tuple(steps)


def _trim_step(bench: Bench, trim: Trim) -> Step:
    words, figures = _line_words(bench, trim.start, trim.end)
    parts = [f"saw line {words}"]
    if trim.guide is not None:
        where, more = _line_words(bench, trim.guide.start, trim.guide.end, prefix="guide_")
        parts.append(f"guide {where}, {trim.guide.blade_side} of the blade, on the kept side")
        figures += more
    else:
        parts.append(
            "clamp the guide by the saw's own offset: make a test cut and measure from the kept "
            "side of the kerf to the edge of the base"
        )
    depths = [Figure(f"depth_{i}", depth) for i, depth in enumerate(trim.depths, start=1)]
    parts.append("depth " + " then ".join(f"{{{depth.name}}}" for depth in depths))
    parts.append(
        "left: a piece {widest} wide"
        if trim.widest - trim.narrowest <= SAME
        else "left: a piece up to {widest} wide"
    )
    figures += [
        *depths,
        Figure("narrowest", trim.narrowest),
        Figure("widest", trim.widest),
    ]
    parts += trim.warnings
    return Step(f"{trim.label}: {trim.kind.value}", "; ".join(parts) + ".", tuple(figures))


def _line_words(
    bench: Bench, start: EdgePoint, end: EdgePoint, prefix: str = ""
) -> tuple[str, list[Figure]]:
    """Return how to find a line: one offset where it runs square to the datum, else both ends."""
    datum = bench.datum
    if abs(start.along - end.along) <= SAME:
        return f"{{{prefix}x}} along {datum.name} from {datum.first.name}, square across", [
            Figure(f"{prefix}x", start.along)
        ]
    if abs(start.square - end.square) <= SAME:
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


def _skipped_step(side: SkippedTrim) -> Step:
    return Step(f"No saw cut: {side.kind.value}", f"{side.reason}.", (Figure("strip", side.strip),))


def _facets_step(facets: tuple[Facet, ...]) -> Step:
    legs = [facet.leg for facet in facets if facet.leg is not None]
    figures: list[Figure] = []
    if len(legs) == len(facets) and max(legs) - min(legs) <= SAME:
        words = "{leg} along both edges from each corner of the blank, where the saw lines cross"
        figures.append(Figure("leg", legs[0]))
    else:
        words = "from mark to mark on the edges of the blank, {clear} outside the curve at 45°"
        figures.append(Figure("clear", facets[0].clear))
    if facets[0].guide_offset is not None:
        words += "; guide {guide} inside the line"
        figures.append(Figure("guide", facets[0].guide_offset))
    words += "; hold the falling piece, do not let it hang."
    return Step("Facets", words, tuple(figures))


def _curve_step(cut: CurveCut) -> Step:
    figures: list[Figure] = []
    words = []
    for i, swung in enumerate(cut.radii, start=1):
        name = f"radius_{i}"
        figures.append(Figure(name, swung.radius))
        near = ", pin to the near edge of the bit" if cut.tool == "router" else ""
        words.append(f"{{{name}}} about {', '.join(swung.centres)}{near}")
    if cut.tool == "jigsaw":
        words.insert(0, "{allowance} outside the line")
        figures.append(Figure("allowance", cut.allowance))
    else:
        words.append("to the line")
        words.append(f"{cut.passes} passes {{depth}} deep")
        figures.append(Figure("depth", cut.depth))
    words += cut.notes
    return Step(cut.tool.capitalize(), "; ".join(words) + ".", tuple(figures))


def _lipping_step(bench: Bench) -> Step:
    around = core_path(bench.outline, bench.placement, bench.lipping).length
    figures = (
        Figure("around", around),
        Figure("length", around * 1.1),
        Figure("thick", bench.lipping),
        Figure("wide", bench.panel.thickness + 4),
    )
    what = (
        "{around} round; cut {length}, {wide} wide and {thick} thick; joints on the straights; "
        "cramp 24 h, flush, break the arris."
    )
    return Step("Lipping", what, figures)
