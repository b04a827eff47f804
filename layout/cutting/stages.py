"""What straight cuts take away, and what is left of a panel after them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..geometry.polygon import Region
from ..panel.panel import Panel
from .cut import StraightCut, Trim, TrimKind
from .strips import SawLine, extent_of


def line_of(cut: StraightCut) -> SawLine:
    """Return the line of a straight cut: endless, but where it stops at a hollow corner."""
    start, end = cut.start.point, cut.end.point
    if not isinstance(cut, Trim) or not cut.kind.stops:
        return SawLine(start, cut.waste)
    corner, free = (start, end) if cut.kind is TrimKind.FROM_CORNER else (end, start)
    ahead = (free - corner).dot(cut.waste.left) > 0
    return SawLine(corner, cut.waste, (0.0, math.inf) if ahead else (-math.inf, 0.0))


def taken(line: SawLine, extent: float, kerf: float, *, stops: bool = False) -> Region:
    """Return what is gone when a line is sawn: all beyond it, or the kerf alone where it stops."""
    return line.band(kerf, extent) if stops else line.beyond(extent)


def wood_after(panel: Panel, cuts: Sequence[StraightCut]) -> Region:
    """Return what is left of a panel when these cuts are made."""
    left = panel.region()
    extent = extent_of(left)
    for cut in cuts:
        stops = isinstance(cut, Trim) and cut.kind.stops
        left = left.minus(taken(line_of(cut), extent, cut.kerf, stops=stops))
    return left
