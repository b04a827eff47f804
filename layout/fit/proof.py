"""From a top found to a fit: the exact outline, drawn in by a hair where need be, proved inside.

Exact contact cannot be proved with polygons. So a top that touches is drawn in, at most by what the
tolerance policy allows, until the outer polygon of its core lies in the inner polygon of the wood;
the size it then has is the size that is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from ..geometry import Placement, Region
from ..geometry.tolerance import CHORD, INSETS, ROUNDING
from ..outlines import Outline
from ..panel.sound import SoundWood
from .found import Fit
from .points import holds_all


class Drawn(NamedTuple):
    """A top whose edge is drawn in by a hair."""

    outline: Outline
    core: Outline
    placement: Placement
    score: float


def until_proved(
    drawn_in: Callable[[float], Drawn | None],
    wood: SoundWood,
    held: Sequence[Region] = (),
    proof: Callable[[Region], Region] = lambda whole: whole,
    *,
    spare: bool = False,
) -> Fit | None:
    """Return a top proved inside the wood and round the parts that its core must hold, or None.

    `drawn_in` gives the top with its edge drawn in by so much, mm, if there is one; `proof`, of a
    polygon round its core, what must be proved. With `spare` it is drawn in by a hair at least: a
    top that touches and no more would be proved or not by the last bit of a sum.
    """
    for by, chord in INSETS:
        top = drawn_in(max(by, ROUNDING) if spare else by)
        if top is None:
            continue
        around = Region.from_rings(top.placement.of(top.core.outer(chord)))
        if not wood.inner.holds(proof(around)):
            continue
        within = Region.from_rings(top.placement.of(top.core.inner(CHORD)))
        if not holds_all(within, held):
            return None
        return Fit(top.outline, top.core, top.placement, top.score, None, 0)
    return None
