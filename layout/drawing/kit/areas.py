"""Regions of a panel as areas of a drawing."""

from __future__ import annotations

from collections.abc import Iterable

from ...geometry.path import Path
from ...geometry.placement import Points
from ...geometry.polygon import Region
from ...geometry.simplify import fewer
from ..scene import Area
from .frame import DrawingFrame

_FINE = 0.02
"""So few points draw a shaded area that no edge of it lies farther off, mm on paper."""


def areas_of(region: Region, frame: DrawingFrame, *, edged: bool = True) -> tuple[Area, ...]:
    """Return the pieces of a region on the panel as areas on paper; none of crumbs of one place."""

    def drawn(rings: Iterable[Points]) -> tuple[Path, ...]:
        seen = (fewer(ring, _FINE * frame.scale) for ring in rings)
        return tuple(frame.of(Path.through_ring(ring)) for ring in seen if len(ring) > 2)

    pieces = ((drawn([piece.exterior]), piece.holes) for piece in region.pieces)
    return tuple(Area(edge[0], drawn(holes), edged=edged) for edge, holes in pieces if edge)
