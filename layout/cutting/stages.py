"""What straight cuts take away, and what is left of a panel after them."""

from __future__ import annotations

import math

from .cut import StraightCut, Trim, TrimKind
from .strips import SawLine


def line_of(cut: StraightCut) -> SawLine:
    """Return the line of a straight cut: endless, but where it stops at a hollow corner."""
    start, end = cut.start.point, cut.end.point
    if not isinstance(cut, Trim) or not cut.kind.stops:
        return SawLine(start, cut.waste)
    corner, free = (start, end) if cut.kind is TrimKind.FROM_CORNER else (end, start)
    ahead = (free - corner).dot(cut.waste.left) > 0
    return SawLine(corner, cut.waste, (0.0, math.inf) if ahead else (-math.inf, 0.0))
