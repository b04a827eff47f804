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


def taken(line: SawLine, extent: float, kerf: float, *, stops: bool = False) -> Region:
    """Return what is gone when a line is sawn: all beyond it, or the kerf alone where it stops."""
    return line.band(kerf, extent) if stops else line.beyond(extent)


def wood_after(panel: Panel, trims: Sequence[Trim], facets: Sequence[Facet] = ()) -> Region:
    """Return what is left of a panel when these cuts are made."""
    left = panel.region()
    extent = extent_of(left)
    for trim in trims:
        left = left.minus(taken(line_of(trim), extent, trim.kerf, stops=trim.kind.stops))
    for facet in facets:
        left = left.minus(line_of(facet).beyond(extent))
    return left
