"""Drawings of the ways to draw a curve: string, rod, bar, arcs, ordinates."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Bounds, Placement, Point
from ...geometry.tolerance import SAME_PLACE
from ...marking.arc_ovals import EightCentreOval, FourCentreOval
from ...marking.instruments import StringLoop, Swing, TrammelRod
from ...marking.method import Method, Pivot
from ...marking.oval_methods import OvalOrdinates
from ...plan.plan import Plan
from .ground import Wood

_TILT = math.radians(40)
"""How a rod or a string is drawn: away from both axes, so that it is seen."""


def method_scene(plan: Plan, methods: Sequence[Method]) -> Scene:
    """Return the top with what draws it: points, nails, string, rod or radii.

    Parameters
    ----------
    methods : sequence of Method
        Of one name: several where the corners of a top have several radii.
    """
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
    half_length, half_width = plan.top.outline.length / 2, plan.top.outline.width / 2
    for way in (Point(half_length, 0), Point(0, half_width)):
        stage.line(layers.CENTRELINE, place(-way), place(way))
    for method in methods:
        _shown(plan, stage, method)
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


def _shown(plan: Plan, stage: Stage, method: Method) -> None:
    tape, place = plan.job.tape, plan.top.placement
    figures = method.figures
    lines: list[tuple[Point, Point, str]] = []
    if isinstance(figures, Swing):
        lines = [
            (centre, centre + _outwards(centre) * figures.radius, tape.figure(figures.radius))
            for centre in figures.centres
        ]
    elif isinstance(figures, StringLoop):
        lines = _string(figures, tape.figure(figures.nail_spacing))
    elif isinstance(figures, TrammelRod):
        lines = _rod(figures, tape.figure)
    elif isinstance(figures, FourCentreOval | EightCentreOval):
        lines = _arcs(figures, tape.figure)
    elif isinstance(figures, OvalOrdinates):
        _ordinates(stage, place, figures)
    for start, end, _ in lines:
        stage.line(layers.METHOD, place(start), place(end))
    for start, end, words in lines:
        if words:
            stage.figure_along(layers.METHOD, place(start), place(end), words)


def _outwards(centre: Point) -> Point:
    turn = centre.angle if centre.norm > 0 else _TILT
    return Point.polar(1.0, turn + (0.3 if centre.norm > 0 else 0.0))


def _string(loop: StringLoop, spacing: str) -> list[tuple[Point, Point, str]]:
    one, other = Point(-loop.nail_spacing / 2, 0), Point(loop.nail_spacing / 2, 0)
    pencil = Point.polar(loop.reach(math.pi - _TILT), math.pi - _TILT)
    return [(one, other, spacing), (one, pencil, ""), (pencil, other, "")]


def _rod(rod: TrammelRod, figure: Callable[[float], str]) -> list[tuple[Point, Point, str]]:
    way = Point.polar(1.0, _TILT)
    pencil = Point(rod.to_short_axis_pin * way.x, rod.to_long_axis_pin * way.y)
    near = pencil + way * -rod.to_long_axis_pin
    far = pencil + way * -rod.to_short_axis_pin
    return [(near, pencil, figure(rod.to_long_axis_pin)), (far, near, figure(rod.pins_apart))]


def _arcs(
    oval: FourCentreOval | EightCentreOval, figure: Callable[[float], str]
) -> list[tuple[Point, Point, str]]:
    end, side = Point(oval.end_centre, 0), Point(0, -oval.side_centre)
    way = (end - side).unit()
    return [
        (end, end + way * oval.end_radius, figure(oval.end_radius)),
        (side, Point(0, oval.side_radius - oval.side_centre), figure(oval.side_radius)),
    ]


def _ordinates(stage: Stage, place: Placement, table: OvalOrdinates) -> None:
    for ordinate in table.ordinates:
        foot, up = Point(ordinate.out, 0.0), Point(ordinate.out, ordinate.up)
        if ordinate.up > 0:
            stage.line(layers.METHOD, place(foot), place(up))
