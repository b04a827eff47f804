"""What an outline of any form asks to be marked: its corners, and the arcs that are newly cut.

Where the outline runs along the panel's own edge nothing is cut, so nothing is marked there but the
ends of that edge. An outline drawn by many points is a curve to the eye: only what turns sharply in
it is a corner, and the rest is drawn by a template.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..geometry import Arc, Line, Point, Segment
from ..geometry.intersect import turn_at
from ..geometry.tolerance import SAME_EDGE, SAME_PLACE, SAME_POINT
from ..outlines import Outline
from ..panel.edges import CORNER_TURN
from .instruments import Swing
from .off_wood import Ground

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)

TURNS = 1e-3
"""A joint that turns by less is straight or smooth to the hand, radians: 0.25 mm at half a metre
each way."""

MOST_CORNERS = 24
"""An outline of more corners is a curve drawn by points."""

_FARTHEST = 5000.0
"""A longer radius than this is not swung: no bar, and no room, mm (common practice)."""


@dataclass(frozen=True, slots=True)
class Joint:
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
    """Arcs that can be swung."""
    by_template: bool
    """Whether some of it is neither straight between marks nor such an arc."""

    @classmethod
    def of(cls, outline: Outline, ground: Ground | None = None) -> FreeformPlaces:
        """Return what is marked; on a panel, what lies on its edges is left out."""
        cut = _runs(outline, ground)
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
            same = next((kind for kind in kinds if _alike(kind[0], arc)), None)
            if same is None:
                kinds.append([arc])
            else:
                same.append(arc)
        return tuple(
            Swing(kind[0].radius, distinct(arc.centre for arc in kind), kind[0].sweep < 0)
            for kind in kinds
        )

    @property
    def lines(self) -> tuple[Line, ...]:
        """The straight sides that are cut."""
        return tuple(s for run in self.cut for s in run if isinstance(s, Line))


def distinct(points: Iterable[Point]) -> tuple[Point, ...]:
    """Return points without those that lie on an earlier one."""
    held: list[Point] = []
    for point in points:
        if all(point.distance_to(other) > SAME_POINT for other in held):
            held.append(point)
    return tuple(held)


def _alike(one: Arc, other: Arc) -> bool:
    """Return whether two arcs are swung with one radius and bend one way."""
    return abs(one.radius - other.radius) <= SAME_PLACE and (one.sweep < 0) == (other.sweep < 0)


def _runs(outline: Outline, ground: Ground | None) -> tuple[tuple[Segment, ...], ...]:
    """Return the segments of an outline that are cut, in runs; one run is all of it."""
    cut = outline.path().runs(lambda s: ground is None or not _lies_on_edge(s, ground))
    return tuple(run.segments for run in cut)


def _lies_on_edge(segment: Segment, ground: Ground) -> bool:
    places = (ground.top.placement(segment.at(share)) for share in _SHARES)
    return all(ground.face.edge_distance(place) <= SAME_EDGE for place in places)


def _joints(run: Sequence[Segment]) -> list[Joint]:
    inner = [Joint(b.start, turn_at(a, b), _curved(a, b)) for a, b in pairwise(run)]
    first, last = run[0], run[-1]
    if last.end.distance_to(first.start) <= SAME_EDGE:
        return [Joint(first.start, turn_at(last, first), _curved(last, first)), *inner]
    return [Joint(first.start, math.pi, False), *inner, Joint(last.end, math.pi, False)]


def _curved(one: Segment, other: Segment) -> bool:
    return not (isinstance(one, Line) and isinstance(other, Line))
