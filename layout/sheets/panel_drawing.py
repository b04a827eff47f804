"""The old panel as it lies: its face, cut-outs and defects, its corners and the datum."""

from __future__ import annotations

from ..drawing import layers
from ..drawing.kit.picture import Stage
from ..geometry.path import Path
from ..geometry.polygon import Region
from ..panel.shown import layer_of
from ..plan.plan import Plan

_CORNER_LETTERS = 5.0
"""Height of the corner letters, paper mm."""


def draw_panel(plan: Plan, stage: Stage) -> None:
    """Draw wood, what falls off it, defects, edges: exact where nothing runs over an edge."""
    panel = plan.job.panel
    face = panel.region()
    stage.region(layers.WOOD, face)
    stage.region(layers.WASTE, face.minus(Region.of(plan.cuts.rough, "outside")))
    for defect in panel.defects:
        stage.area(layer_of(defect), defect.place)
    whole = Region.of(panel.boundary)
    if all(whole.shrunk(0.1).holds(Region.of(cut_out)) for cut_out in panel.cut_outs):
        stage.path(layers.PANEL, panel.boundary, clear=True)
        stage.path(layers.CUT_OUT, *panel.cut_outs, clear=True)
    else:
        rings = [ring for piece in face.pieces for ring in (piece.exterior, *piece.holes)]
        stage.path(layers.PANEL, *map(Path.through_ring, rings), clear=True)
    stage.line(layers.DATUM, plan.datum.start, plan.datum.end)


def name_panel(plan: Plan, stage: Stage) -> None:
    """Write the letters of corners and struck points, the datum, and names of what is wrong."""
    panel, datum = plan.job.panel, plan.datum
    middle = panel.boundary.bounds.middle
    for name, point in sorted(datum.places.items()):
        way, height = point - middle, _CORNER_LETTERS
        stage.label(layers.DATUM, point, name, towards=way, height=height, bold=True)
    third = datum.start + (datum.end - datum.start) * 0.3
    told = f"datum {datum.name}, {plan.job.tape.measure(datum.length)}"
    stage.label(layers.DATUM, third, told)
    for defect in panel.defects:
        mend = "" if defect.mend is None else f" ({defect.mend.value})"
        at = defect.place.bounds.middle
        stage.label(layers.LETTERING, at, defect.name + mend)
    for cut_out in panel.cut_outs:
        stage.label(layers.LETTERING, cut_out.bounds.middle, "cut-out")
