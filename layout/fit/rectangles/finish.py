"""From a polished rectangle to a fit: trimmed and proved."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.turned_box import half_turn
from ...outlines import Outline, Rectangle, RoundedRectangle
from ...panel.sound import SoundWood
from ..found import Fit
from ..proof import Drawn, until_proved
from .inner import Inner
from .local_search import Polisher


def finished(
    wood: SoundWood, polisher: Polisher, top: Inner, parts: Sequence[Region] = ()
) -> Fit | None:
    """Return the top proved inside and round the parts it must hold; None if it is too small."""
    placement = Placement(Point.of(top.centre), half_turn(top.turn + math.pi / 2))
    lipping = 2 * polisher.lipping

    def drawn_in(by: float) -> Drawn | None:
        smaller = polisher.trimmed(top.drawn_in(by))
        score = polisher.score(smaller)
        if score == -math.inf:
            return None
        length, width = polisher.of_size(smaller)
        core = outline(length - lipping, width - lipping, polisher.clearance(top.radius))
        return Drawn(outline(length, width, top.radius), core, placement, score)

    return until_proved(drawn_in, wood, parts)


def outline(length: float, width: float, radius: float) -> Outline:
    """Return a rectangle of those sizes and corners, mm; square ones where they are sharp."""
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))
