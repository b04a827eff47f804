"""What an outline asks to be marked, in the outline's own frame and in a fixed order.

Pairs are given from the left end (or the lower side), sets of four or more anticlockwise from the
lower left. `Group.seen` turns that order so that it starts where the datum starts, however the top
is turned on the panel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import ORIGIN, Bounds, Point
from ..geometry.alike import first_of_best
from ..geometry.tolerance import SAME_PLACE
from ..outlines import Outline
from ..units import nearest_whole
from .freeform_places import FreeformPlaces, distinct
from .instruments import Swing
from .mark import Kind
from .off_wood import Ground


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
        """Return labels and points in the order of a datum that the top is turned from by `turn`.

        Parameters
        ----------
        turn : float
            Radians from the datum to the top's long axis.
        """
        count = len(self.points)
        if count == 1:
            return ((self.prefix, self.points[0]),)
        quarters = nearest_whole(turn / (math.pi / 2)) % 4
        if self.freely:
            seen = [point.turned(turn) for point in self.points]
            first = first_of_best(
                range(count),
                lambda i: -_low(seen[i]),
                lambda i: tuple(seen[i]),
                tolerance=SAME_PLACE,
            )
        elif count == 2:
            upright = self.kind in _ACROSS
            first = 1 if quarters in ((1, 2) if upright else (2, 3)) else 0
        else:
            first = -quarters * count // 4
        ordered = [self.points[(first + i) % count] for i in range(count)]
        return tuple((f"{self.prefix}{i + 1}", point) for i, point in enumerate(ordered))


_ACROSS = (Kind.SIDE, Kind.CROSS_CENTRELINE)
"""Pairs that are given from the lower side to the upper one."""


def _low(point: Point) -> float:
    return point.x + point.y


def groups_for(
    outline: Outline, lipping: float = 0.0, ground: Ground | None = None
) -> tuple[Group, ...]:
    """Return what is marked for an outline: centre, axes, centres of arcs, tangent points, nails.

    Parameters
    ----------
    outline : Outline
        The finished top.
    lipping : float
        The core line runs this far inside it, mm.
    ground : Ground, optional
        The panel under it: an outline of any form that runs along its edge is not marked there.
    """
    if not outline.free_sizes:
        return _freeform(FreeformPlaces.of(outline, ground))
    x, y = outline.length / 2, outline.width / 2
    groups = [
        Group(Kind.CENTRE, "O", (ORIGIN,)),
        Group(Kind.END, "E", (Point(-x, 0), Point(x, 0))),
        Group(Kind.SIDE, "S", (Point(0, -y), Point(0, y))),
    ]
    # two corners of a hexagon are the ends of its long axis
    boxed = outline.is_boxed and len(outline.arc_centres) != 1  # a half-round end has no corners
    corners = _box(x, y) if boxed else [c for c in outline.corners if c.y != 0]
    found = (
        (Kind.CORNER, "X", corners),
        (Kind.ARC_CENTRE, "K" if outline.is_boxed else "C", outline.arc_centres),
        (Kind.TANGENT, "T", outline.tangents()),
        (Kind.CORE_TANGENT, "t", outline.tangents(lipping) if lipping else ()),
        (Kind.NAIL, "N", outline.foci),
        (Kind.ON_CURVE, "D", outline.on_diagonals),
    )
    groups += [Group(kind, prefix, tuple(points)) for kind, prefix, points in found if points]
    return tuple(groups)


def _freeform(places: FreeformPlaces) -> tuple[Group, ...]:
    centres = distinct(arc.centre for arc in places.arcs)
    held = (
        (Kind.CORNER, "X", places.corners),
        (Kind.ARC_CENTRE, "K", centres),
        (Kind.TANGENT, "T", places.touching),
    )
    groups = (Group(kind, prefix, points, freely=True) for kind, prefix, points in held if points)
    return (Group(Kind.CENTRE, "O", (ORIGIN,)), *groups)


def swept_by(outline: Outline, ground: Ground | None = None) -> tuple[Swing, ...]:
    """Return the arcs that a compass is set to, in the own frame.

    Parameters
    ----------
    ground : Ground, optional
        As for `groups_for`.
    """
    if not outline.free_sizes:
        return FreeformPlaces.of(outline, ground).swept
    return tuple(Swing(radius, centres) for radius, centres in outline.swung)


def _box(x: float, y: float) -> tuple[Point, ...]:
    return Bounds.about(ORIGIN, x, y).corners
