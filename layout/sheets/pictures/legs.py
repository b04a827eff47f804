"""The legs on the underside: where they stand, what holds them, what lies across the grain."""

from __future__ import annotations

import math

from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Placement, Point, Region
from ...geometry.tolerance import SAME_WAY
from ...legs.plan import LegsPlan
from ...panel import Kind
from ...panel.frame import frame_of
from ...plan.plan import Plan
from ...words.datum import directions_of
from ...words.legs import in_quarters
from .ground import draw_centrelines

QUARTERS = 51.0  # width of the small drawing of the first page, paper mm


def quarters_scene(plan: Plan) -> Scene | None:
    """Return the legs seen from below with O and the centrelines; numbered if quarters differ."""
    if plan.legs is None:
        return None
    # as the top lies, its length across the page: what is at the left stays there
    level = Placement(turn=math.pi if math.cos(plan.top.placement.turn) < -SAME_WAY else 0.0)
    top = plan.top.outline.path().placed(level).mirrored()
    stage = Stage.around(top.bounds, width=QUARTERS, tallest=22.0)
    stage.path(layers.BENCH_FINISH, top, clear=True)
    draw_centrelines(stage, plan.top.outline, layer=layers.BENCH_CENTRE)
    numbered = not in_quarters(plan, plan.legs)
    for leg in plan.legs.legs:
        own = leg.print.placed(plan.top.placement.inverse).placed(level).mirrored()
        is_small = own.bounds.width < 2 * stage.frame.scale
        stage.area(layers.INK if is_small else layers.BENCH_SAW, own)
        place = level(leg.middle)
        middle = Point(-place.x, place.y)
        stage.cross(layers.BENCH_SAW, middle, arm=1.2)
        if numbered:
            stage.label(layers.LETTERING, middle, f"{leg.number}", bold=True, towards=middle)
    stage.label(layers.LETTERING, Point(0, 0), "O", bold=True)
    return stage.scene("The legs, seen from below")


def draw_legs(plan: Plan, stage: Stage, *, arm: float) -> None:
    """Draw legs with their plates and screw holes, and feet that stand elsewhere."""
    legs = () if plan.legs is None else plan.legs.legs
    for leg in legs:
        stage.area(layers.LEGS, leg.print, holes=() if leg.hollow is None else (leg.hollow,))
        stage.cross(layers.LEGS, leg.on_panel, arm=arm)
        if leg.plate is not None:
            stage.path(layers.PLATES, leg.plate, clear=True)
        if leg.floor_print is not None:
            stage.path(layers.FEET, leg.floor_print, clear=True)
    middles = {leg.on_panel for leg in legs}
    holes = () if plan.table is None else plan.table.holes
    drilled = (hole.on_panel for hole in holes if hole.on_panel not in middles)
    stage.cross(layers.SCREWS, *drilled, arm=arm / 2)


def legs_scene(plan: Plan, legs: LegsPlan) -> Scene:
    """Return the legs on the underside of the finished top, with screws and plates."""
    extent = plan.cuts.finish.bounds
    for leg in legs.legs:
        if leg.floor_print is not None:
            extent = extent.joined(leg.floor_print.bounds)
    stage = Stage.around(extent, mirrored=True, heading="seen from below")
    _ground(plan, stage)
    draw_legs(plan, stage, arm=1.0)
    for leg in legs.legs:
        inwards = plan.top.placement.centre - leg.on_panel
        stage.label(layers.LEGS, leg.on_panel, f"{leg.number}", bold=True, towards=inwards)
    return stage.scene("The legs, seen from below")


def battens_scene(plan: Plan) -> Scene | None:
    """Return the battens with their screws, measured from the centrelines; None without any."""
    if plan.table is None or plan.legs is None or not plan.table.battens:
        return None
    place = plan.top.placement
    stage = Stage.around(plan.cuts.finish.bounds, mirrored=True, heading="seen from below")
    _ground(plan, stage)
    for leg in plan.legs.legs:
        stage.path(layers.GHOST, leg.plate or leg.print, clear=True)
    for batten in plan.table.battens:
        stage.path(layers.SECTION, batten.print, clear=True)
        stage.cross(layers.SCREWS, *(place(screw) for screw in batten.screws))
    for number, batten in enumerate(plan.table.battens, start=1):
        end = place(batten.screws[2])
        stage.label(layers.SECTION, end, f"{number}", towards=end - place.centre)
    return stage.scene("Battens across the grain, seen from below")


def _ground(plan: Plan, stage: Stage) -> None:
    """Draw the finished top, the thin panels in it, its centrelines with their names, a bevel."""
    place, frame = plan.top.placement, frame_of(plan.job.panel)
    if frame is not None and plan.job.panel.build.kind is Kind.FRAMED:
        stage.region(layers.DEFECT_BEARING, Region.of(plan.cuts.finish).minus(frame), edged=True)
    stage.path(layers.FINISH, plan.cuts.finish, clear=True)
    draw_centrelines(stage, plan.top.outline, place)
    if plan.profile.bevel_line is not None:
        stage.path(layers.GONE, plan.profile.bevel_line, clear=True)
    places = {mark.label: mark.point for mark in plan.marks.marks}
    ways = directions_of(plan.top, plan.datum, plan.marks.marks)
    for name in ("O", *sorted({*ways.along, *ways.across})):
        if name in places:
            at = places[name]
            stage.label(layers.MARKS, at, name, towards=at - place.centre, bold=True)
