"""Corners of a panel and their letters, and to which of them a tape can be held."""

from __future__ import annotations

from collections.abc import Set as AbstractSet

from ..geometry.alike import at_least, first_of_best
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import SAME_PLACE
from .edges import CORNER_TURN, Edge, edges_of, meeting
from .panel import Panel
from .reference import Corner, Flaw

LETTERS = "ABCDEFGHIJKLMNO"
"""Names of corners; P and Q are kept for struck points."""

FEWEST = 3
"""Edges between which corners have names."""


def lettered(
    panel: Panel, damaged: AbstractSet[str] = frozenset()
) -> tuple[tuple[Edge, ...], tuple[Corner, ...]]:
    """Return edges and corners, A nearest the lower left; edge i runs from corner i.

    There are no corners where there are fewer than three edges or more than there are letters.
    """
    edges = edges_of(panel.boundary)
    if not FEWEST <= len(edges) <= len(LETTERS):
        return edges, ()
    bounds = panel.boundary.bounds
    origin = Point(bounds.left, bounds.bottom)
    meetings = [meeting(edges[i - 1], edge) for i, edge in enumerate(edges)]
    first = first_of_best(
        range(len(edges)),
        lambda i: -meetings[i].point.distance_to(origin),
        lambda i: tuple(meetings[i].point),
        tolerance=SAME_PLACE,
    )
    turned = [(first + i) % len(edges) for i in range(len(edges))]
    corners = []
    for letter, i in zip(LETTERS, turned, strict=False):
        clean = edges[i - 1].is_clean and edges[i].is_clean
        sticks_out = at_least(meetings[i].turn, CORNER_TURN)
        flaw, spoilt_by = _flaw(panel, meetings[i].point, meetings[i].intact, clean and sticks_out)
        flaw = Flaw.DAMAGED if letter in damaged else flaw
        corners.append(Corner(letter, meetings[i].point, flaw, spoilt_by))
    return tuple(edges[i] for i in turned), tuple(corners)


def _flaw(panel: Panel, point: Point, intact: bool, crisp: bool) -> tuple[Flaw | None, str]:
    """Return why no tape can be held to a corner, and the defect that spoils it."""
    if not intact:
        return Flaw.GONE, ""
    if not crisp:
        return Flaw.NOT_CRISP, ""
    if any(Region.of(cut_out).holds_point(point) for cut_out in panel.cut_outs):
        return Flaw.CUT_AWAY, ""
    near = (d for d in panel.defects if d.spoils and d.place.bounds.holds(point, -2 * d.chord))
    spoilt = next((d for d in near if d.extent.holds_point(point)), None)
    return (None, "") if spoilt is None else (Flaw.SPOILT, spoilt.name)
