"""What an outline asks to be marked, in the outline's own frame and in a fixed order.

Pairs are given from the left end (or the lower side), sets of four or more anticlockwise from the
lower left. Of an outline of any form its corners are marked, and the arcs that are newly cut; where
it runs along the panel's own edge nothing but the ends of that edge. One drawn by many points is a
curve to the eye: only what turns sharply in it is a corner, and a template draws the rest.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from ..geometry import ORIGIN, Arc, Line, Point, Segment, first_of_best
from ..geometry.intersect import turn_at
from ..geometry.tolerance import SAME_EDGE, SAME_PLACE
from ..outlines import Outline
from ..outlines.base import distinct
from ..panel.edges import CORNER_TURN
from ..units import nearest_whole
from .instruments import Swing
from .mark import Ground, Kind

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)

TURNS, MOST_CORNERS = 1e-3, 24
"""A joint that turns by less, radians, is straight or smooth to the hand: 0.25 mm at half a metre
each way; an outline of more corners is a curve drawn by points."""

_FARTHEST = 5000.0
"""A longer radius than this is not swung: no bar, and no room, mm (common practice)."""


class Joint(NamedTuple):
    """Where two segments that are cut meet, or a segment that is cut and a kept edge."""

    at: Point
    turn: float
    """How far the line turns there, radians; half a turn where a kept edge takes over."""
    curved: bool
    """Whether either of the two is an arc."""


@dataclass(frozen=True, slots=True)
class FreeformPlaces:
    """What is marked of an outline, in its own frame and in the order of its path."""

    cut: tuple[tuple[Segment, ...], ...]
    """What is newly cut: runs of segments end to end, or one run all the way round."""
    corners: tuple[Point, ...]
    """Sharp corners, and where a kept edge takes over."""
    touching: tuple[Point, ...]
    """Where an arc goes on without a corner."""
    arcs: tuple[Arc, ...]
    by_template: bool
    """Whether some of it is neither straight between marks nor such an arc."""

    @classmethod
    def of(cls, outline: Outline, ground: Ground | None = None) -> FreeformPlaces:
        """Return what is marked; on a panel, what lies on its edges is left out."""
        runs = outline.path().runs(lambda s: ground is None or not _lies_on_edge(s, ground))
        cut = tuple(run.segments for run in runs)
        joints = [joint for run in cut for joint in _joints(run)]
        sharp = [joint for joint in joints if abs(joint.turn) > TURNS]
        many = len(sharp) > MOST_CORNERS
        if many:
            sharp = [joint for joint in sharp if abs(joint.turn) >= CORNER_TURN]
        smooth = [joint for joint in joints if abs(joint.turn) <= TURNS and joint.curved]
        bent = [segment for run in cut for segment in run if not isinstance(segment, Line)]
        arcs = [s for s in bent if isinstance(s, Arc) and s.radius <= _FARTHEST]
        return cls(
            cut,
            tuple(joint.at for joint in sharp),
            tuple(joint.at for joint in smooth),
            tuple(arcs),
            many or len(arcs) < len(bent),
        )

    @property
    def swept(self) -> tuple[Swing, ...]:
        """Its arcs by their radius and the way they bend."""
        kinds: list[list[Arc]] = []
        for arc in self.arcs:
            for kind in kinds:
                one = kind[0]
                bends_alike = (one.sweep < 0) == (arc.sweep < 0)
                if bends_alike and abs(one.radius - arc.radius) <= SAME_PLACE:
                    kind.append(arc)
                    break
            else:
                kinds.append([arc])
        return tuple(
            Swing(kind[0].radius, distinct(arc.centre for arc in kind), kind[0].sweep < 0)
            for kind in kinds
        )

    @property
    def lines(self) -> tuple[Line, ...]:
        """The straight sides that are cut."""
        return tuple(s for run in self.cut for s in run if isinstance(s, Line))


def _lies_on_edge(segment: Segment, ground: Ground) -> bool:
    places = (ground.top.placement(segment.at(share)) for share in _SHARES)
    return all(ground.face.edge_distance(place) <= SAME_EDGE for place in places)


def _joints(run: Sequence[Segment]) -> list[Joint]:
    is_closed = run[-1].end.distance_to(run[0].start) <= SAME_EDGE
    joints = [
        Joint(b.start, turn_at(a, b), not (isinstance(a, Line) and isinstance(b, Line)))
        for a, b in pairwise([*run[-1:], *run] if is_closed else run)
    ]
    if is_closed:
        return joints
    return [Joint(run[0].start, math.pi, False), *joints, Joint(run[-1].end, math.pi, False)]


@dataclass(frozen=True, slots=True)
class Group:
    """Marks of one kind."""

    kind: Kind
    prefix: str
    """Letter of the labels; they are numbered from 1 where there are several."""
    points: tuple[Point, ...]
    """In the outline's own frame, mm."""
    freely: bool = False
    """Whether they stand in no pattern: the first is then simply the one at the lower left."""

    def seen(self, turn: float) -> tuple[tuple[str, Point], ...]:
        """Return labels and points in the order of a datum that the top is turned from, radians."""
        count = len(self.points)
        if count == 1:
            return ((self.prefix, self.points[0]),)
        quarters = nearest_whole(turn / (math.pi / 2)) % 4
        if self.freely:
            seen = [point.turned(turn) for point in self.points]
            lowest = first_of_best(seen, lambda p: -p.x - p.y, tuple, tolerance=SAME_PLACE)
            first = seen.index(lowest)
        elif count == 2:
            upright = self.kind in _ACROSS
            first = 1 if quarters in ((1, 2) if upright else (2, 3)) else 0
        else:
            first = -quarters * count // 4
        ordered = [self.points[(first + i) % count] for i in range(count)]
        return tuple((f"{self.prefix}{i + 1}", point) for i, point in enumerate(ordered))


_ACROSS = (Kind.SIDE, Kind.CROSS_CENTRELINE)
"""Pairs that are given from the lower side to the upper one."""


def groups_for(
    outline: Outline, lipping: float = 0.0, ground: Ground | None = None
) -> tuple[Group, ...]:
    """Return what is marked for an outline: centre, axes, centres of arcs, tangent points, nails.

    The core line runs `lipping` mm inside. Of a form of its own nothing is marked along the edge.
    """
    found: tuple[tuple[Kind, str, Sequence[Point]], ...]
    if freely := not outline.free_sizes:
        places = FreeformPlaces.of(outline, ground)
        found = (
            (Kind.CORNER, "X", places.corners),
            (Kind.ARC_CENTRE, "K", distinct(arc.centre for arc in places.arcs)),
            (Kind.TANGENT, "T", places.touching),
        )
    else:
        x, y = outline.length / 2, outline.width / 2
        found = (
            (Kind.END, "E", (Point(-x, 0), Point(x, 0))),
            (Kind.SIDE, "S", (Point(0, -y), Point(0, y))),
            (Kind.CORNER, "X", outline.marked_corners),
            (Kind.ARC_CENTRE, "K" if outline.is_boxed else "C", outline.arc_centres),
            (Kind.TANGENT, "T", outline.tangents()),
            (Kind.CORE_TANGENT, "t", outline.tangents(lipping) if lipping else ()),
            (Kind.NAIL, "N", outline.foci),
            (Kind.ON_CURVE, "D", outline.on_diagonals),
        )
    groups = (Group(kind, letter, tuple(held), freely) for kind, letter, held in found if held)
    return (Group(Kind.CENTRE, "O", (ORIGIN,)), *groups)


def swept_by(outline: Outline, ground: Ground | None = None) -> tuple[Swing, ...]:
    """Return the arcs that a compass is set to, in the own frame."""
    if not outline.free_sizes:
        return FreeformPlaces.of(outline, ground).swept
    return tuple(Swing(radius, centres) for radius, centres in outline.swung)
