"""From a polished rectangle to a fit: the straight one of tops as good, trimmed and proved."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from ...geometry.turned_box import half_turn
from ...outlines import Outline, Rectangle, RoundedRectangle
from ...panel.sound import SoundWood
from ..found import Fit
from ..proof import Drawn, until_proved
from .held import Held
from .local_search import Polisher

_STRAIGHT = 0.05
"""mm: a top that leaves a direction by no more over its length may be meant to have it."""
_NEGLIGIBLE = 0.002
"""mm that a size may lose for a straight direction."""


def finished(
    wood: SoundWood, polisher: Polisher, held: Held, parts: Sequence[Region] = ()
) -> Fit | None:
    """Return the top proved inside and round the parts it must hold; None if it is too small."""
    held = polisher.trimmed(held)
    placement = Placement(Point.of(held.centre), half_turn(held.turn + math.pi / 2))
    lipping = 2 * polisher.lipping

    def drawn_in(by: float) -> Drawn | None:
        smaller = polisher.trimmed(held.drawn_in(by))
        score = polisher.score(smaller)
        if score == -math.inf:
            return None
        length, width = polisher.length(smaller), polisher.width(smaller)
        core = outline(length - lipping, width - lipping, polisher.clearance(held.radius))
        return Drawn(outline(length, width, held.radius), core, placement, score)

    return until_proved(drawn_in, wood, parts)


def outline(length: float, width: float, radius: float) -> Outline:
    """Return a rectangle of those sizes and corners, mm; square ones where they are sharp."""
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))


def straightened(polisher: Polisher, held: Held) -> Held:
    """Return the top turned to the direction of an axis or edge that it all but has.

    It is polished again at just that turn, and left as it was where that costs more than a
    tape could ever tell.
    """
    long = held.turn + math.pi / 2
    way = polisher.edges.end - polisher.edges.start
    order = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)
    edges = np.arctan2(way[order, 1], way[order, 0])
    for direction in (0.0, *edges):
        off = math.remainder(direction - long, math.pi / 2)
        if abs(off) * polisher.length(held) < _STRAIGHT:
            turn = float(np.clip(_exact(long + off, direction) - math.pi / 2, *polisher.turns))
            there = polisher.fitted(replace(held, turn=turn))
            if there is None:
                return held
            there = replace(polisher, turns=(turn, turn)).polished(there)
            lost = polisher.score(held) - polisher.score(there)
            worse = polisher.missed(there) > max(polisher.missed(held), ROUNDING)
            small = lost <= _NEGLIGIBLE / polisher.length(held) * polisher.score(held)
            return there if small and not worse else held
    return held


def _exact(near: float, direction: float) -> float:
    """Return the direction plus the quarter turns that bring it near, without rounding for none."""
    quarters = round((near - direction) / (math.pi / 2))
    return direction + quarters * (math.pi / 2)
