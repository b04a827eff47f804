"""The drawing of what is left over."""

from __future__ import annotations

from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry.path import Path
from ...plan.plan import Plan
from .ground import Wood


def offcuts_scene(plan: Plan) -> Scene:
    """Return what falls off, each piece with its number and its largest clean rectangle."""
    wood = Wood.found(plan, mirrored=False)
    stage = Stage.around(wood.boundary.bounds)
    pieces = [offcut.piece for offcut in plan.offcuts.pieces]
    stage.region(layers.WOOD, *pieces)
    stage.region(layers.SHEET, *pieces, edged=True)
    stage.path(layers.GHOST, plan.cuts.finish)
    for offcut in plan.offcuts.pieces:
        if offcut.kept and offcut.clean is not None:
            stage.path(layers.OFFCUTS, Path.through_ring(offcut.clean.corners), clear=True)
    wood.letters(stage)
    for offcut in plan.offcuts.pieces:
        at = offcut.piece.centroid if offcut.clean is None else offcut.clean.centre
        words = f"{offcut.number}: keep" if offcut.kept else f"{offcut.number}"
        stage.label(layers.OFFCUTS, at, words)
    return stage.scene("What is left over")
