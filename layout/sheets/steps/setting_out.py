"""Drawings of what is done before the first cut: faults, face, datum, marks, tapes, checks."""

from __future__ import annotations

from ...drawing import layers
from ...drawing.scene import Scene
from ...geometry.path import Path
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import SAME_POINT
from ...job.plan import Plan
from ...marking.mark import Kind
from ...marking.marks import MarkSet
from ...marking.panel_check import RightTriangle, SquareCheck
from .ground import Wood
from .stage import Stage

_OUTER = (Kind.END, Kind.SIDE, Kind.CORNER)

_TANGENTS = (Kind.TANGENT, Kind.CORE_TANGENT)
"""Marks that show where lines change: they are drawn with those."""


def faults_scene(plan: Plan) -> Scene:
    """Return the panel with what is wrong with it, show face up."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage(defects=True)
    wood.letters(stage)
    for defect in plan.job.panel.defects:
        stage.label(layers.LETTERING, defect.place.bounds.middle, defect.name)
    for cut_out in plan.job.panel.cut_outs:
        stage.label(layers.LETTERING, cut_out.bounds.middle, "cut-out")
    return stage.scene("The panel and what is wrong with it")


def face_scene(plan: Plan) -> Scene:
    """Return the panel as it lies while it is marked and sawn."""
    wood = Wood.found(plan)
    stage = wood.stage()
    wood.base(stage)
    wood.letters(stage)
    return stage.scene("How the panel lies")


def datum_scene(plan: Plan) -> Scene:
    """Return the line that everything is measured from."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage(defects=True)
    wood.base(stage)
    wood.letters(stage)
    if plan.datum.held is not plan.datum.first:
        wood.along(stage, plan.datum.held.distance)
    wood.along(stage, plan.datum.length)
    return stage.scene("The datum")


def square_scene(plan: Plan) -> Scene:
    """Return how the panel is tried for being square: by its corners, or by 3, 4 and 5."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage()
    wood.base(stage)
    check = plan.check
    lines: list[tuple[Point, Point, str]] = []
    for square in check.squares:
        lines += _square_lines(wood, square)
    if not check.squares and check.triangle is not None:
        lines += _triangle_lines(wood, check.triangle)
    for start, end, _ in lines:
        stage.line(layers.CHECKS, start, end)
    for start, end, words in lines:
        stage.figure_along(layers.CHECKS, start, end, words)
    wood.letters(stage)
    return stage.scene("Is it square?")


def _square_lines(wood: Wood, square: SquareCheck) -> list[tuple[Point, Point, str]]:
    corners = {corner.name: corner.point for corner in wood.datum.corners}
    at, along, across = (corners[n] for n in (square.corner, square.along_to, square.across_to))
    figures = (square.across, square.found.square_diagonal)
    ends = ((at, across), (along, across))
    return [(a, b, wood.tape.figure(f)) for (a, b), f in zip(ends, figures, strict=True)]


def _triangle_lines(wood: Wood, three: RightTriangle) -> list[tuple[Point, Point, str]]:
    datum, tape = wood.datum, wood.tape
    start = datum.held.point
    sides = (Point(three.along, 0.0), Point(0.0, three.across))
    along, up = (start + side.turned(datum.frame.turn) for side in sides)
    return [
        (start, along, tape.figure(three.along)),
        (start, up, tape.figure(three.across)),
        (along, up, tape.figure(three.diagonal)),
    ]


def marked_again_scene(plan: Plan) -> Scene:
    """Return a slab that is short and flat, with the line struck on it once more."""
    wood = Wood.marked(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    wood.base(stage)
    wood.letters(stage)
    wood.along(stage, wood.datum.length)
    return stage.scene("The line struck again")


def marks_scene(plan: Plan, wood: Wood, marks: MarkSet) -> Scene:
    """Return the marks, and the offsets of those that all is drawn from on rulers at the datum."""
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    _centrelines(marks, stage)
    wood.base(stage)
    drawn = [mark for mark in marks.marks if mark.kind not in _TANGENTS]
    stage.cross(layers.MARKS, *(mark.point for mark in drawn))
    wood.letters(stage)
    ruled = [m for m in marks.marks if m.kind.is_pinned]
    if len(ruled) == 1:
        ruled += [m for m in marks.marks if m.kind in _OUTER]
    wood.running(stage, [mark.point for mark in ruled])
    for mark in drawn:
        stage.label(layers.MARKS, mark.point, mark.label, bold=True)
    return stage.scene("The marks, measured from the datum")


def ties_scene(plan: Plan, wood: Wood, marks: MarkSet) -> Scene:
    """Return the two tapes of each mark that a point, nail or corner of the top stands on."""
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    tied = marks.tied
    places = wood.datum.places
    tapes = [
        (places[tie.name], mark.point, wood.tape.figure(tie.distance))
        for mark in tied
        if mark.ties is not None
        for tie in (mark.ties.first, mark.ties.second)
    ]
    stage.cross(layers.MARKS, *(mark.point for mark in tied))
    for start, end, _ in tapes:
        stage.line(layers.TAPES, start, end)
    wood.letters(stage)
    for start, end, words in tapes:
        stage.figure_along(layers.TAPES, start, end, words)
    for mark in tied:
        stage.label(layers.MARKS, mark.point, mark.label, bold=True)
    return stage.scene("The same marks by two tapes")


def clear_scene(plan: Plan, wood: Wood) -> Scene:
    """Return how much wood is left between the line that is cut and everything else."""
    stage = wood.stage(defects=True)
    stage.path(layers.CORE if plan.top.lipping else layers.FINISH, plan.cuts.core, clear=True)
    held = [c for c in plan.check.clearances if not c.inside and c.distance > SAME_POINT]
    for clear in held:
        stage.line(layers.CHECKS, clear.on_line, clear.to)
    wood.letters(stage)
    for clear in held:
        words = wood.tape.figure(clear.distance)
        stage.figure_along(layers.CHECKS, clear.on_line, clear.to, words)
    return stage.scene("What is left beside the line")


def checks_scene(plan: Plan, wood: Wood, marks: MarkSet) -> Scene:
    """Return the distances on the top that show a slip; those of the panel have their own step."""
    places = {mark.label: mark.point for mark in marks.marks}
    held = [c for c in marks.checks if c.start in places and c.end in places]
    overall = [c for c in held if {c.start, c.end} in ({"E1", "E2"}, {"S1", "S2"})]
    stage = Stage.around(plan.cuts.finish.bounds, mirrored=wood.mirrored)
    stage.path(layers.GHOST, plan.cuts.finish)
    within = [c for c in held if c not in overall]
    for check in within:
        stage.line(layers.CHECKS, places[check.start], places[check.end])
    for check in overall:
        start, end = places[check.start], places[check.end]
        out = plan.top.outline.width if check.start.startswith("E") else plan.top.outline.length
        way = wood.backwards if check.start.startswith("S") else wood.outwards
        words = f"{check.start} to {check.end} {wood.tape.figure(check.distance)}"
        stage.dimension(start, end, words, way, least=out / 2 / stage.frame.scale)
    middle = plan.top.placement.centre
    for name in dict.fromkeys(n for c in within for n in (c.start, c.end)):
        way = places[name] - middle
        stage.label(layers.MARKS, places[name], name, towards=way, bold=True)
    for check in within:
        words = wood.tape.figure(check.distance)
        stage.figure_along(layers.CHECKS, places[check.start], places[check.end], words)
    return stage.scene("Distances that show a slip")


def lines_scene(plan: Plan, wood: Wood, marks: MarkSet) -> Scene:
    """Return finish, core and rough line, and the waste outside them."""
    cuts = plan.cuts
    stage = wood.stage()
    kept = Region.of(cuts.rough, "outside")
    stage.region(layers.WASTE, wood.region.minus(kept))
    stage.path(layers.ROUGH, *cuts.drawn(cuts.rough), clear=True)
    if cuts.core != cuts.finish:
        stage.path(layers.CORE, cuts.core)
    stage.path(layers.FINISH, *cuts.drawn(cuts.finish))
    wood.base(stage)
    stage.path(layers.KEPT, *(kept.edge for kept in cuts.kept))
    tangents = [mark for mark in marks.marks if mark.kind in _TANGENTS]
    stage.cross(layers.MARKS, *(mark.point for mark in tangents), arm=1.0)
    wood.letters(stage)
    for mark in tangents:
        stage.label(layers.MARKS, mark.point, mark.label, bold=True)
    return stage.scene("Finish line, rough-cut line and waste")


def _centrelines(marks: MarkSet, stage: Stage) -> None:
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [mark.point for mark in marks.of(kind)]
        if len(ends) == 2:
            stage.path(layers.CENTRELINE, Path.through(ends))
