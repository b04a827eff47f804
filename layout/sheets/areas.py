"""Regions of a panel as areas of a drawing."""

from __future__ import annotations

from ..drawing.scene import Area
from ..geometry.path import Path
from ..geometry.placement import Points
from ..geometry.polygon import Region
from ..geometry.simplify import fewer
from .frame import DrawingFrame

_FINE = 0.02
"""So few points draw a shaded area that no edge of it lies farther off, mm on paper."""


def areas_of(region: Region, frame: DrawingFrame, *, edged: bool = True) -> tuple[Area, ...]:
    """Return the pieces of a region on the panel as areas on paper."""

    def drawn(ring: Points) -> Path:
        return frame.of(Path.through_ring(fewer(ring, _FINE * frame.scale)))

    return tuple(
        Area(drawn(piece.exterior), tuple(map(drawn, piece.holes)), edged=edged)
        for piece in region.pieces
    )
