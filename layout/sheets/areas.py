"""Regions of a panel as areas of a drawing."""

from __future__ import annotations

from ..drawing.scene import Area
from ..geometry.path import Path
from ..geometry.polygon import Region
from ..geometry.simplify import simplified
from .frame import DrawingFrame

_FINE = 0.02
"""Corners nearer to a straight line than this are left out of a shaded area, mm on paper."""


def areas_of(region: Region, frame: DrawingFrame, *, edged: bool = True) -> tuple[Area, ...]:
    """Return the pieces of a region on the panel as areas on paper."""
    coarse = simplified(region, _FINE * frame.scale)
    return tuple(
        Area(
            frame.of(Path.through_ring(piece.exterior)),
            tuple(frame.of(Path.through_ring(hole)) for hole in piece.holes),
            edged=edged,
        )
        for piece in coarse.pieces
    )
