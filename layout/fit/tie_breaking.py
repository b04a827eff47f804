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
from ..geometry.tolerance import ROUNDING, SAME_PLACE
from .found import Fit
from .stand import period_of
from .tried import Tried
from .wish import Limits
from .wood.edges import Array

_ALIKE = 1e-9
"""Radians within which two tops lie equally far from the grain."""
_SAME = 1e-7
"""Share of its width by which a top that is turned may reach farther or less and be the same."""
_NEAR, _EDGES = 0.02, 12
"""Radians from which a top is turned straight, and how many of the longest edges to."""


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
