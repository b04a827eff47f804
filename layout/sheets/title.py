"""The title block: what the piece is, how large, at which scale, which face is up."""

from __future__ import annotations

from collections.abc import Iterator

from ..drawing.kit.frame import DrawingFrame
from ..drawing.lettering import fitted_height, paragraph
from ..drawing.scene import Item, Stroke, Text
from ..geometry import Bounds, Path, Point
from ..outlines import PIECE_AS_FOUND
from ..plan.plan import Plan
from ..template.paper import A3
from ..units import Tape
from ..words.outline import exact_words, outline_words
from ..words.say import unit_words


def size_words(plan: Plan) -> str:
    """Return shape and size of the top that is made."""
    words = outline_words(plan.top.outline, plan.job.tape)
    keeping = plan.job.wish.keeping
    if keeping is not None and plan.top.outline.name == PIECE_AS_FOUND:
        return f"{words}, ends {keeping.ends.value}"
    return words


def found_words(plan: Plan) -> str:
    """Return what was found before sizes were rounded down, as one clause."""
    clearance, tape = plan.fit.clearance, plan.job.tape
    if clearance is None and not plan.top.outline.free_sizes:
        return f"as found, {exact_words(plan.fit.outline, tape)}"
    if clearance is None:
        return f"the largest found is {exact_words(plan.fit.outline, tape)}"
    clear = f"{tape.exact(clearance, 1)} {tape.unit}"
    return (
        f"it keeps its own size and lies where it is clearest of edges and of what shows, {clear}"
    )


def title_items(plan: Plan, frame: DrawingFrame, room: Bounds) -> Iterator[Item]:
    """Yield the title block within `room`, paper mm."""
    left, y = room.left, room.top - 5
    height = fitted_height(plan.job.name, 5.0, room.width, bold=True)
    yield Text(Point(left, y), plan.job.name, height, bold=True)
    y -= 2.0
    face = "MIRRORED: seen from the underside, show face DOWN" if frame.mirrored else "Show face UP"
    yield Text(Point(left, y - 4.5), face, 3.5, bold=True)
    y -= 4.5
    paper = A3.name if plan.job.template.paper.roll else plan.job.template.paper.name
    lines = (
        f"New top: {size_words(plan)} ({_fits(plan)})",
        f"Old panel: {plan.job.panel.name}, {plan.job.tape.measure(plan.job.panel.thickness)} "
        f"thick, {plan.job.panel.build.kind.value}.",
        f"Scale 1 : {frame.scale:g} on {paper}. All measures in {unit_words(plan.job.tape)}. "
        "Work from the figures, not from the drawing.",
    )
    for words in lines:
        for text in paragraph(Point(left, y - 2.0), words, room.width, 2.5):
            yield text
            y = text.at.y
        y -= 1.0
    yield from _scale_bar(plan.job.tape, frame.scale, Point(left, y - 8))


def _fits(plan: Plan) -> str:
    if plan.fit.clearance is not None or not plan.top.outline.free_sizes:
        return found_words(plan)
    return f"the largest that fits: {exact_words(plan.fit.outline, plan.job.tape)}"


def _scale_bar(tape: Tape, scale: float, at: Point) -> Iterator[Item]:
    """Yield a bar of a round length on the panel, divided in five."""
    step = (25.4 * 4 if tape.imperial else 100.0) * max(1.0, scale / 10)
    ticks = [at + Point(i * step / scale, 0.0) for i in range(6)]
    yield Stroke(Path.through((ticks[0], ticks[-1])))
    for i, tick in enumerate(ticks):
        yield Stroke(Path.through((tick, tick + Point(0.0, 2.0))))
        if i in (0, 5):
            words = tape.figure(i * step) if i == 0 else tape.measure(i * step)
            yield Text(tick + Point(0.0, -3.2), words, 1.8, "middle")
