"""What a job says in words: what was understood of it, and what is worth a second look."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..fit.found import Fit
from ..fit.wish import Goal, Span
from ..geometry import Point, Region
from ..geometry.tolerance import CHORD, SAME_PLACE
from ..panel import Defect, Panel
from ..panel.datum import choose_datum
from ..panel.edges import FEWEST, LETTERS, Found, lettered
from ..panel.named_edges import named_edges
from ..plan.doubts import Doubt, Matter
from ..plan.job import Job
from ..units import Tape
from .panel import made_of, spoils_words
from .say import listed, outline_words

GOALS = {
    Goal.AREA: "as large as it fits",
    Goal.LENGTH: "as long as it fits",
    Goal.WIDTH: "as wide as it fits",
}

NEAREST = 2
"""Edges of the panel from which it is told how far a defect lies."""


def understood(job: Job, look: Fit | None) -> Iterator[tuple[str, str]]:
    """Yield what was understood, and what a first `look` found: a heading and a line, each."""
    tape, panel = job.tape, job.panel
    yield "Panel", _panel(job, tape, thick=not job.missing)
    if not panel.defects:
        yield "Defects", "none"
    edges = [(held.name, Region.line(held.path.points(CHORD))) for held in named_edges(panel)]
    edges = edges or [("the edge", Region.line(panel.boundary.points(CHORD)))]
    face = Region.of(panel.boundary, "outside")
    for number, defect in enumerate(panel.defects, 1):
        words = f"{_defect(edges, defect, tape)}{_beyond(face, defect)}"
        yield f"Defect {number}", words
    yield "Top", _top(job)
    if look is not None:
        yield "", f"{outline_words(look.outline, tape)} at a first look; `fit` proves how large"
    yield "Legs", _legs(job)


def _panel(job: Job, tape: Tape, *, thick: bool) -> str:
    panel = job.panel
    box = panel.boundary.bounds
    sizes = [tape.figure(box.width), tape.figure(box.height)]
    sizes += [tape.figure(panel.thickness)] if thick else []
    name = "" if panel.name == "panel" else f"{panel.name}: "
    words = f"{name}{' × '.join(sizes)} {tape.unit}, {tape.area(panel.area)}"
    if panel.cut_outs:
        count = len(panel.cut_outs)
        words += f" without its {f'{count} cut-outs' if count > 1 else 'cut-out'}"
    if thick:
        words += f", about {tape.mass(panel.mass)}"
    if panel.flattened is not None:
        words += f", {tape.measure(panel.flattened)} thick once it is flattened"
    datum = choose_datum(job.panel, job.datum, frozenset(job.damaged))
    ends = [
        end.name if end.found is Found.CORNER else f"{end.name} {_at(end.point, tape)}"
        for end in (datum.first, datum.last)
    ]
    line = "a line struck from" if datum.struck else "the edge"
    measured = f"measured from {line} {' to '.join(ends)}"
    return f"{words}; {made_of(panel)}{_corners(panel, tape)}; {measured}"


def _corners(panel: Panel, tape: Tape) -> str:
    """Return which letter each corner has, where that is not plain from length and width."""
    edges, corners = lettered(panel)
    if len(edges) < FEWEST:
        return "; without corners: counted from the lower left of the box round it"
    if len(edges) > len(LETTERS):
        return f"; its {len(edges)} corners are too many to have letters"
    box = panel.boundary.bounds.corners
    if all(min(corner.point.distance_to(own) for own in box) <= SAME_PLACE for corner in corners):
        return ""
    return f"; corners {', '.join(f'{held.name} {_at(held.point, tape)}' for held in corners)}"


def _at(point: Point, tape: Tape) -> str:
    return f"({tape.figure(point.x)}, {tape.figure(point.y)})"


def _defect(edges: list[tuple[str, Region]], defect: Defect, tape: Tape) -> str:
    box = defect.place.bounds
    spoils = f"{'' if defect.spoils else 'spoils '}{spoils_words(defect)}"
    words = (
        f"{defect.name}: {tape.figure(box.width)} × {tape.measure(box.height)} about "
        f"{_at(box.middle, tape)}; {spoils}"
    )
    if defect.mend is not None:
        words += f"; mended by {defect.mend.value}"
    if defect.clear:
        words += f"; {tape.measure(defect.clear)} kept clear"
    if defect.drawn_out:
        words += f", its run of {tape.measure(defect.drawn_out)} past each end included"
    away_from = sorted((round(line.distance_to(defect.extent), 3), name) for name, line in edges)
    near = listed(f"{tape.measure(away)} from {name}" for away, name in away_from[:NEAREST])
    return f"{words}; {near}"


_BEYOND = 0.1
"""Share of a defect off the panel from which it is told: a hinge lets in from the very edge."""


def _beyond(face: Region, defect: Defect) -> str:
    """Return how much of a defect lies off the panel, as where a corner was meant for a middle."""
    off = 1.0 - defect.extent.meet(face).area / defect.extent.area
    if off < _BEYOND:
        return ""
    return f"; {100 * off:.0f} % of it lies off the panel (`at` is a middle)"


def _top(job: Job) -> str:
    wish, tape = job.wish, job.tape
    words = " or ".join(wish.shapes)
    if wish.wanted is not None:
        length, width = (tape.measure(size) for size in wish.wanted)
        words += f", as near as may be to {length} long and {width} wide"
    else:
        words += f", {GOALS[wish.goal]}"
    words += _within(wish.limits.length, "long", tape) + _within(wish.limits.width, "wide", tape)
    if wish.limits.most_turn < math.pi / 2:
        turn = math.degrees(wish.limits.most_turn)
        words += f", turned at most {turn:g}° from the grain" if turn else ", along the grain"
    if job.margin:
        words += f"; {tape.measure(job.margin)} inside the panel's edges"
    return words


def _within(span: Span, what: str, tape: Tape) -> str:
    if span.least == span.greatest:
        return f", {tape.measure(span.least)} {what}"
    least = f"at least {tape.measure(span.least)}" if span.least else ""
    most = f"at most {tape.measure(span.greatest)}" if math.isfinite(span.greatest) else ""
    limits = listed(filter(None, (least, most)))
    return f", {limits} {what}" if limits else ""


def _legs(job: Job) -> str:
    if job.legs is None:
        return "none: a top alone"
    legs, tape = job.legs, job.tape
    foot = legs.foot
    sizes = dict.fromkeys((foot.length, foot.width))
    size = " × ".join(tape.figure(side) for side in sizes)
    compared = listed(map(str, job.table.counts), "or")
    count = f"the best of {compared}" if compared else str(len(legs.at) or legs.count)
    return (
        f"{count}, {foot.shape.value}, {size} {tape.unit}; "
        f"{tape.measure(legs.height)} from the floor to the underside of the top"
    )


def doubt_words(doubt: Doubt, job: Job) -> str:
    """Return what is told of a figure that is worth a second look."""
    tape = job.tape
    found = "" if doubt.found is None else f"{tape.exact(doubt.found, 1)} {tape.unit}"
    limit = "" if doubt.limit is None else tape.measure(doubt.limit)
    told = {
        Matter.THICK: f"{found} is thicker than {limit}, which few panels of its length are",
        Matter.THIN: f"{found} is thinner than {limit}, which few panels are",
        Matter.LARGE: f"the panel is {found} long, and few are longer than {limit}",
        Matter.SMALL: f"the panel is {found} wide, and few are narrower than {limit}",
        Matter.HOLE: "metal is what is still in the wood, and no blade may meet it: for the hole "
        'that it left write kind = "screw hole"',
        Matter.NARROW: f"the top comes out {found} wide, narrower than a foot of {limit}",
        Matter.NOTHING: doubt.reason,
    }[doubt.matter]
    if doubt.units:
        units = " or ".join(unit.value for unit in doubt.units)
        told += f"; is it written in {units}?"
    return told
