"""The new top on the panel: its lines, marks, cuts, legs and what is kept of the rest."""

from __future__ import annotations

from ..drawing import layers
from ..drawing.kit.picture import Stage
from ..geometry.path import Path
from ..marking.mark import Kind
from ..plan.plan import Plan
from ..words.saw_lines import numbers_of

_PAST = 4.0
"""How far saw lines, guides and centrelines are drawn past their ends, paper mm."""


def draw_top(plan: Plan, stage: Stage) -> None:
    """Draw offcuts, legs, cuts, lines and marks."""
    cuts = plan.cuts
    clean = [o.clean.corners for o in plan.offcuts.pieces if o.kept and o.clean is not None]
    stage.path(layers.OFFCUTS, *map(Path.through_ring, clean), clear=True)
    _draw_legs(plan, stage)
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


def _draw_legs(plan: Plan, stage: Stage) -> None:
    """Draw battens, legs with their plates and screw holes, and feet that stand elsewhere."""
    legs = () if plan.legs is None else plan.legs.legs
    if plan.table is not None:
        prints = (batten.print for batten in plan.table.battens)
        stage.path(layers.BATTENS, *prints, clear=True)
    for leg in legs:
        stage.area(layers.LEGS, leg.print, holes=() if leg.hollow is None else (leg.hollow,))
        stage.cross(layers.LEGS, leg.on_panel, arm=1.5)
        if leg.plate is not None:
            stage.path(layers.PLATES, leg.plate, clear=True)
        if leg.floor_print is not None:
            stage.path(layers.FEET, leg.floor_print, clear=True)
    centres = {leg.on_panel for leg in legs}
    holes = () if plan.table is None else plan.table.holes
    drilled = (hole.on_panel for hole in holes if hole.on_panel not in centres)
    stage.cross(layers.SCREWS, *drilled, arm=0.7)


def name_top(plan: Plan, stage: Stage) -> None:
    """Write the names of marks, saw lines by their numbers, kept edges, legs and offcuts."""
    cuts, numbers = plan.cuts, numbers_of(plan)
    for mark in plan.marks.marks:
        stage.label(layers.MARKS, mark.point, mark.label, bold=True)
    for trim in cuts.trims:
        start, end = trim.start.point, trim.end.point
        past = end + (end - start).unit() * (_PAST * stage.frame.scale)
        words = f"line {numbers[trim.label]}"
        stage.label(layers.SAW_LINE, past, words, bold=True)
    for cut in cuts.corner_cuts:
        middle = cut.start.point.midpoint(cut.end.point)
        stage.label(layers.SAW_LINE, middle, f"line {numbers[cut.label]}", height=1.8)
    for kept in cuts.kept:
        at = kept.edge.at(0.75 * kept.edge.length)
        stage.label(layers.KEPT, at, "kept edge")
    for leg in () if plan.legs is None else plan.legs.legs:
        stage.label(layers.LEGS, leg.on_panel, f"leg {leg.number}")
    for offcut in plan.offcuts.pieces:
        if offcut.kept and offcut.clean is not None:
            words = f"offcut {offcut.number}"
            stage.label(layers.OFFCUTS, offcut.clean.centre, words)
