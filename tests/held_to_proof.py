"""Whether a found top is proved: one of the polygons that a proof may use lies in the wood."""

from __future__ import annotations

from panelwright.layout.fit import Fit
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD, PROOF_CHORD


def is_proved(fit: Fit, wood: Region) -> bool:
    """Return whether an outer polygon of the core, coarse or fine, lies within the wood."""
    return any(
        wood.holds(Region.from_rings(fit.placement.of(fit.core.outer(chord))))
        for chord in (CHORD, PROOF_CHORD)
    )
