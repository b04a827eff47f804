"""Of tops that are equally good, the one a maker would choose: the plainest, first by place.

Where limits hold a top back it can lie in many places, and a search ends at whichever it met first;
a maker would lay it along the grain or square with the panel, in the middle. And in a panel that
looks the same mirrored or turned half round, every top that does not lie in its middle has twins;
which one is met, the last bit of a sum may tell. So of those that are proved to fit as well the
first along, then up, is taken.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import NamedTuple

import numpy as np

from ..geometry.alike import first_of_best
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, PROOF_CHORD, ROUNDING, SAME_PLACE
from .found import Fit
from .points import holds_all
from .wish import Limits
from .wood.edges import Array

_ALIKE = 1e-9
"""Radians within which two tops lie equally far from the grain."""


class Place(NamedTuple):
    """Where a top may be tried."""

    turn: float
    """Of its length from x, radians."""
    centre: Array
    """(2,) array: mm."""
    in_the_middle: bool
    """Whether that is the middle of the wood both ways."""


def plain_places(
    edges: Array, limits: Limits, turn: float, centre: Array, quarters: int = 2
) -> Iterator[Place]:
    """Yield places for a top, the plainest first; its own is the last.

    Turns along the grain and along the longest edge go before its own; for each, the middle of the
    wood both ways before one way before its own centre.

    Parameters
    ----------
    edges : (n, 2, 2) array
        Of the wood.
    turn, centre : float, (2,) array
        Those of the top.
    quarters : int
        Quarter turns after which it looks the same: 2, or 4 for one without half-turn symmetry.
    """
    sizes = np.hypot(*(edges[:, 1] - edges[:, 0]).T)
    longest = first_of_best(
        edges[sizes >= sizes.max() - 2 * SAME_PLACE],
        lambda edge: math.dist(edge[0], edge[1]),
        lambda edge: (edge[0] + edge[1]) / 2,
        tolerance=SAME_PLACE,
    )
    along = math.atan2(*(longest[1] - longest[0])[::-1])
    square = [
        base + quarter * math.pi / 2
        for base in (limits.grain, along)
        for quarter in range(quarters)
    ]
    allowed = [way for way in square if abs(limits.off_grain(way)) <= limits.most_turn + 1e-12]
    for way in (*allowed, turn):
        onto = np.array([[math.cos(way), -math.sin(way)], [math.sin(way), math.cos(way)]])
        seen = edges.reshape(-1, 2) @ onto
        middle, here = (seen.min(axis=0) + seen.max(axis=0)) / 2, centre @ onto
        for x, y in product((middle[0], here[0]), (middle[1], here[1])):
            is_middle = bool(x == middle[0] and y == middle[1])
            yield Place(way, np.array([x, y]) @ onto.T, is_middle)


def in_plainest_place(fit: Fit, inner: Region, limits: Limits, held: Sequence[Region]) -> Fit:
    """Return the same top in the plainest place where it is proved to fit too.

    Parameters
    ----------
    inner : Region
        The inner polygon of the sound wood.
    held : sequence of Region
        Parts that must lie inside the core.
    """
    own, stands = np.array([*fit.placement.centre]), _standing(fit, inner, held)
    for place in plain_places(inner.edges, limits, fit.placement.turn, own):
        there = Placement(Point.of(place.centre), math.remainder(place.turn, math.pi) + 0.0)
        if stands(there):
            return replace(fit, placement=there)
    return fit


def first_twin(
    fit: Fit, inner: Region, limits: Limits, held: Sequence[Region], *, mirrors: bool
) -> Fit:
    """Return the first by place of a top and its twins.

    Parameters
    ----------
    mirrors : bool
        Whether the outline looks the same mirrored about its axes; else it only turns half round.
    """
    coarse, stands = fit.core.outer(CHORD), _standing(fit, inner, held)

    def room(place: Placement) -> float:
        return inner.edge_distance(Region.from_rings(place.of(coarse)))

    def is_as_good(twin: Placement) -> bool:
        return (
            abs(limits.off_grain(twin.turn)) <= abs(limits.off_grain(fit.placement.turn)) + _ALIKE
            and stands(twin)
            and room(twin) >= room(fit.placement) - ROUNDING
        )

    twins = (twin for twin in _twins(fit.placement, inner, mirrors) if is_as_good(twin))
    reach = fit.outline.length / 2  # a turn counts by what it moves an end
    first = first_of_best(
        [fit.placement, *twins],
        lambda _: 0.0,
        lambda place: (*place.centre, place.turn * reach),
        tolerance=0.0,
    )
    return replace(fit, placement=first)


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


def _standing(fit: Fit, inner: Region, held: Sequence[Region]) -> Callable[[Placement], bool]:
    """Return what tells whether a top is proved to fit in another place, and to hold its parts."""
    rings = [fit.core.outer(chord) for chord in (CHORD, PROOF_CHORD)]
    within = fit.core.inner(CHORD)

    def stands(place: Placement) -> bool:
        return any(inner.holds(Region.from_rings(place.of(ring))) for ring in rings) and holds_all(
            Region.from_rings(place.of(within)), held
        )

    return stands
