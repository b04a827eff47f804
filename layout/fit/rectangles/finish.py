"""From a polished rectangle to a fit: the exact outline, trimmed to the limits and proved."""

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
from .held import Held
from .local_search import Polisher


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
