"""Of tops that are equally good, the one a maker would choose: the plainest, first by place.

A maker would lay it along the grain or square with the panel, in the middle; and where that is not
to be had, where it stands clear of the edges all round, half way between the ends of its slide. In
a panel that looks the same mirrored or turned half round every other top has twins: of those the
first along, then up, is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import numpy as np

from ..geometry import Placement, Point, Region, first_of_best
from ..geometry.alike import greatest_first
from ..geometry.scalar import last_where
from ..geometry.tolerance import CHORD, PROOF_CHORD, ROUNDING, SAME_PLACE
from .found import Fit
from .local_search import Steps, best_step, climbed
from .points import holds_all
from .stand import period_of
from .wish import Limits
from .wood.edges import Array, EdgesAround, ways_in

_ALIKE = 1e-9
"""Radians within which two tops lie equally far from the grain, and less than 1 by which the cosine
between two ways to slide shows that they are one."""
_SAME = 1e-7
"""Share of its width by which a top that is turned may reach farther or less and be the same."""
_NEAR, _EDGES = 0.02, 12
"""Radians from which a top is turned straight, and how many of the longest edges to."""
_ROUGH = 0.5
"""mm by which a polygon may lie within a top where a place is ruled out by it alone."""
_TOUCH = 1e-8
"""Share by which that polygon is smaller: a corner that touches may lie outside by rounding."""
_NEXT_TO_NOTHING = 0.002
"""mm of clearance that all sliding may cost, or, of an outline of one size, a plain place."""
_WORTH_A_MOVE = 0.01
"""mm of clearance gained, or of a slide, below which a top is left where it is."""
_FINE = 0.001
"""mm to which the ends of a slide are found."""
_A_STEP = 0.05
"""Of the width: the first step towards the clearest place."""
_ABOUT = 0.02
"""mm by which a polygon may stand off a top whose ways to the edges are looked at."""
_MOST_SLIDES = 3
"""Ways to slide that are tried."""


def settled(
    fit: Fit, inner: Region, limits: Limits, held: Sequence[Region], *, mirrors: bool
) -> Fit:
    """Return the same top in the plainest place where it is proved to fit too, and no worse.

    There it lies in the inner polygon of the sound wood, and its core round the parts to be held.
    `mirrors` says of an outline that looks the same turned half round whether it does so mirrored
    about its axes.
    """
    tried, period = Tried(fit, inner, held), period_of(fit.core, _SAME)
    place = _plainest(tried, limits, period)
    return tried.at(_first_twin(tried, place, limits, mirrors=mirrors and period < 4))


def plain_turn(turn: float, period: float, limits: Limits) -> float:
    """Return, of all turns that look the same, that of a long axis nearest to the grain."""
    if period == 0:
        return 0.0
    count = max(1, round(math.tau / period))
    turns = [math.remainder(turn + i * period, math.tau) + 0.0 for i in range(count)]
    off = [abs(limits.off_grain(turn)) for turn in turns]
    alike = [turn for turn, own in zip(turns, off, strict=True) if own <= min(off) + _ALIKE]
    return first_of_best(sorted(alike), lambda turn: -abs(turn), tolerance=_ALIKE)


def _plainest(tried: Tried, limits: Limits, period: float) -> Placement:
    fit, one_size = tried.fit, tried.fit.clearance is not None
    for place, is_middle in _plain_places(tried.inner.edges, limits, fit.placement, period):
        there = replace(place, turn=plain_turn(place.turn, period, limits))
        if not limits.allows(there.turn):
            continue
        if one_size:
            there = tried.clearest(there)
        elif there.centre.distance_to(fit.placement.centre) < ROUNDING:
            there = tried.eased(there)
        if tried.is_as_good(there):
            return there if is_middle and not one_size else tried.at_rest(there)
    return fit.placement


def _plain_places(
    edges: Array, limits: Limits, own: Placement, period: float
) -> Iterator[tuple[Placement, bool]]:
    """Yield places for a top, the plainest first, and whether each is the middle of the wood.

    Turns along the grain and along the longest of the edges, (n, 2, 2), go before those near its
    own that run along an edge, and these before its own; for each, the middle both ways before one
    way before its own centre.
    """
    way = edges[:, 1] - edges[:, 0]
    longest = edges[greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_EDGES]]
    first = first_of_best(
        longest,
        lambda edge: math.dist(edge[0], edge[1]),
        lambda edge: (edge[0] + edge[1]) / 2,
        tolerance=SAME_PLACE,
    )
    along = [math.atan2(*(edge[1] - edge[0])[::-1]) for edge in (first, *longest)]
    quarter = math.pi / 2
    quarters = quarter * np.arange(2 if period <= math.pi else 4)
    turns = [base + by for base in (limits.grain, along[0]) for by in quarters.tolist()]
    step = min(quarter, period or quarter)  # an octagon has sides every 45°
    off = [math.remainder(base - own.turn, step) for base in (limits.grain, 0.0, *along)]
    turns += [own.turn + by for by in off if abs(by) < _NEAR]
    for turn in dict.fromkeys((*filter(limits.allows, turns), own.turn)):
        onto = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        seen = edges.reshape(-1, 2) @ onto
        middle, here = (seen.min(axis=0) + seen.max(axis=0)) / 2, np.array([*own.centre]) @ onto
        for x, y in product((middle[0], here[0]), (middle[1], here[1])):
            is_middle = bool(x == middle[0] and y == middle[1])
            yield Placement(Point.of(np.array([x, y]) @ onto.T), turn), is_middle


def _first_twin(tried: Tried, own: Placement, limits: Limits, *, mirrors: bool) -> Placement:
    """Return the first by place of a top in its place and its twins."""
    off = abs(limits.off_grain(own.turn)) + _ALIKE
    room = tried.room(own) - ROUNDING
    twins = (twin for twin in _twins(own, tried.inner, mirrors) if tried.stands(twin))
    alike = [t for t in twins if abs(limits.off_grain(t.turn)) <= off and tried.room(t) >= room]
    reach = tried.fit.outline.length / 2  # a turn counts by what it moves an end
    return first_of_best(
        [own, *alike],
        lambda _: 0.0,
        lambda place: (*place.centre, place.turn * reach),
        tolerance=0.0,
    )


def _twins(place: Placement, inner: Region, mirrors: bool) -> Iterator[Placement]:
    """Yield a place mirrored about the middle of the wood, both ways and each way."""
    middle, centre = inner.bounds.middle, place.centre
    for x, y in ((-1, -1), (-1, 1), (1, -1)):
        if x * y < 0 and not mirrors:
            continue
        there = Point(middle.x + x * (centre.x - middle.x), middle.y + y * (centre.y - middle.y))
        turn = place.turn + math.pi if not mirrors else x * y * place.turn
        if there.distance_to(centre) > SAME_PLACE or x * y < 0 or not mirrors:
            yield Placement(there, math.remainder(turn, math.tau) + 0.0)


SIDEWAYS = np.array([[0.0, 1.0], [-1.0, 0.0]])
"""Turns ways, (…, 2), by a quarter."""


class Tried:
    """A top that is tried in other places on the wood."""

    def __init__(self, fit: Fit, inner: Region, held: Sequence[Region]) -> None:
        self.fit, self.inner, self.held = fit, inner, held
        self._around = EdgesAround(inner.edges)
        self._rings = [fit.core.outer(chord) for chord in (CHORD, PROOF_CHORD)]
        self._within = fit.core.inner(CHORD)
        self._rough = fit.core.inner(_ROUGH) * (1 - _TOUCH)
        self._about = fit.core.outer(_ABOUT if fit.clearance is None else CHORD)

    def stands(self, place: Placement) -> bool:
        """Return whether the top is proved to fit in another place, and to hold its parts."""
        if not self.inner.holds_points(place.of(self._rough)).all():
            return False
        around = (Region.from_rings(place.of(ring)) for ring in self._rings)
        within = Region.from_rings(place.of(self._within))
        return any(map(self.inner.holds, around)) and holds_all(within, self.held)

    def room(self, place: Placement) -> float:
        """Return how far a top that stands in a place is from where the wood ends, mm."""
        return self.inner.edge_distance(Region.from_rings(place.of(self._rings[0])))

    def is_as_good(self, place: Placement) -> bool:
        """Return whether the top stands there, and of one size is as clear as it was."""
        least = (self.fit.clearance or 0.0) - _NEXT_TO_NOTHING
        return self.stands(place) and (self.fit.clearance is None or self.room(place) >= least)

    def at(self, place: Placement) -> Fit:
        """Return the fit in a place where it stands."""
        fit = replace(self.fit, placement=place)
        if place == self.fit.placement or fit.clearance is None:
            return fit
        room = self.room(place)
        return replace(fit, score=room, clearance=room)

    def at_rest(self, place: Placement) -> Placement:
        """Return a place moved, without turning, to where the top is clearest and slides no more.

        What must be held leaves it no such choice.
        """
        if self.held:
            return place
        place = self.clearest(place)
        least = self.room(place) - _NEXT_TO_NOTHING
        clear, normals = self._ways(place)
        tried: list[Array] = []
        for way in normals[clear <= clear.min() + 2 * _ABOUT] @ SIDEWAYS:
            if len(tried) < _MOST_SLIDES and all(abs(way @ w) < 1 - _ALIKE for w in tried):
                tried.append(way)
                ahead, back = (self._slide(place, side * way, least) for side in (1.0, -1.0))
                there = self.moved(place, (ahead - back) / 2 * way)
                if ahead + back > 2 * _WORTH_A_MOVE and self.stands(there):
                    place = there
        return place

    def _slide(self, place: Placement, way: Array, least: float) -> float:
        """Return how far along a way the top can slide and keep so clear, mm."""

        def lies(far: float) -> bool:
            there = self.moved(place, far * way)
            return self.stands(there) and self.room(there) >= least

        if not lies(_WORTH_A_MOVE):
            return 0.0
        step, reach = self.fit.core.width / 4, _WORTH_A_MOVE
        while lies(reach + step):  # no farther than to what is in the way
            reach += step
        return last_where(lies, reach, reach + step, _FINE)

    def nearest_way(self, place: Placement) -> Array:
        """Return the way, a unit vector, to what is nearest to the top in a place."""
        clear, normals = self._ways(place)
        return np.asarray(normals[clear.argmin()])

    def eased(self, place: Placement) -> Placement:
        """Return a place moved by the hair that a top which was turned straight may need."""
        return place if self.stands(place) else self.moved(place, best_step(self, place, _ABOUT)[0])

    def clearest(self, place: Placement) -> Placement:
        """Return a place moved, without turning, to where the top is clearest of the edges."""
        worth_it = _WORTH_A_MOVE if self.fit.clearance is None else _FINE / 10
        first, clear = _A_STEP * self.fit.core.width, float(self._ways(place)[0].min())
        if clear < -first:  # no step is so long
            return place
        return climbed(self, (clear, place), (first, worth_it), nothing=worth_it)[1]

    def fitted(self, place: Placement) -> tuple[float, Placement] | None:
        """Return how clear the top is where it stands in a place, mm."""
        return (float(self._ways(place)[0].min()), place) if self.stands(place) else None

    def moved(self, place: Placement, step: Array) -> Placement:
        """Return a place moved along and up, mm."""
        return replace(place, centre=place.centre + Point.of(step[:2]))

    def steps(self, place: Placement, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm, along and up; the last is what is won."""
        clear, normals = self._ways(place)
        left = clear - clear.min()
        near = left < 3 * trust
        rows = np.column_stack([normals[near], np.ones(int(near.sum()))])
        most = trust * np.ones(3)
        return Steps(np.array([0.0, 0.0, 1.0]), rows, left[near], most * [-1.0, -1.0, 0.0], most)

    def _ways(self, place: Placement) -> tuple[Array, Array]:
        """Return how far edges and corners of the wood near the top are from it, and which way.

        The distances are (k,) mm, the ways (k, 2) unit vectors: those to what it touches are square
        to the edges.
        """
        ring, core = place.of(self._about), self.fit.core
        sizes = (core.length / 2 + core.width, 1.5 * core.width)
        edges = self._around.within(np.array([*place.centre]), place.turn, sizes)
        edges = edges if len(edges) else self._around.edges
        own, corners = np.stack([ring, np.roll(ring, -1, axis=0)], axis=1), edges[:, 0]
        clear, deeper = ways_in(edges, ring, self.inner.holds_points(ring))
        out, into = ways_in(own, corners, Region.from_rings(ring).holds_points(corners))
        return np.concatenate([clear, -out]), -np.concatenate([deeper, into])
