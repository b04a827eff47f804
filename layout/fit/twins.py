"""Of mirrored tops that are equally good, the one that is named: the first along, then up.

In a panel that looks the same mirrored or turned half round, every top that does not lie in its
middle has twins, and a search ends at whichever it met first: which one, the last bit of a sum may
tell. So the twins of the top found are tried, and of those that are proved to fit as well the first
by place is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..geometry.alike import first_of_best
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, PROOF_CHORD, ROUNDING, SAME_PLACE
from .found import Fit
from .points import holds_all
from .wish import Limits

_ALIKE = 1e-9
"""Radians within which two tops lie equally far from the grain."""


def first_twin(
    fit: Fit, inner: Region, limits: Limits, held: Sequence[Region], *, mirrors: bool
) -> Fit:
    """Return the first by place of a top and its twins.

    Parameters
    ----------
    inner : Region
        The inner polygon of the sound wood.
    mirrors : bool
        Whether the outline looks the same mirrored about its axes; else it only turns half round.
    """
    coarse, fine = fit.core.outer(CHORD), fit.core.outer(PROOF_CHORD)
    within = fit.core.inner(CHORD)

    def room(one: Fit) -> float:
        return inner.edge_distance(Region.from_rings(one.placement.of(coarse)))

    def is_as_good(twin: Fit) -> bool:
        place = twin.placement
        return (
            _off(twin, limits) <= _off(fit, limits) + _ALIKE
            and any(inner.holds(Region.from_rings(place.of(ring))) for ring in (coarse, fine))
            and holds_all(Region.from_rings(place.of(within)), held)
            and room(twin) >= room(fit) - ROUNDING
        )

    alike = [fit, *(twin for twin in _twins(fit, inner, mirrors) if is_as_good(twin))]
    reach = fit.outline.length / 2  # a turn counts by what it moves an end
    return first_of_best(
        alike,
        lambda _: 0.0,
        lambda f: (*f.placement.centre, f.placement.turn * reach),
        tolerance=0.0,
    )


def _twins(fit: Fit, inner: Region, mirrors: bool) -> Iterator[Fit]:
    """Yield the top mirrored about the middle of the wood, both ways and each way."""
    middle, place = inner.bounds.middle, fit.placement
    for x, y in ((-1, -1), (-1, 1), (1, -1)):
        if x * y < 0 and not mirrors:
            continue
        centre = Point(
            middle.x + x * (place.centre.x - middle.x), middle.y + y * (place.centre.y - middle.y)
        )
        turn = place.turn + math.pi if not mirrors else x * y * place.turn
        moved = centre.distance_to(place.centre) > SAME_PLACE
        if moved or x * y < 0 or not mirrors:
            yield replace(fit, placement=Placement(centre, math.remainder(turn, math.tau) + 0.0))


def _off(fit: Fit, limits: Limits) -> float:
    return abs(math.remainder(fit.placement.turn - limits.grain, math.pi))
