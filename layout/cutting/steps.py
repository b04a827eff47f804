"""The cuts as steps at the bench."""

from __future__ import annotations

from ..marking.step import Figure, Step
from .cut import CurveCut, EdgePoint, Facet, SkippedTrim, Trim, TrimKind
from .edging import Edging
from .straight import Bench, StraightCuts

SAME = 0.05
"""Two ends of a line that differ by no more than this have one figure, mm."""


HEAVY = 10.0
"""A falling piece heavier than this wants a second pair of hands, kg (common practice)."""


def steps_of(
    bench: Bench,
    cuts: StraightCuts,
    facets: tuple[Facet, ...],
    curves: tuple[CurveCut, ...],
    edging: Edging | None,
) -> tuple[Step, ...]:
    """Return the steps from the first saw cut to the lipped edge."""
    steps: list[Step] = []
    for trim in cuts.trims:
        if trim.kind is not TrimKind.ROUGH and steps and "rough" in steps[-1].title:
            steps.append(_flatten_step(bench))
        steps.append(_trim_step(bench, trim))
    steps += [_skipped_step(side) for side in cuts.skipped]
    if facets:
        steps.append(_facets_step(facets))
    steps += [_curve_step(cut) for cut in curves]
    if edging is not None and edging.thickness:
        steps.append(_lipping_step(edging))
    return tuple(steps)


def _flatten_step(bench: Bench) -> Step:
    what = (
        f"flatten both faces now that it is short; strike {bench.datum.name} and the marks again "
        "from the ends, repeat the checks; let it lie a week and look for twist, 2 mm at most, "
        "before the next cut; set the saw to the new thickness and {below}."
    )
    return Step.of("Flatten, rest, mark again", what, below=bench.tools.below)


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
    parts.append(_support(bench, trim))
    parts += trim.warnings
    return Step(f"{trim.label}: {trim.kind.value}", "; ".join(parts) + ".", tuple(figures))


def _support(bench: Bench, trim: Trim) -> str:
    """Return what holds the falling piece."""
    heaviest = max((piece.area for piece in trim.fallen), default=0.0)
    mass = heaviest * bench.panel.thickness * bench.panel.substance.density * 1e-9
    if mass > HEAVY:
        return "two supports on each side of the cut, a second person at the falling piece"
    return "the falling piece is held, not left to hang"


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


def _lipping_step(edging: Edging) -> Step:
    """Return how the lipping goes on; too thick to bend cold it is laminated."""
    if edging.tightest is None:
        bend = "mitred at the corners"
    elif edging.layers == 1:
        bend = "bends cold"
    else:
        bend = f"laminated of {edging.layers} strips {{layer}} thick, which bend cold"
    what = (
        "{around} round; cut {length}, {wide} wide and {thick} thick; "
        f"{bend}; joints on the straights; cramp 24 h, flush, break the arris."
    )
    return Step.of(
        "Lipping",
        what,
        around=edging.around,
        length=edging.cut_length,
        thick=edging.thickness,
        wide=edging.strip_width,
        layer=edging.layer,
    )
