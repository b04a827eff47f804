"""Sound wood with fewer corners, for questions that need no hundredth of a millimetre.

The inner polygon is drawn in a little and the outer one let out, and either loses the corners that
then tell nothing: what is proved or bounded in them still is.
"""

from __future__ import annotations

import math

from ..geometry.polygon import Region
from ..geometry.tolerance import ROUNDING
from ..panel.sound import SoundWood

FINE = 2e-5
"""Share of the wood's diagonal that either polygon moves by at most twice: 0.04 mm on 2 m."""

_FEWER = 0.7
"""A polygon that keeps more of its edges than this share is left as it was."""
_SEGMENTS = 8
"""Of a quarter round a corner: more would be left out again."""


def coarser(wood: SoundWood, share: float = FINE, *, outer_only: bool = False) -> SoundWood:
    """Return the sound wood between two polygons a little farther apart, with fewer corners.

    An edge may be moved by that share of the wood's diagonal beyond what must be. With `outer_only`
    the inner polygon stays: then tops lose nothing, and bounds rise a little.
    """
    if wood.inner.is_empty or wood.outer.is_empty:
        return wood
    by = share * math.hypot(wood.outer.bounds.width, wood.outer.bounds.height)
    inner, outer = wood.inner, wood.outer.roughly(by + ROUNDING, _SEGMENTS).simplified(by)
    if not outer_only:
        inner = inner.roughly(-by - ROUNDING, _SEGMENTS).simplified(by)
    less_within = _is_worth_it(inner, wood.inner) and wood.inner.holds(inner)
    less_around = _is_worth_it(outer, wood.outer) and outer.holds(wood.outer)
    return SoundWood(inner if less_within else wood.inner, outer if less_around else wood.outer)


def _is_worth_it(fewer: Region, region: Region) -> bool:
    return not fewer.is_empty and len(fewer.edges) <= _FEWER * len(region.edges)
