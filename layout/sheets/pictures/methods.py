"""Drawings of the ways to draw a curve: string, rod, bar, arcs, ordinates."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Bounds, Point
from ...geometry.tolerance import SAME_PLACE
from ...marking.arcs import EightCentreOval, FourCentreOval
from ...marking.instruments import StringLoop, Swing, TrammelRod
from ...marking.method import Method, Pivot
from ...marking.oval_methods import OvalOrdinates
from ...plan.plan import Plan
from .ground import Wood, draw_centrelines

_TILT = math.radians(40)
"""How a rod or a string is drawn: away from both axes, so that it is seen."""


def method_scene(plan: Plan, methods: Sequence[Method]) -> Scene:
    """Return the top with what draws it: points, nails, string, rod, or the radii of several."""
    wood = Wood.marked(plan)
    place = plan.top.placement
    points = [place(pivot.at) for method in methods for pivot in method.pivots]
    extent = plan.cuts.finish.bounds
    reach = extent.grown(0.5 * max(extent.width, extent.height))
    for point in points:
        if reach.holds(point):
            extent = extent.joined(Bounds.around([point]))
    stage = Stage.around(extent, mirrored=wood.mirrored)
    stage.path(layers.FINISH, plan.cuts.finish, clear=True)
    draw_centrelines(stage, plan.top.outline, place)
    for method in methods:
        lines = [(place(a), place(b), length) for a, b, length in _lines(method.figures)]
        for start, end, _ in lines:
            stage.line(layers.METHOD, start, end)
        for start, end, length in lines:
            if length:
                stage.figure_along(layers.METHOD, start, end, plan.job.tape.figure(length))
    stage.cross(layers.MARKS, *points)
    for method in methods:
        for pivot in method.pivots:
            at = place(pivot.at)
            if stage.frame.at(at).y > 0:
                stage.label(layers.MARKS, at, pivot_name(plan, pivot), bold=True)
    return stage.scene(f"Drawn by {methods[0].name}")


def pivot_name(plan: Plan, pivot: Pivot) -> str:
    """Return the label of the mark that a point or nail stands in, or else its own name."""
    at = plan.top.placement(pivot.at)
    near = (mark.label for mark in plan.marks.marks if mark.point.distance_to(at) <= SAME_PLACE)
    return next(near, pivot.name)


def _lines(figures: object) -> Iterator[tuple[Point, Point, float]]:
    """Yield the lines that draw a curve, each with the length, mm, that is told of it, or 0."""
    tilt = Point.polar(1.0, _TILT)
    match figures:
        case Swing():
            for centre in figures.centres:
                way = Point.polar(1.0, centre.angle + 0.3) if centre.norm > 0 else tilt
                yield centre, centre + way * figures.radius, figures.radius
        case StringLoop():
            nail = Point(figures.nail_spacing / 2, 0)
            pencil = Point.polar(figures.reach(math.pi - _TILT), math.pi - _TILT)
            yield -nail, nail, figures.nail_spacing
            yield from ((-nail, pencil, 0.0), (pencil, nail, 0.0))
        case TrammelRod():
            near_pin, far_pin = figures.to_long_axis_pin, figures.to_short_axis_pin
            pencil = Point(far_pin * tilt.x, near_pin * tilt.y)
            yield pencil - tilt * near_pin, pencil, near_pin
            yield pencil - tilt * far_pin, pencil - tilt * near_pin, figures.pins_apart
        case FourCentreOval() | EightCentreOval():
            end, side = Point(figures.end_centre, 0), Point(0, -figures.side_centre)
            yield end, end + (end - side).unit() * figures.end_radius, figures.end_radius
            yield side, side + Point(0, figures.side_radius), figures.side_radius
        case OvalOrdinates():
            for at in figures.ordinates:
                if at.up > 0:
                    yield Point(at.out, 0.0), Point(at.out, at.up), 0.0
