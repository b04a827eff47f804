"""What a job says in words: what was understood of it, and what is worth a second look."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..fit.found import Fit
from ..fit.wish import Goal
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

NEAREST, BEYOND = 2, 0.1
"""From so many edges it is told how far a defect lies, and from this share of it on that it lies
off the panel: a hinge lets in from the very edge."""


def understood(job: Job, look: Fit | None) -> Iterator[tuple[str, str]]:
    """Yield what was understood, and what a first `look` found: a heading and a line, each."""
    tape, panel = job.tape, job.panel
    yield "Panel", _panel(job, thick=not job.missing)
    if not panel.defects:
        yield "Defects", "none"
    edges = [(held.name, Region.line(held.path.points(CHORD))) for held in named_edges(panel)]
    edges = edges or [("the edge", Region.line(panel.boundary.points(CHORD)))]
    face = Region.of(panel.boundary, "outside")
    for number, defect in enumerate(panel.defects, 1):
        yield f"Defect {number}", "; ".join(_defect(edges, face, defect, tape))
    inside = f"; {tape.measure(job.margin)} inside the panel's edges" if job.margin else ""
    yield "Top", ", ".join(_top(job)) + inside
    if look is not None:
        yield "", f"{outline_words(look.outline, tape)} at a first look; `fit` proves how large"
    yield "Legs", _legs(job)


def _panel(job: Job, *, thick: bool) -> str:
    tape, panel = job.tape, job.panel
    box = panel.boundary.bounds
    sizes = [box.width, box.height] + [panel.thickness] * thick
    name = "" if panel.name == "panel" else f"{panel.name}: "
    words = f"{name}{' × '.join(map(tape.figure, sizes))} {tape.unit}, {tape.area(panel.area)}"
    if panel.cut_outs:
        count = len(panel.cut_outs)
        words += f" without its {f'{count} cut-outs' if count > 1 else 'cut-out'}"
    if thick:
        words += f", about {tape.mass(panel.mass)}"
    if panel.flattened is not None:
        words += f", {tape.measure(panel.flattened)} thick once it is flattened"
    datum = choose_datum(panel, job.datum, frozenset(job.damaged))
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


def _defect(
    edges: list[tuple[str, Region]], face: Region, defect: Defect, tape: Tape
) -> Iterator[str]:
    box = defect.place.bounds
    size = f"{tape.figure(box.width)} × {tape.measure(box.height)}"
    yield f"{defect.name}: {size} about {_at(box.middle, tape)}"
    yield f"{'' if defect.spoils else 'spoils '}{spoils_words(defect)}"
    if defect.mend is not None:
        yield f"mended by {defect.mend.value}"
    if defect.clear or defect.drawn_out:
        run = f", its run of {tape.measure(defect.drawn_out)} past each end included"
        yield f"{tape.measure(defect.clear)} kept clear{run if defect.drawn_out else ''}"
    away_from = sorted((round(line.distance_to(defect.extent), 3), name) for name, line in edges)
    yield listed(f"{tape.measure(away)} from {name}" for away, name in away_from[:NEAREST])
    off = 1.0 - defect.extent.meet(face).area / defect.extent.area
    if off >= BEYOND:  # as where a corner was meant for a middle
        yield f"{100 * off:.0f} % of it lies off the panel (`at` is a middle)"


def _top(job: Job) -> Iterator[str]:
    wish, tape = job.wish, job.tape
    yield " or ".join(wish.shapes)
    if wish.wanted is not None:
        length, width = map(tape.measure, wish.wanted)
        yield f"as near as may be to {length} long and {width} wide"
    else:
        yield GOALS[wish.goal]
    for span, what in ((wish.limits.length, "long"), (wish.limits.width, "wide")):
        least = f"at least {tape.measure(span.least)}" if span.least else ""
        most = f"at most {tape.measure(span.greatest)}" if math.isfinite(span.greatest) else ""
        if span.least == span.greatest:
            yield f"{tape.measure(span.least)} {what}"
        elif least or most:
            yield f"{listed(filter(None, (least, most)))} {what}"
    if wish.limits.most_turn < math.pi / 2:
        turn = math.degrees(wish.limits.most_turn)
        yield f"turned at most {turn:g}° from the grain" if turn else "along the grain"


def _legs(job: Job) -> str:
    legs, tape = job.legs, job.tape
    if legs is None:
        return "none: a top alone"
    sizes = dict.fromkeys((legs.foot.length, legs.foot.width))
    compared = listed(map(str, job.table.counts), "or")
    count = f"the best of {compared}" if compared else str(len(legs.at) or legs.count)
    return (
        f"{count}, {legs.foot.shape.value}, {' × '.join(map(tape.figure, sizes))} {tape.unit}; "
        f"{tape.measure(legs.height)} from the floor to the underside of the top"
    )


_DOUBTS = {
    Matter.THICK: "{told} is thicker than {limit:measure}, which few panels of its length are",
    Matter.THIN: "{told} is thinner than {limit:measure}, which few panels are",
    Matter.LARGE: "the panel is {told} long, and few are longer than {limit:measure}",
    Matter.SMALL: "the panel is {told} wide, and few are narrower than {limit:measure}",
    Matter.HOLE: "metal is what is still in the wood, and no blade may meet it: for the hole that "
    'it left write kind = "screw hole"',
    Matter.NARROW: "the top comes out {told} wide, narrower than a foot of {limit:measure}",
    Matter.NOTHING: "{reason}",
}


def doubt_words(doubt: Doubt, job: Job) -> str:
    """Return what is told of a figure that is worth a second look."""
    found = "" if doubt.found is None else job.tape.fine(doubt.found)
    told = job.tape.fill(_DOUBTS[doubt.matter], doubt, told=found)
    units = " or ".join(unit.value for unit in doubt.units)
    return f"{told}; is it written in {units}?" if units else told
