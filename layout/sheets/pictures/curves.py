"""Drawings of the curve: the router and its way round, a lost rim."""

from __future__ import annotations

import math

import numpy as np

from ...cutting.builds import RimLoss
from ...cutting.cut import HandCut, RouterCut, SwungRadius
from ...cutting.feed import QuarterFeed
from ...drawing import layers
from ...drawing.kit.picture import Stage
from ...drawing.scene import Scene
from ...geometry import Path, Point, Points, Region
from ...plan.plan import Plan

_AWAY = 3.5
"""How far outside the line the router's way is drawn, paper mm."""

_STEPS = 24
"""Points of an arrow round a quarter."""


def line_scene(plan: Plan, cut: RouterCut | HandCut) -> Scene:
    """Return the line that is routed or planed, and which way round."""
    feeds = plan.cuts.feeds
    turned = len({feed.show_face_up for feed in feeds}) > 1
    mirrored = plan.cuts.face.mirrored and not turned
    heading = "show face up; down: turned over" if turned else ""
    extent = cut.line.bounds.grown(2 * _AWAY * plan.top.outline.length / 90)
    stage = Stage.around(extent, mirrored=mirrored, heading=heading)
    stage.region(layers.WOOD, Region.of(cut.line))
    line = layers.CORE if plan.top.lipping else layers.FINISH
    stage.path(line, *cut.line.without(cut.kept), clear=True)
    kept_lines(plan, stage)
    if isinstance(cut, RouterCut):
        _routed(plan, stage, cut)
    return stage.scene("To the line, and which way round")


def _routed(plan: Plan, stage: Stage, cut: RouterCut) -> None:
    """Draw the router's template, its way round, and what it swings."""
    template = cut.template
    if template is not None and abs(template.offset) > 0:
        stage.path(layers.METHOD, template.line)
    ring = _ring(cut, _AWAY * stage.frame.scale)
    for feed in cut.feeds:
        _fed(plan, stage, ring, feed)
    if not cut.feeds and cut.kept:
        _along_cuts(stage, cut)
    elif not cut.feeds:
        _round(stage, ring)
    _radii(plan, stage, cut.radii)
    if template is not None and abs(template.offset) > 0:
        at = template.line.segments[0].start
        stage.label(layers.METHOD, at, "template", towards=plan.top.placement.centre - at)


def kept_lines(plan: Plan, stage: Stage) -> None:
    """Draw the edges of the panel that stay."""
    stage.path(layers.KEPT, *(kept.edge for kept in plan.cuts.kept), clear=True)


def rim_scene(plan: Plan, rim: RimLoss) -> Scene:
    """Return where the line leaves the solid rim."""
    stage = Stage.around(plan.job.panel.boundary.bounds, mirrored=plan.cuts.face.mirrored)
    stage.region(layers.WOOD, plan.job.panel.region())
    stage.path(layers.PANEL, plan.job.panel.boundary)
    stage.path(layers.GHOST, plan.cuts.core)
    stage.path(layers.DATUM, *rim.stretches, clear=True)
    at = rim.stretches[0].segments[len(rim.stretches[0].segments) // 2].start
    outwards = at - plan.top.placement.centre
    stage.label(layers.DATUM, at, "new strip here", towards=outwards)
    return stage.scene("Where the solid rim is lost")


def _radii(plan: Plan, stage: Stage, radii: tuple[SwungRadius, ...]) -> None:
    """Draw each radius once about each of its centres, away from the middle of the top."""
    places = {mark.label: mark.point for mark in plan.marks.marks}
    middle = plan.top.placement.centre
    for swung in radii:
        for name in swung.centres:
            centre = places[name]
            out = centre - middle
            way = Point.polar(1.0, out.angle + 0.35 if out.norm > 0 else math.pi / 3)
            stage.cross(layers.MARKS, centre)
            stage.line(layers.METHOD, centre, centre + way * swung.radius)
    for swung in radii:
        centre = places[swung.centres[0]]
        out = centre - middle
        way = Point.polar(1.0, out.angle + 0.35 if out.norm > 0 else math.pi / 3)
        words = plan.job.tape.figure(swung.radius)
        stage.figure_along(layers.METHOD, centre, centre + way * swung.radius, words)
        for name in swung.centres:
            stage.label(layers.MARKS, places[name], name, bold=True)


def _ring(cut: RouterCut, off: float) -> Points:
    """Return the line `off` mm outside the cut's, (n, 2), anticlockwise."""
    return Region.of(cut.line, tolerance=0.1).grown(off).exterior


def _fed(plan: Plan, stage: Stage, ring: Points, feed: QuarterFeed) -> None:
    """Draw the way round one quarter, from the side to the end grain."""
    places = {mark.label: mark.point for mark in plan.marks.marks}
    line = Path.through_ring(ring)
    start, end = (_along(ring, places[label]) for label in (feed.start, feed.end))
    ahead = (end - start) % line.length if feed.show_face_up else (start - end) % line.length
    shares = np.linspace(0.15, 0.85, _STEPS) * ahead
    signed = shares if feed.show_face_up else -shares
    points = [line.at((start + float(share)) % line.length) for share in signed]
    stage.arrow(layers.FEED, (stage.frame.at(p) for p in points))
    middle = points[len(points) // 2]
    turned = len({other.show_face_up for other in plan.cuts.feeds}) > 1
    words = ("up" if feed.show_face_up else "down") if turned else (
        "uphill" if feed.uphill else "downhill"
    )  # fmt: skip
    stage.label(layers.FEED, middle, words, towards=middle - plan.top.placement.centre)


def _round(stage: Stage, ring: Points) -> None:
    """Draw the way all round: anticlockwise as it is seen, against the bit's turn.

    It begins at the right, and goes by length: where a ring begins and how close its points lie
    says nothing.
    """
    sign = -1 if stage.frame.mirrored else 1
    line = Path.through_ring(ring)
    start = _along(ring, line.bounds.middle + Point(line.bounds.width, 0.0))
    for i in range(4):
        shares = (i + np.linspace(0.15, 0.85, _STEPS)) / 4 * line.length
        points = [line.at((start + float(share)) % line.length) for share in shares][::sign]
        stage.arrow(layers.FEED, (stage.frame.at(p) for p in points))


def _along_cuts(stage: Stage, cut: RouterCut) -> None:
    """Draw the way along what is cut between kept edges, outside it."""
    sign = -1 if stage.frame.mirrored else 1
    off = _AWAY * stage.frame.scale
    for path in cut.line.without(cut.kept):
        for segment in path.segments:
            if segment.length < 4 * off:
                continue
            points = []
            for share in np.linspace(0.15, 0.85, _STEPS):
                along = segment.at(float(share) + 0.001) - segment.at(float(share) - 0.001)
                points.append(segment.at(float(share)) - along.unit().left * off)
            stage.arrow(layers.FEED, (stage.frame.at(p) for p in points[::sign]))


def _along(ring: Points, point: Point) -> float:
    """Return how far along a ring, (n, 2), its place nearest to a point lies, mm."""
    ways = np.roll(ring, -1, axis=0) - ring
    lengths = np.hypot(*ways.T)
    to = np.array([*point]) - ring
    shares = np.clip((to * ways).sum(axis=1) / lengths**2, 0.0, 1.0)
    k = int(np.hypot(*(to - shares[:, None] * ways).T).argmin())
    return float(lengths[:k].sum() + shares[k] * lengths[k])
