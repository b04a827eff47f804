"""`plan.svg`: everything on the panel, to scale, with a title and a legend."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..drawing import layers
from ..drawing.kit.labels import LabelSetter
from ..drawing.kit.picture import ROW, TITLES, DrawingFrame, Stage, legend
from ..drawing.scene import Group, Item, Scene, Text, fitted_height, line, paragraph
from ..geometry import Bounds, Path, Point, Region, at_least
from ..marking.mark import Kind
from ..panel.shown import drawn_defects, layer_of
from ..plan.plan import Plan
from ..template.paper import A3
from ..units import Tape
from ..words.saw_lines import numbers_of
from ..words.say import found_words, size_words, unit_words
from .pictures.ground import Wood
from .pictures.legs import draw_legs

_CORNER_LETTERS = 5.0  # height of the corner letters, paper mm
_PAST = 4.0  # how far saw lines, guides and centrelines are drawn past their ends, paper mm
# Whole numbers to draw smaller by: those of ISO 5455 and, so that a panel fills its sheet, a few
# between them; nobody measures on this drawing
SCALES = (1, 2, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100, 500)
BORDER = 10.0  # white round the drawing, paper mm: what home printers leave
AROUND_PANEL = 22.0  # kept round the panel for labels and measures, paper mm
# Of the title block at most, paper mm; the legend has the rest of the foot
TITLE_WIDTH, _TITLE_HEIGHT = 150.0, 46.0
_COLUMN = 58.0  # least width of a column of the legend, paper mm: its longest title
_MOST_LAYERS = 20  # layers that a plan draws, at most


@dataclass(frozen=True, slots=True)
class _Paper:
    """The paper that the job names, on its side; A3 for a roll. All in mm."""

    name: str
    sheet: Bounds
    room: Bounds
    title: Bounds
    legend: Bounds
    """For the drawing, its title and its legend."""
    columns: int

    @classmethod
    def of(cls, plan: Plan) -> _Paper:
        paper = A3 if plan.job.template.paper.roll else plan.job.template.paper
        sheet = Bounds(0.0, 0.0, paper.length, paper.width)
        inside, wide = sheet.grown(-BORDER), min(TITLE_WIDTH, sheet.width * 0.48)
        columns = int((inside.width - wide - 8) // _COLUMN)
        foot = max(_TITLE_HEIGHT, 6.0 + _MOST_LAYERS / columns * ROW)
        room = replace(inside, bottom=BORDER + 4.0 + foot)
        below = replace(inside, top=BORDER + foot)
        title = replace(below, right=BORDER + wide)
        samples = replace(below, left=BORDER + wide + 8)
        return cls(paper.name, sheet, room, title, samples, columns)


def plan_scene(plan: Plan, *, mirrored: bool = False) -> Scene:
    """Return the drawing of the panel with all that is on it; `mirrored` seen from below."""
    frame, paper = plan_frame(plan, mirrored=mirrored), _Paper.of(plan)
    stage = Stage(frame, LabelSetter(paper.room), letters=TITLES)
    draw_panel(plan, stage)
    draw_top(plan, stage)
    name_top(plan, stage)
    name_panel(plan, stage)
    used = list(dict.fromkeys(g.layer for g in stage.groups if g.layer is not layers.LETTERING))
    level, rest = paper.room.bottom, paper.legend
    rule = line(Point(paper.room.left, level), Point(paper.room.right, level))
    heading = Text(Point(rest.left, rest.top - 3.5), "Legend", 3.5, bold=True)
    samples = replace(rest, top=rest.top - 6)
    lettering = Group(layers.LETTERING, (rule, heading, *title_items(plan, frame, paper)))
    foot = (lettering, *legend(used, samples, columns=paper.columns))
    title = f"{plan.job.name}: {size_words(plan)}{', MIRRORED' if mirrored else ''}"
    return Scene(title, frame.sheet, (*stage.groups, *foot))


def plan_frame(plan: Plan, *, mirrored: bool = False) -> DrawingFrame:
    """Return how the panel lies on the paper, as large as it may be."""
    extent, paper = plan.job.panel.boundary.bounds, _Paper.of(plan)
    if mirrored:
        extent = Bounds(-extent.right, extent.bottom, -extent.left, extent.top)
    room = paper.room.grown(-min(AROUND_PANEL, paper.room.height / 6))
    least = max(extent.width / room.width, extent.height / room.height)
    scale = float(next((s for s in SCALES if at_least(s, least)), SCALES[-1]))
    return DrawingFrame(paper.sheet, scale, room.middle - extent.middle * (1 / scale), mirrored)


def draw_panel(plan: Plan, stage: Stage) -> None:
    """Draw wood, what falls off it, defects, edges: exact where nothing runs over an edge."""
    panel = plan.job.panel
    face = panel.region()
    stage.region(layers.WOOD, face)
    stage.region(layers.WASTE, face.minus(Region.of(plan.cuts.rough, "outside")))
    for defect, paths in drawn_defects(panel.boundary, panel.defects):
        stage.area(layer_of(defect), *paths)
    whole = Region.of(panel.boundary)
    if all(whole.shrunk(0.1).holds(Region.of(cut_out)) for cut_out in panel.cut_outs):
        stage.path(layers.PANEL, panel.boundary, clear=True)
        stage.path(layers.CUT_OUT, *panel.cut_outs, clear=True)
    else:
        rings = (ring for piece in face.pieces for ring in (piece.exterior, *piece.holes))
        stage.path(layers.PANEL, *map(Path.through_ring, rings), clear=True)
    stage.line(layers.DATUM, plan.datum.start, plan.datum.end)


def name_panel(plan: Plan, stage: Stage) -> None:
    """Write the letters of corners and struck points, the datum, and names of what is wrong."""
    panel, datum = plan.job.panel, plan.datum
    Wood.found(plan).letters(stage, layers.DATUM, _CORNER_LETTERS)
    third = datum.start + (datum.end - datum.start) * 0.3
    stage.label(layers.DATUM, third, f"datum {datum.name}, {plan.job.tape.measure(datum.length)}")
    for defect in panel.defects:
        mend = "" if defect.mend is None else f" ({defect.mend.value})"
        stage.label(layers.LETTERING, defect.place.bounds.middle, defect.name + mend)
    for cut_out in panel.cut_outs:
        stage.label(layers.LETTERING, cut_out.bounds.middle, "cut-out")


def draw_top(plan: Plan, stage: Stage) -> None:
    """Draw offcuts, legs, cuts, lines and marks."""
    cuts = plan.cuts
    clean = [o.clean.corners for o in plan.offcuts.pieces if o.kept and o.clean is not None]
    stage.path(layers.OFFCUTS, *map(Path.through_ring, clean), clear=True)
    if plan.table is not None:
        stage.path(layers.BATTENS, *(batten.print for batten in plan.table.battens), clear=True)
    draw_legs(plan, stage, arm=1.5)
    for trim in cuts.trims:
        stage.line(layers.SAW_LINE, trim.start.point, trim.end.point, past=_PAST)
        if trim.guide is not None:
            stage.line(layers.GUIDE, trim.guide.start.point, trim.guide.end.point, past=_PAST)
    for cut in cuts.corner_cuts:
        stage.line(layers.SAW_LINE, cut.start.point, cut.end.point)
    stage.path(layers.ROUGH, *cuts.drawn(cuts.rough), clear=True)
    if cuts.core != cuts.finish:
        stage.path(layers.CORE, cuts.core, clear=True)
    stage.path(layers.FINISH, *cuts.drawn(cuts.finish), clear=True)
    stage.path(layers.KEPT, *(kept.edge for kept in cuts.kept), clear=True)
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [mark.point for mark in plan.marks.of(kind)]
        if len(ends) == 2:
            stage.line(layers.CENTRELINE, *ends, past=_PAST)
    stage.cross(layers.MARKS, *(mark.point for mark in plan.marks.marks), arm=2.0)


def name_top(plan: Plan, stage: Stage) -> None:
    """Write the names of marks, saw lines by their numbers, kept edges, legs and offcuts."""
    cuts, numbers = plan.cuts, numbers_of(plan)
    for mark in plan.marks.marks:
        stage.label(layers.MARKS, mark.point, mark.label, bold=True)
    for trim in cuts.trims:
        start, end = trim.start.point, trim.end.point
        past = end + (end - start).unit() * (_PAST * stage.frame.scale)
        stage.label(layers.SAW_LINE, past, f"line {numbers[trim.label]}", bold=True)
    for cut in cuts.corner_cuts:
        middle = cut.start.point.midpoint(cut.end.point)
        stage.label(layers.SAW_LINE, middle, f"line {numbers[cut.label]}", height=1.8)
    for kept in cuts.kept:
        stage.label(layers.KEPT, kept.edge.at(0.75 * kept.edge.length), "kept edge")
    for leg in () if plan.legs is None else plan.legs.legs:
        stage.label(layers.LEGS, leg.on_panel, f"leg {leg.number}")
    for offcut in plan.offcuts.pieces:
        if offcut.kept and offcut.clean is not None:
            stage.label(layers.OFFCUTS, offcut.clean.centre, f"offcut {offcut.number}")


def title_items(plan: Plan, frame: DrawingFrame, paper: _Paper) -> Iterator[Item]:
    """Yield the title block."""
    job, room = plan.job, paper.title
    left, y = room.left, room.top - 5
    height = fitted_height(job.name, 5.0, room.width, bold=True)
    yield Text(Point(left, y), job.name, height, bold=True)
    y -= 6.5
    face = "MIRRORED: seen from the underside, show face DOWN" if frame.mirrored else "Show face UP"
    yield Text(Point(left, y), face, 3.5, bold=True)
    thick = f"{job.tape.measure(job.panel.thickness)} thick"
    for words in (
        f"New top: {size_words(plan)} ({found_words(plan)})",
        f"Old panel: {job.panel.name}, {thick}, {job.panel.build.kind.value}.",
        f"Scale 1 : {frame.scale:g} on {paper.name}. All measures in {unit_words(job.tape)}. "
        "Work from the figures, not from the drawing.",
    ):
        for text in paragraph(Point(left, y - 2.0), words, room.width, 2.5):
            yield text
            y = text.at.y
        y -= 1.0
    yield from _scale_bar(job.tape, frame.scale, Point(left, y - 8))


def _scale_bar(tape: Tape, scale: float, at: Point) -> Iterator[Item]:
    """Yield a bar of a round length on the panel, divided in five."""
    step = (25.4 * 4 if tape.imperial else 100.0) * max(1.0, scale / 10)
    ticks = [at + Point(i * step / scale, 0.0) for i in range(6)]
    yield line(ticks[0], ticks[-1])
    for tick in ticks:
        yield line(tick, tick + Point(0.0, 2.0))
    for tick, words in ((ticks[0], "0"), (ticks[-1], tape.measure(5 * step))):
        yield Text(tick + Point(0.0, -3.2), words, 1.8, "middle")
