"""From a pose to a fit: the outline at its own size, proved inside, and its clearance measured.

Exact contact cannot be proved with polygons, and an outline of one size cannot be made smaller. So
where it touches, the outline drawn in all round by a hair, at most by what the tolerance policy
allows, is proved inside, and its clearance is called 0.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...geometry.placement import Placement
from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ...panel.sound import SoundWood
from ..found import Fit
from ..points import holds_all

_STEPS = (ROUNDING, CHORD + ROUNDING, PROOF_ALLOWANCE)
"""How far the outline is drawn in, mm, tried in turn."""


def proved(
    own: Outline, placement: Placement, wood: SoundWood, held: Sequence[Region] = ()
) -> Fit | None:
    """Return the outline in a place, proved inside the wood and round what it holds, or None."""
    whole = Region.from_rings(placement.of(own.outer(CHORD)))
    within = Region.from_rings(placement.of(own.inner(CHORD)))
    if not holds_all(within, held):
        return None
    if wood.inner.holds(whole):
        clearance = wood.inner.edge_distance(whole)
    elif any(wood.inner.holds(whole.shrunk(step, around=True)) for step in _STEPS):
        clearance = 0.0
    else:
        return None
    return Fit(own, own, placement, clearance, None, 0, clearance)
