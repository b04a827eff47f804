"""From a top on a kept line to a fit: the exact outline, proved inside the wood.

The outer polygon of the top is held against the inner polygon of the wood. A top that touches is
drawn in all round, at most by what the tolerance policy allows; the size it then has is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, PROOF_CHORD, ROUNDING
from ...geometry.turned_box import half_turn
from ...outlines import Capsule, Outline, Rectangle, RoundedRectangle
from ...panel.sound import SoundWood
from ..found import Fit
from ..points import holds_all
from .line import KeptLine
from .standing import Standing

_REDUCTIONS = (
    (0.0, CHORD),
    (ROUNDING, CHORD),
    (4 * ROUNDING, CHORD),
    (PROOF_CHORD + 4 * ROUNDING, PROOF_CHORD),
    (CHORD + 4 * ROUNDING, CHORD),
    (PROOF_ALLOWANCE / 2, CHORD),
)
"""By how much the sides are drawn in, and how far the polygon may lie from the top, mm, tried in
turn; the two ends of a kept line lie metres apart, so that rounding counts there."""

_SQUARE = 10 * ROUNDING
"""A corner of a smaller radius than this is square, mm."""


def finished(
    top: Standing,
    line: KeptLine,
    wood: SoundWood,
    held: Sequence[Region],
    shape: str,
    score: Callable[[Standing], float],
) -> Fit | None:
    """Return a top proved inside the wood and round what it must hold, or None."""
    centre = line.frame(Point(top.middle, top.width / 2))
    placement = Placement(centre, half_turn(line.frame.turn))
    for reduced, chord in _REDUCTIONS:
        smaller = _drawn_in(top, reduced, shape)
        outline = _outline(smaller, shape)
        if not wood.inner.holds(Region.from_rings(placement.of(outline.outer(chord)))):
            continue
        within = Region.from_rings(placement.of(outline.inner(CHORD)))
        if not holds_all(within, held):
            return None
        return Fit(outline, outline, placement, score(smaller), None, 0)
    return None


def _drawn_in(top: Standing, by: float, shape: str) -> Standing:
    """Return the top with all its sides moved in; the corners of a capsule stay half circles."""
    width = top.width - 2 * by
    length = max(top.length - 2 * by, width)
    radius = width / 2 if shape == "capsule" else min(top.radius, width / 2)
    if radius < _SQUARE:
        radius = 0.0
    return Standing(top.middle, length, width, radius)


def _outline(top: Standing, shape: str) -> Outline:
    if shape == "rectangle":
        return Rectangle(top.length, top.width)
    if shape == "capsule":
        return Capsule(top.length, top.width)
    return RoundedRectangle.with_radius(top.length, top.width, top.radius)
