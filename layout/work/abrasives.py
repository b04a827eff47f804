"""Sanding: the grits from the first to the last, and how far a sheet or disc of each goes."""

from __future__ import annotations

import math

from ..panel import Coat, Kind, Panel

GRITS = (40, 60, 80, 100, 120, 150, 180, 220, 240, 320)
"""Grits that are sold (FEPA 43-1, P-grades, from memory)."""

STEP = 1.5
"""No grit is more than so many times the one before it, or its scratches stay (common practice)."""

AS_FLATTENED, AS_FOUND, VENEER = 60, 80, 150
"""The first grit on wood that was just flattened or stripped, on sound wood, and on veneer, which
nothing coarser may touch (common practice)."""

DISC_AREA = 0.5
"""What one sheet or disc of bare wood sands before it is dull, m² (common practice: between 0.3
and 0.8); coarse ones, that level, last half as long."""

COARSE = 80
"""Grits up to this count as coarse."""


def first_grit(panel: Panel, *, stripped: bool) -> int:
    """Return the grit that sanding starts with on a panel."""
    if panel.build.kind is Kind.VENEERED:
        return VENEER
    if Coat.LAMINATE in panel.finish:
        return 120
    return AS_FLATTENED if panel.flattened is not None or stripped else AS_FOUND


def grits_between(first: int, last: int) -> tuple[int, ...]:
    """Return the grits from the first to the last, as few as may be.

    >>> grits_between(80, 180), grits_between(60, 150), grits_between(150, 150)
    ((80, 120, 180), (60, 80, 120, 150), (150,))
    """
    grits = [first]
    while grits[-1] < last:
        near = (grit for grit in GRITS if grits[-1] < grit <= min(grits[-1] * STEP, last))
        grits.append(max(near, default=last))
    return tuple(grits)


def lasts(grit: int, disc_area: float = DISC_AREA) -> float:
    """Return what one sheet or disc of a grit sands, m²."""
    return disc_area / 2 if grit <= COARSE else disc_area


def discs(area: float, each: float) -> int:
    """Return how many sheets or discs an area takes of which each sands so much, m².

    >>> discs(1.6, lasts(120)), discs(1.6, lasts(60))
    (4, 7)
    """
    return math.ceil(area / each - 1e-9)
