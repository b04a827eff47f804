"""Attacks on the bounds of tops of two sizes: on single boxes of the search and on its end."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from panelwright.layout.fit.convex.boxes import Box, Pose, patch_of
from panelwright.layout.fit.convex.capsule import CapsuleKind, CapsuleLift
from panelwright.layout.fit.convex.d_end import DEndKind, DEndLift
from panelwright.layout.fit.convex.entry import OUTLINES
from panelwright.layout.fit.convex.family import TwoSizes
from panelwright.layout.fit.convex.kind import Kind
from panelwright.layout.fit.convex.lift import Edges, Lift
from panelwright.layout.fit.convex.oval import OvalKind, OvalLift
from panelwright.layout.fit.convex.polygon import ConvexKind
from panelwright.layout.fit.convex.sizing import Sizing
from panelwright.layout.fit.convex.superellipse import SuperellipseKind, SuperellipseLift
from panelwright.layout.fit.convex.wood import Wood
from panelwright.layout.fit.wish import Goal, Limits, Span, Wish
from panelwright.layout.fit.wood.edges import Array, turned
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Circle, Outline, RegularPolygon
from panelwright.layout.panel.sound import SoundWood

HAIR = 1e-9
"""Share of an area that rounding may account for."""


def star(rng: np.random.Generator) -> Region:
    """Return a panel of 5 to 12 corners, often not convex; now and then with a knot cut out."""
    count = int(rng.integers(5, 13))
    reach = rng.uniform(200, 1000, count)
    angle = np.arange(count) * math.tau / count + rng.uniform(0, 1)
    panel = Region.from_rings(np.stack([reach * np.cos(angle), reach * np.sin(angle)], axis=1))
    if rng.random() < 0.5:
        knot = Point(*(float(v) for v in rng.normal(0, 100, 2)))
        panel = panel.minus(Region.disk(knot, 30.0, around=True))
    return panel


def family_of(kind: Kind, panel: Region, shape: str) -> TwoSizes:
    """Return the tops of a kind on a panel, as the search for the largest sees them."""
    sizing = Sizing(kind, Wish((shape,)), Circle(2.0))
    return TwoSizes(Wood(SoundWood.exact(panel)), sizing)


def has_shapes(kind: Kind) -> bool:
    """Return whether tops of a kind come in more than one shape."""
    return kind.axes(0.0) != kind.axes(1.0)


KINDS: dict[str, Kind] = {
    "oval": OvalKind(),
    "capsule": CapsuleKind(),
    "D end": DEndKind(),
    "superellipse": SuperellipseKind(3.0),
    "hexagon": ConvexKind(RegularPolygon(6, 2.0)),
}
"""One of each kind of convex top."""


class Attacked(NamedTuple):
    """The bound of a box and the best of the tops found in it, as scores."""

    bound: float
    best: float
    beyond: float = -1.0
    """By how much the best lies beyond one of the half-planes of its box, mm; negative within."""


def unknowns(lift: Lift, p: float, lean: float, radius: float, sizes: tuple[float, float]) -> Array:
    """Return the shape unknowns of a top so far turned from the middle of its box."""
    cos, sin, (long, wide) = math.cos(lean), math.sin(lean), sizes
    match lift:
        case DEndLift():
            return np.array([p * cos - lift.least, p * sin, radius, radius * sin])
        case CapsuleLift():
            return np.array([p * cos - lift.least, p * sin, radius])
        case SuperellipseLift():
            return np.array([long * cos, wide * cos, long * sin, wide * sin])
        case OvalLift():
            skew = (long - wide) * sin * cos
            return np.array([long * cos**2 + wide * sin**2, long * sin**2 + wide * cos**2, skew])
    return np.array([radius * cos, radius * sin])


def attacked_box(family: TwoSizes, rng: np.random.Generator, tops: int) -> Attacked | None:
    """Return the bound of a random box about a top that fits, and the best of many tops in it.

    Half of the tops lie at corners of the box, where a bound that is wrong breaks first.
    """
    kind, piece = family.kind, family.wood.pieces[0]
    half_turn, size = 10 ** rng.uniform(-4, -0.7), 10 ** rng.uniform(-1, 2.3)
    low = float(rng.uniform(0, 2) * rng.integers(0, 2)) if has_shapes(kind) else 0.0
    high = low + (10 ** rng.uniform(-4, 0) if has_shapes(kind) else 0.0)
    turn = rng.uniform(0, kind.period(high))
    tried = rng.uniform(piece.corners.min(axis=0), piece.corners.max(axis=0), (30, 2))
    found = [family.placed(centre, turn, (low + high) / 2) for centre in tried]
    fitting = [top for top in found if top is not None]
    if not fitting:
        return None
    start = max(fitting, key=lambda top: top[0])[1]
    middle = np.array([start.x, start.y])
    clear = np.zeros(1, dtype=bool)
    box = Box(turn, half_turn, low, high, middle[None], turn, (size, size), clear, piece.edges)
    bound, best = family.bound(box, rng.uniform(0.5, 1.0) * family.sizing.score(*start[3:])), 0.0
    for i in range(tops):
        off = rng.uniform(-1, 1, 4)
        off = np.sign(off) if i % 2 else off
        centre = middle + turned(off[None, :2] * size, -turn)[0]
        shape = low + (off[3] + 1) / 2 * (high - low)
        top = family.placed(centre, turn + off[2] * half_turn, shape)
        best = max(best, 0.0 if top is None else top[0])
    return Attacked(bound, best)


def best_climbed(family: TwoSizes, rng: np.random.Generator, starts: int) -> float:
    """Return the best score that is reached by polish from tops at random places and turns."""
    kind, piece, best = family.kind, family.wood.pieces[0], 0.0
    tried = rng.uniform(piece.corners.min(axis=0), piece.corners.max(axis=0), (starts, 2))
    for centre in tried:
        shape = float(rng.uniform(0, 1.5)) if has_shapes(kind) else 0.0
        top = family.placed(centre, rng.uniform(0, math.tau), shape)
        if top is not None:
            best = max(best, family.polished(*top)[0])
    return best


def cut_to(outline: Outline, place: Placement, rng: np.random.Generator, loose: float) -> Region:
    """Return a panel that hugs a top: sides along its tangents, and tongues whose tips touch it.

    Parameters
    ----------
    loose : float
        Share of the width by which sides and tips may stay clear; most touch.
    """
    points = place.of(outline.outer(0.01))
    middle = np.array([place.centre.x, place.centre.y])
    count = int(rng.integers(3, 9))
    ways = np.arange(count) * math.tau / count + rng.uniform(0, math.tau / count / 2, count)
    normals = np.stack([np.cos(ways), np.sin(ways)], axis=1)
    far = 3 * outline.length
    panel = Region.from_rings(middle + far * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]))
    for normal in normals:
        along = np.array([-normal[1], normal[0]])
        gap = loose * outline.width * max(0.0, rng.uniform(-2, 1))
        touch = points[int(np.argmax(points @ normal))] + gap * normal
        if rng.random() < 0.3:  # a tongue: its tip touches, its sides run off outwards
            wide = rng.uniform(0.05, 2.0) * far
            out = np.array([touch, touch + far * normal + wide * along])
            cut = np.vstack([out, touch + far * normal - wide * along])
        else:
            corners = np.array([[0, -2], [0, 2], [4, 2], [4, -2]]) * far
            cut = touch + corners @ np.stack([normal, along])
        panel = panel.minus(Region.from_rings(cut))
    return next(piece for piece in panel.pieces if piece.holds_point(place.centre))


def hugged_box(
    kind: Kind, shape: str, rng: np.random.Generator, *, only_turn: bool, hold: bool = False
) -> Attacked:
    """Return the bound of a box with a top at one of its corners that all of the panel touches.

    Parameters
    ----------
    only_turn : bool
        Whether the box has next to no extent but of turns.
    hold : bool
        Whether the tops must hold points at the edge of that top.
    """
    shapes = (rng.uniform(0, 500) if isinstance(kind, CapsuleKind) else rng.uniform(0.0, 1.6)) * (
        has_shapes(kind)
    )
    half_turn = 10 ** rng.uniform(-3, -0.6)
    small = 1e-6 if only_turn else 1.0
    span = small * 10 ** rng.uniform(-3, -0.3) * (300.0 if isinstance(kind, CapsuleKind) else 1.0)
    span *= has_shapes(kind)
    size = small * 10 ** rng.uniform(-1, 1.5)
    ends = np.sign(rng.uniform(-1, 1, 4)) * np.where(rng.random(4) < 0.7, 1.0, rng.random(4))
    turn, low = rng.uniform(0, math.pi), float(shapes)
    p = low + (ends[3] + 1) / 2 * span
    pose = Pose(0.0, 0.0, turn + ends[2] * half_turn, *kind.sizes(p, rng.uniform(80, 300)))
    wish = Wish((shape,), exponent=getattr(kind.body, "exponent", 2.5))
    form = OUTLINES[shape](wish)
    assert form is not None
    outline = form.resized(2 * pose.half_length, 2 * pose.half_width)
    place = Placement(Point(*kind.origin(pose)), pose.turn)
    panel = cut_to(outline, place, rng, 0.2)
    held: list[Region] = []
    if hold:
        ring = place.of(outline.inner(0.01))
        inside = (1 - 1e-6) * ring  # the body of a polygon stands off it by a ten-millionth
        held = [Region.at(Point(*inside[int(i)])) for i in rng.integers(0, len(ring), 3)]
    wood = Wood(SoundWood.exact(panel), held)
    goal = list(Goal)[int(rng.integers(len(Goal)))]
    wanted = (outline.length, outline.width) * rng.uniform(1, 2, 2) + 100.0  # so it grows nearer
    wish = replace(wish, goal=goal, wanted=tuple(wanted.tolist()) if goal is Goal.NEAREST else None)
    if goal is Goal.LENGTH:
        wish = replace(wish, limits=Limits(width=Span(outline.width * rng.uniform(0.1, 0.9))))
    if shape != "superellipse" and rng.random() < 0.5:
        wish = replace(wish, lipping=float(rng.uniform(1, 40)))
    if rng.random() < 0.5:  # limits that hug it as well
        rim = np.array(kind.rim(wish.lipping))
        finished = np.array([outline.length, outline.width]) + 2 * rim
        spans = [Span(v * (1 - 1e-6), v * (1 + 1e-6)) for v in finished.tolist()]
        ratio = Span(spans[0].least / spans[1].greatest, spans[0].greatest / spans[1].least)
        wish = replace(wish, limits=Limits(length=spans[0], width=spans[1], ratio=ratio))
    family = TwoSizes(wood, Sizing(kind, wish, outline))
    own = np.array([-wood.middle.x, -wood.middle.y])
    found = family.placed(own, pose.turn, p)
    middle = own - turned(ends[None, :2] * size, -turn)[0]
    edges = wood.pieces[0].edges
    clear = np.zeros(1, dtype=bool)
    box = Box(turn, half_turn, low, low + span, middle[None], turn, (size, size), clear, edges)
    if found is None:
        return Attacked(family.bound(box, 1e-3), 0.0)
    radius = kind.radius_of(found[1])
    box.most, patch = radius * (1 + 1e-9), patch_of(box)
    box.least = radius * float(rng.choice([0.0, 0.8, 1 - 1e-9]))
    lift = kind.lift(box, patch)
    lines = wood.outer_lines[edges]
    seen = Edges(wood.outer_edges[edges, 0], lines, wood.outermost[edges])
    planes = lift.planes(seen, box.most, wood.held)
    shape_unknowns = unknowns(lift, p, pose.turn - turn, radius, kind.sizes(p, radius))
    x = np.append(turned((own - patch.middle)[None], turn)[0], shape_unknowns)
    beyond = float((planes.rows @ x - planes.limits).max())
    return Attacked(family.bound(box, 1e-3), found[0], beyond)
