"""What is left of a panel after its straight cuts."""

from __future__ import annotations

from collections.abc import Sequence

from ..geometry.polygon import Region
from ..panel.panel import Panel
from .cut import Facet, Trim
from .strips import SawLine, extent_of


def wood_after(panel: Panel, trims: Sequence[Trim], facets: Sequence[Facet] = ()) -> Region:
    """Return what is left of a panel when these cuts are made."""
    left = panel.region()
    extent = extent_of(left)
    starts = [(trim.start.point, trim.waste) for trim in trims]
    starts += [(facet.start, facet.waste) for facet in facets]
    for at, waste in starts:
        left = left.minus(SawLine(at, waste).beyond(extent))
    return left
