"""Drawings of curve and edge: how it is drawn, the router's way, a lost rim, lipping, profile."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from ...cutting.builds import OVER_THICKNESS, Edging, RimLoss
from ...cutting.cut import HandCut, RouterCut, SwungRadius
from ...cutting.profile import ProfilePlan
from ...cutting.router import QuarterFeed
from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Arc, Bounds, Line, Path, Point, Points, Region, Segment
from ...geometry.tolerance import SAME_PLACE, SAME_POINT
from ...marking.arcs import EightCentreOval, FourCentreOval
from ...marking.instruments import StringLoop, Swing, TrammelRod
from ...marking.method import Method, Pivot
from ...marking.oval_methods import OvalOrdinates
from ...plan.plan import Plan
from ...words.edge import arris_label
from .ground import Wood, draw_centrelines

_WIDE = 1.6  # how much of the wood a section shows, by its thickness
_DOWN, _RIGHT = Point(0.0, -1.0), Point(1.0, 0.0)
_TILT = math.radians(40)  # how a rod or a string is drawn: away from both axes, so that it is seen
_AWAY = 3.5  # how far outside the line the router's way is drawn, paper mm
# Where the points of an arrow lie on the way that it shows
_SHARES = [float(share) for share in np.linspace(0.15, 0.85, 24)]


def line_scene(plan: Plan, cut: RouterCut | HandCut) -> Scene:
    """Return the line that is routed or planed, and which way round."""
    turned = len({feed.show_face_up for feed in plan.cuts.feeds}) > 1
    mirrored = plan.cuts.face.mirrored and not turned
    heading = "show face up; down: turned over" if turned else ""
    extent = cut.line.bounds.grown(2 * _AWAY * plan.top.outline.length / 90)
    stage = Stage.around(extent, mirrored=mirrored, heading=heading)
    stage.region(layers.WOOD, Region.of(cut.line))
    line = layers.CORE if plan.top.lipping else layers.FINISH
    stage.path(line, *cut.line.without(cut.kept), clear=True)
    stage.path(layers.KEPT, *(kept.edge for kept in plan.cuts.kept), clear=True)
    if isinstance(cut, RouterCut):
        _routed(plan, stage, cut)
    return stage.scene("To the line, and which way round")


def _routed(plan: Plan, stage: Stage, cut: RouterCut) -> None:
    """Draw the router's template, its way round, and what it swings."""
    template = cut.template if cut.template is not None and cut.template.offset else None
    if template is not None:
        stage.path(layers.METHOD, template.line)
    ring = Region.of(cut.line, tolerance=0.1).grown(_AWAY * stage.frame.scale).exterior
    for feed in cut.feeds:
        _fed(plan, stage, ring, feed)
    if not cut.feeds and cut.kept:  # along what is cut between kept edges, outside it
        sign, off = -1 if stage.frame.mirrored else 1, _AWAY * stage.frame.scale
        for segment in (s for path in cut.line.without(cut.kept) for s in path.segments):
            if segment.length >= 4 * off:
                outside = [segment.at(s) - segment.pace(s).unit().left * off for s in _SHARES]
                stage.arrow(layers.FEED, map(stage.frame.at, outside[::sign]))
    elif not cut.feeds:
        _round(stage, ring)
    _radii(plan, stage, cut.radii)
    if template is not None:
        at = template.line.segments[0].start
        stage.label(layers.METHOD, at, "template", towards=plan.top.placement.centre - at)


def rim_scene(plan: Plan, rim: RimLoss) -> Scene:
    """Return where the line leaves the solid rim."""
    stage = Stage.around(plan.job.panel.boundary.bounds, mirrored=plan.cuts.face.mirrored)
    stage.region(layers.WOOD, plan.job.panel.region())
    stage.path(layers.PANEL, plan.job.panel.boundary)
    stage.path(layers.GHOST, plan.cuts.core)
    stage.path(layers.DATUM, *rim.stretches, clear=True)
    segments = rim.stretches[0].segments
    at = segments[len(segments) // 2].start
    stage.label(layers.DATUM, at, "new strip here", towards=at - plan.top.placement.centre)
    return stage.scene("Where the solid rim is lost")


def _radii(plan: Plan, stage: Stage, radii: tuple[SwungRadius, ...]) -> None:
    """Draw each radius once about each of its centres, away from the middle of the top."""
    places = {mark.label: mark.point for mark in plan.marks.marks}
    lines = []
    for swung in radii:
        for name in swung.centres:
            centre = places[name]
            out = centre - plan.top.placement.centre
            way = Point.polar(swung.radius, out.angle + 0.35 if out.norm > 0 else math.pi / 3)
            stage.cross(layers.MARKS, centre)
            stage.line(layers.METHOD, centre, centre + way)
            figure = plan.job.tape.figure(swung.radius) if name == swung.centres[0] else ""
            lines.append((name, centre, centre + way, figure))
    for name, centre, end, figure in lines:
        if figure:
            stage.figure_along(layers.METHOD, centre, end, figure)
        stage.label(layers.MARKS, centre, name, bold=True)


def _arrow(stage: Stage, line: Path, start: float, ahead: float) -> Point:
    """Draw an arrow along a ring from a place on it, `ahead` mm or back; return its middle."""
    points = [line.at(float(start + share * ahead) % line.length) for share in _SHARES]
    stage.arrow(layers.FEED, map(stage.frame.at, points))
    return points[len(points) // 2]


def _fed(plan: Plan, stage: Stage, ring: Points, feed: QuarterFeed) -> None:
    """Draw the way round one quarter, from the side to the end grain."""
    places = {mark.label: mark.point for mark in plan.marks.marks}
    line = Path.through_ring(ring)
    start, end = (_along(ring, places[label]) for label in (feed.start, feed.end))
    ahead = (end - start) % line.length if feed.show_face_up else -((start - end) % line.length)
    middle = _arrow(stage, line, start, ahead)
    words = "uphill" if feed.uphill else "downhill"
    if len({other.show_face_up for other in plan.cuts.feeds}) > 1:
        words = "up" if feed.show_face_up else "down"
    stage.label(layers.FEED, middle, words, towards=middle - plan.top.placement.centre)


def _round(stage: Stage, ring: Points) -> None:
    """Draw the way all round from the right, anticlockwise as seen, against the bit's turn."""
    line = Path.through_ring(ring)
    quarter, back = line.length / 4, stage.frame.mirrored
    start = _along(ring, line.bounds.middle + Point(line.bounds.width, 0.0))
    for i in range(4):
        _arrow(stage, line, start + (i + back) * quarter, -quarter if back else quarter)


def _along(ring: Points, point: Point) -> float:
    """Return how far along a ring, (n, 2), its place nearest to a point lies, mm."""
    ways = np.roll(ring, -1, axis=0) - ring
    lengths = np.hypot(*ways.T)
    to = np.array([*point]) - ring
    shares = np.clip((to * ways).sum(axis=1) / lengths**2, 0.0, 1.0)
    k = int(np.hypot(*(to - shares[:, None] * ways).T).argmin())
    return float(lengths[:k].sum() + shares[k] * lengths[k])


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
    stage.area(layers.SECTION, _edge_of(thickness, wide, profile))
    corner = Point(0, 0)
    if inside:
        stage.dimension(Point(-inside, 0), corner, tape.figure(inside), _DOWN)
        stage.dimension(corner, Point(0, up), tape.figure(up), _RIGHT)
        stage.dimension(Point(0, up), Point(0, thickness), tape.figure(profile.edge_left), _RIGHT)
    back, words = profile.arris.size / 2, arris_label(profile.arris, tape)
    if radius:
        back, words = radius * (1 - math.sqrt(0.5)), f"round-over {tape.figure(radius)}"
    stage.label(layers.DIMENSIONS, Point(-back, thickness - back), words, towards=Point(-0.2, 1))
    return stage.scene("The profile of the edge")


def _edge_of(thickness: float, wide: float, profile: ProfilePlan) -> Path:
    """Return the section of the edge, anticlockwise from the lower left."""
    inside, up = profile.bevel_in, profile.bevel_up
    radius = profile.round_over or profile.arris.size
    side, upper = Point(0, thickness - radius), Point(-radius, thickness)
    lower = [Point(-wide, 0), *([Point(-inside, 0)] if inside else []), Point(0, up), side]
    eased: Segment = Line(side, upper)
    if profile.round_over:
        eased = Arc(Point(-radius, thickness - radius), radius, 0.0, math.pi / 2)
    inner = Path.through((upper, Point(-wide, thickness), lower[0]))
    sharp = [Line(a, b) for a, b in pairwise(lower) if a.distance_to(b) > SAME_POINT]
    return Path((*sharp, eased, *inner.segments))


def method_scene(plan: Plan, methods: Sequence[Method]) -> Scene:
    """Return the top with what draws it: points, nails, string, rod, or the radii of several."""
    wood, place, figure = Wood.marked(plan), plan.top.placement, plan.job.tape.figure
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
        lines = _lines(method.figures)
        told = [(place(a), place(b), figure(length) if length else "") for a, b, length in lines]
        stage.measured(layers.METHOD, told)
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
