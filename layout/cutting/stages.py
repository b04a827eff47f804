"""What straight cuts take away, and what is left of a panel after them."""

from __future__ import annotations

from collections.abc import Sequence

from ..geometry.polygon import Region
from ..panel.panel import Panel
from .cut import Facet, Trim, TrimKind
from .strips import SawLine, extent_of


def line_of(cut: Trim | Facet) -> SawLine:
    """Return the line of a straight cut: endless, but where it stops at a hollow corner."""
    if isinstance(cut, Facet):
        return SawLine(cut.start, cut.waste)
    at, to = cut.start.point, cut.end.point
    if cut.kind is TrimKind.FROM_CORNER:
        return SawLine(at, cut.waste, (0.0, float("inf")))
    if cut.kind is TrimKind.TO_CORNER:
        return SawLine(to, cut.waste, (-float("inf"), 0.0))
    return SawLine(at, cut.waste)


def taken(cut: Trim | Facet, extent: float) -> Region:
    """Return what is gone when a cut is made: its kerf and all that falls off with it."""
    line = line_of(cut)
    if isinstance(cut, Trim) and cut.kind.stops:
        return line.band(cut.kerf, extent)
    return line.beyond(extent)


def wood_after(panel: Panel, trims: Sequence[Trim], facets: Sequence[Facet] = ()) -> Region:
    """Return what is left of a panel when these cuts are made."""
    left = panel.region()
    extent = extent_of(left)
    cuts: tuple[Trim | Facet, ...] = (*trims, *facets)
    for cut in cuts:
        left = left.minus(taken(cut, extent))
    return left
