"""Sections through the wood: flattening, lipping, and the profile of the edge."""

from __future__ import annotations

import math
from itertools import pairwise

from ...cutting.edging import OVER_THICKNESS, Edging
from ...cutting.profile import ProfilePlan
from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Arc, Bounds, Line, Path, Point, Segment
from ...plan.plan import Plan
from ...words.edge import arris_label

_WIDE = 1.6
"""How much of the wood a section shows, by its thickness."""

_DOWN, _RIGHT = Point(0.0, -1.0), Point(1.0, 0.0)


def flatten_scene(plan: Plan) -> Scene:
    """Return what flattening takes off both faces."""
    found, left, tape = plan.job.panel.thickness, plan.job.panel.made_thickness, plan.job.tape
    wide = 4 * found
    stage = Stage.around(Bounds(0, 0, wide, found), heading="Across the slab")
    off = (found - left) / 2
    stage.path(layers.GONE, Path.round_box(Bounds(0, 0, wide, found)))
    stage.area(layers.SECTION, Path.round_box(Bounds(0, off, wide, found - off)))
    stage.dimension(Point(wide, off), Point(wide, found - off), tape.figure(left), _RIGHT)
    stage.dimension(Point(0, 0), Point(0, found), tape.figure(found), -_RIGHT)
    return stage.scene("What flattening takes off")


def lipping_scene(plan: Plan, edging: Edging) -> Scene:
    """Return the lipping on the core, strip by strip, before it is flushed."""
    thickness, lip, tape = plan.job.panel.made_thickness, edging.thickness, plan.job.tape
    wide, over = _WIDE * thickness, OVER_THICKNESS / 2
    extent = Bounds(-wide, -over, 0, thickness + over)
    stage = Stage.around(extent, heading="Section through the edge")
    stage.area(layers.SECTION, Path.round_box(Bounds(-wide, 0, -lip, thickness)))
    for i in range(edging.layers):
        left = -lip + i * edging.layer
        strip = Bounds(left, -over, left + edging.layer, thickness + over)
        stage.area(layers.METHOD, Path.round_box(strip))
    below = Point(0, -over)
    stage.dimension(Point(-lip, -over), below, tape.figure(lip), _DOWN)
    stage.dimension(below, Point(0, thickness + over), tape.figure(edging.strip_width), _RIGHT)
    return stage.scene("The lipping on the core")


def profile_scene(plan: Plan, profile: ProfilePlan) -> Scene:
    """Return the profile of the edge with its measures."""
    thickness, tape = plan.job.panel.made_thickness, plan.job.tape
    inside, up, radius = profile.bevel_in, profile.bevel_up, profile.round_over
    wide = max(_WIDE * thickness, 1.15 * profile.fixings_inside)
    stage = Stage.around(Bounds(-wide, 0, 0, thickness), heading="Section, show face UP")
    stage.path(layers.GONE, Path.round_box(Bounds(-wide, 0, 0, thickness)))
    stage.area(layers.SECTION, _edge(thickness, wide, profile))
    corner = Point(0, 0)
    if inside:
        stage.dimension(Point(-inside, 0), corner, tape.figure(inside), _DOWN)
        stage.dimension(corner, Point(0, up), tape.figure(up), _RIGHT)
        left = tape.figure(profile.edge_left)
        stage.dimension(Point(0, up), Point(0, thickness), left, _RIGHT)
    if radius:
        at = Point(-radius, thickness - radius) + Point.polar(radius, math.pi / 4)
        words = f"round-over {tape.figure(radius)}"
    else:
        half = profile.arris.size / 2
        at = Point(-half, thickness - half)
        words = arris_label(profile.arris, tape)
    stage.label(layers.DIMENSIONS, at, words, towards=Point(-0.2, 1))
    return stage.scene("The profile of the edge")


def _edge(thickness: float, wide: float, profile: ProfilePlan) -> Path:
    """Return the section of the edge, anticlockwise from the lower left."""
    inside, up, radius = (
        profile.bevel_in,
        profile.bevel_up,
        profile.round_over or profile.arris.size,
    )
    points = [Point(-wide, 0), Point(-inside, 0), Point(0, up), Point(0, thickness - radius)]
    if not inside:
        points.pop(1)
    segments: list[Segment] = [Line(a, b) for a, b in pairwise(points) if a.distance_to(b) > 1e-9]
    if profile.round_over:
        segments.append(Arc(Point(-radius, thickness - radius), radius, 0.0, math.pi / 2))
    else:
        segments.append(Line(segments[-1].end, Point(-radius, thickness)))
    upper = Point(-wide, thickness)
    segments += [Line(segments[-1].end, upper), Line(upper, points[0])]
    return Path(tuple(segments))
