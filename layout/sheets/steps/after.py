"""Drawings of what comes after cutting: legs on the underside, and what is left over."""

from __future__ import annotations

from ...drawing import layers
from ...drawing.scene import Scene
from ...geometry.placement import Points
from ...geometry.point import Point
from ...job.plan import Plan
from ...legs.plan import LegsPlan
from ..areas import ring_of
from .ground import Wood
from .stage import Stage


def legs_scene(plan: Plan, legs: LegsPlan) -> Scene:
    """Return the legs on the underside of the finished top, measured from its centrelines."""
    place, tape = plan.top.placement, plan.job.tape
    stage = Stage.around(plan.cuts.finish.bounds, mirrored=True)
    stage.path(layers.FINISH, plan.cuts.finish, clear=True)
    half_length, half_width = plan.top.outline.length / 2, plan.top.outline.width / 2
    ends = {"E": Point(half_length, 0), "S": Point(0, half_width)}
    for end in ends.values():
        stage.line(layers.CENTRELINE, place(-end), place(end))
    if plan.profile.bevel_line is not None:
        stage.path(layers.GONE, plan.profile.bevel_line)
    for leg in legs.legs:
        stage.area(layers.LEGS, leg.print)
        stage.cross(layers.LEGS, leg.on_panel, arm=1.0)
    for leg in legs.legs:
        stage.label(layers.LEGS, leg.on_panel, f"leg {leg.number}", bold=True)
    for leg in legs.legs:
        words = f"{tape.figure(leg.middle.x)} | {tape.figure(leg.middle.y)}"
        stage.label(layers.DIMENSIONS, leg.on_panel, words)
    _ends(plan, stage)
    return stage.scene("The legs, seen from below")


def _ends(plan: Plan, stage: Stage) -> None:
    places = {mark.label: mark.point for mark in plan.marks.marks}
    for name in ("O", "E1", "E2", "S1", "S2"):
        if name in places:
            out = places[name] - plan.top.placement.centre
            stage.label(layers.MARKS, places[name], name, towards=out, bold=True)


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
            corners: Points = offcut.clean.corners
            stage.path(layers.OFFCUTS, ring_of(corners), clear=True)
    wood.letters(stage)
    for offcut in plan.offcuts.pieces:
        at = offcut.piece.centroid if offcut.clean is None else offcut.clean.centre
        words = f"{offcut.number}: keep" if offcut.kept else f"{offcut.number}"
        stage.label(layers.OFFCUTS, at, words)
    return stage.scene("What is left over")
