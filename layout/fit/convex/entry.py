"""The families of nested convex tops, each by its outline, and other places for a top of one."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from importlib import import_module

import numpy as np

from ...geometry import Placement, Point, Region, first_of_best
from ...outlines import (
    OWN_OUTLINE,
    Capsule,
    Circle,
    DEnd,
    Outline,
    Oval,
    RegularPolygon,
    Superellipse,
)
from ...panel.sound import SoundWood
from ..families import Entry
from ..found import Fit
from ..proof import Drawn, until_proved
from ..stand import Stand
from ..tie_breaking import plain_turn
from ..wish import Span, Wish
from ..wood.edges import Array
from .boxes import Pose
from .closing import closed_in
from .family import TwoSizes
from .kind import Kind
from .sizing import Sizing
from .wood import Piece, Wood

OUTLINES: dict[str, Callable[[Wish], Outline | None]] = {
    "circle": lambda _: Circle(2.0),
    "oval": lambda _: Oval(2.0, 1.0),
    "capsule": lambda _: Capsule(2.0, 1.0),
    "D end": lambda _: DEnd.of_size(2.0, 1.0),
    "superellipse": lambda wish: Superellipse(2.0, 1.0, wish.exponent),
    "hexagon": lambda _: RegularPolygon(6, 2.0),
    "octagon": lambda _: RegularPolygon(8, 2.0),
    OWN_OUTLINE: lambda wish: wish.own,
}
"""An outline of each shape, of any size."""
_SHAPES = 5
"""Shapes that are tried, from the roundest to one as long as the wood and slim in it."""
_SLIM = 0.6
"""Share of the wood's lesser extent that the slimmest is wide."""
_SHARES = np.linspace(-1.0, 1.0, 5)
"""Where in each half span of turns that a search starts with tops are tried."""
_ALONG = 24
"""Places along the longer side of a piece of wood."""
_PLACES, _APART = 8, 0.06
"""Places that are kept for each turn and shape: those with most room, and what share of the wood's
diameter they stand apart."""
_ALIKE = 1e-6
"""mm of room within which two places are equal: rounding must not tell which is taken."""


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the tops of a shape."""
    outline = OUTLINES[shape](wish)
    assert outline is not None
    if isinstance(outline, Circle):
        wish = replace(wish, limits=replace(wish.limits, ratio=Span(1.0, 1.0)))
    # the maker's own keeps its form, whatever its kind
    own = shape == OWN_OUTLINE
    kind = _loaded("polygon", "ConvexKind")(outline) if own else kind_of(outline)
    family = TwoSizes(Wood(wood, held), Sizing(kind, wish, outline))
    elsewhere = RoundElsewhere(family, wood, held)
    return Entry(family, partial(elsewhere.finished, rests=True), elsewhere)


def kind_of(outline: Outline, farthest: float = math.inf) -> Kind:
    """Return how tops of the form of an outline are sought; a polygon may stand so far off it, mm.

    One with dents raises a `LayoutError`.
    """
    match outline:
        case Circle() | Oval():
            return _loaded("oval", "OvalKind")()
        case Capsule():
            return _loaded("capsule", "CapsuleKind")()
        case DEnd():
            return _loaded("d_end", "DEndKind")()
        case Superellipse():
            return _loaded("superellipse", "SuperellipseKind")(outline.exponent)
    return _loaded("polygon", "ConvexKind")(outline, farthest)


def _loaded(module: str, name: str) -> Callable[..., Kind]:
    """Return a kind, loaded when it is asked."""
    kind: Callable[..., Kind] = getattr(import_module(f".{module}", __package__), name)
    return kind


class RoundElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: TwoSizes, sound: SoundWood, held: Sequence[Region]) -> None:
        self.tops, self.wood, self.sizing = family, family.wood, family.sizing
        self.kind, self.sound, self.held = family.kind, sound, held

    def starts(self) -> Iterator[Stand]:
        """Yield the best tops of some turns, shapes and places."""
        for piece in self.wood.pieces:
            centres, _ = piece.cells(0.0, _ALONG)
            centres = centres[self.wood.inner.holds_points(centres)]
            for p in self._shapes(piece) if len(centres) else []:
                round_one = self.kind.period(p) == 0  # it may be drawn out along the grain
                spans = [(self.sizing.wish.limits.grain, 0.0)] if round_one else self.tops.turns(p)
                for turn in np.unique([(at + half * _SHARES).round(9) for at, half in spans]):
                    for centre in self._roomiest(centres, turn, p):
                        found = self.tops.placed(centre, turn, p)
                        if found is not None:
                            yield self.stand(found[1])

    def _shapes(self, piece: Piece) -> list[float]:
        low, high = self.sizing.shapes
        extent = np.ptp(piece.corners, axis=0) / 2
        slim = Pose(0.0, 0.0, 0.0, float(extent.max()), float(extent.min()) * _SLIM)
        high = min(high, max(low, self.kind.shape_of(slim)))
        return [float(p) for p in np.linspace(low, high, _SHAPES if high > low else 1)]

    def _roomiest(self, centres: Array, turn: float, p: float) -> Iterator[Array]:
        """Yield the centres with the most room for a top of that turn and shape, well apart."""
        room = self.kind.distances(turn, p, self.wood.inner_edges, centres).min(axis=1)
        for _ in range(_PLACES):
            alike = np.flatnonzero(room >= room.max() - _ALIKE)
            best = first_of_best(alike, room.__getitem__, centres.__getitem__, tolerance=_ALIKE)
            if room[best] <= 0:
                return
            yield centres[best]
            away = np.hypot(*(centres - centres[best]).T)
            room[away < _APART * self.wood.diameter] = -1.0

    def like(self, start: Stand) -> Pose:
        """Return the top where a start stands."""
        turn, half = start.placement.turn, (start.length / 2, start.width / 2)
        off = Point(*self.kind.origin(Pose(0.0, 0.0, turn, *half)))
        centre = start.placement.centre - self.wood.middle - off
        return Pose(centre.x, centre.y, turn, *half)

    def stand(self, top: Pose) -> Stand:
        """Return where a top stands."""
        place = Placement(Point(*self.kind.origin(top)) + self.wood.middle, top.turn)
        score = self.sizing.score(top.half_length, top.half_width)
        return Stand(score, place, 2 * top.half_length, 2 * top.half_width)

    def finished(self, top: Pose, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top, closed in on a local best where it rests.

        At the plainest of the turns that look the same.
        """
        pose, sizing, kind = closed_in(self.tops, top) if rests else top, self.sizing, self.kind
        make, rim, limits = sizing.outline.resized, sizing.rim, sizing.wish.limits
        pose = pose._replace(turn=plain_turn(pose.turn, kind.period(kind.shape_of(pose)), limits))

        def drawn_in(by: float) -> Drawn:
            half_length, half_width = kind.drawn_in(pose, by)
            # drawn in alike all round a top gets slimmer, by a hair more than it may
            half_length = min(half_length, limits.ratio.greatest * (half_width + rim[1]) - rim[0])
            stand = self.stand(pose._replace(half_length=half_length, half_width=half_width))
            outline = make(2 * (half_length + rim[0]), 2 * (half_width + rim[1]))
            return Drawn(outline, make(stand.length, stand.width), stand.placement, stand.score)

        return until_proved(drawn_in, self.sound, self.held, spare=not limits.fixes_a_size)
