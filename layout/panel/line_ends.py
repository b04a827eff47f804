"""The two ends of the line that is measured from, and how each is found on the panel."""

from __future__ import annotations

import math
from dataclasses import replace

from ..geometry import Point, Region, at_least, at_most, first_of_best
from ..geometry.intersect import meeting_of_lines
from ..geometry.tolerance import SAME_PLACE
from .defect import Spoils
from .edges import CORNER_TURN, STRAIGHT, Corner, Edge, Flaw, Found, Reference
from .panel import Panel

SOUND_SHARE = 0.5
"""At least this share of a reference edge is still there, so that a straightedge bridges gaps."""

STRUCK_FROM_CORNER = 50.0
"""A point that stands in for a bad corner is struck this far along the edge, mm."""


def is_there(face: Region, edge: Edge) -> bool:
    """Return whether so much of an edge is left that a straightedge bridges its gaps."""
    inside = edge.direction.left * (2 * STRAIGHT)
    spans = face.chord(edge.start + inside, edge.end + inside)
    return at_least(sum(a.distance_to(b) for a, b in spans), SOUND_SHARE * edge.chord)


def held(corner: Corner) -> Reference:
    """Return a usable corner as a point to measure from."""
    return Reference(corner.name, corner.point)


def prolonged(
    panel: Panel, before: Edge, edge: Edge, corner: Corner, previous: Corner
) -> Reference | None:
    """Return where the edge before, prolonged past a bad corner, meets the line along an edge.

    None where it is not straight or not there, or where the two run nearly alike.
    """
    if corner.flaw is Flaw.NOT_CRISP or not before.is_straight:
        return None
    met = meeting_of_lines(edge.start, edge.direction, before.end, before.direction)
    turns = at_least(before.direction.cross(edge.direction), math.sin(CORNER_TURN))
    if met is None or not turns or not is_there(panel.region(), before):
        return None
    if not at_most(met.distance_to(before.end), before.chord):
        return None  # so far no straightedge on it is true
    return Reference(corner.name, met, Found.PROLONGED, f"{previous.name}–{corner.name}")


def stand_in(panel: Panel, edge: Edge, name: str, letters: str) -> Reference:
    """Return a point struck on an edge beyond what is wrong with the end that it starts at."""
    bad = [d.extent for d in panel.defects if Spoils.SHOWING in d.spoils]
    bad += [Region.of(c) for c in panel.cut_outs]
    along, most = edge.direction, edge.chord / 3
    reach = min(STRUCK_FROM_CORNER, most)
    while reach < most and any(_is_met(b, edge.start + along * reach) for b in bad):
        reach = min(reach + STRUCK_FROM_CORNER / 5, most)
    return Reference(name, edge.start + along * reach, Found.ON_EDGE, letters, "", reach)


def told_from(point: Reference, other: Reference) -> Reference:
    """Return a point struck on an edge as it is measured from another one of the same line."""
    return replace(point, beside=other.name, distance=point.point.distance_to(other.point))


def _is_met(bad: Region, point: Point) -> bool:
    return bad.holds_point(point) or at_most(bad.edge_distance(point), 0.0)


def on_face(
    name: str, point: Point, edges: tuple[Edge, ...], corners: tuple[Corner, ...]
) -> Reference:
    """Return a struck point: where it lies on an edge, as far as it stands from its nearer end."""
    for i, edge in enumerate(edges if corners else ()):
        if edge.away(point) > SAME_PLACE:
            continue
        ends = corners[i], corners[(i + 1) % len(corners)]
        left = [c for c in ends if c.flaw is not Flaw.GONE]
        if left:
            near = first_of_best(left, lambda c: -c.point.distance_to(point), tolerance=SAME_PLACE)
            letters, away = "–".join(c.name for c in ends), near.point.distance_to(point)
            return Reference(name, point, Found.STRUCK, letters, near.name, away)
    return Reference(name, point, Found.STRUCK)
