"""The line of a router template: the true parallel of the outline at a bush's offset."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..errors import LayoutError
from ..geometry.path import Path
from ..top import Top

_SAMPLES = 4000
"""Points of a quarter of an oval that a template is held against: good to 1e-4 mm."""


@dataclass(frozen=True, slots=True)
class TemplateGuide:
    """A template that a bush or bearing follows."""

    bush: float
    cutter: float
    """Diameters of the bush or bearing and of the bit, mm."""
    offset: float
    """How far the template stands inside the line that is cut, mm; outside where negative."""
    line: Path
    """Its edge on the panel: the true parallel."""
    length: float
    width: float
    """Of the template, mm."""
    off_oval: float
    """How far an oval drawn anew with that length and width would be out, mm; 0 for other shapes
    and where there is no offset."""

    @classmethod
    def of(cls, top: Top, bush: float, cutter: float) -> TemplateGuide:
        """Return the template for the core of a finished top.

        Raises
        ------
        LayoutError
            If a diameter is not above 0, or nothing is left of the outline so far inside.
        """
        offset = bush_offset(bush, cutter)
        own = top.outline.line(-top.lipping - offset)
        bounds = own.bounds
        off = _off_oval(own, bounds.width, bounds.height) if top.outline.foci else 0.0
        line = own.placed(top.placement)
        return cls(bush, cutter, offset, line, bounds.width, bounds.height, off)


def _off_oval(line: Path, length: float, width: float) -> float:
    """Return the farthest that a line lies from the oval of its own length and width, mm."""
    points = np.abs(line.points(0.05))
    angles = np.linspace(0.0, math.pi / 2, _SAMPLES)
    oval = np.column_stack((length / 2 * np.cos(angles), width / 2 * np.sin(angles)))
    gaps = [np.hypot(*(oval - point).T).min() for point in points[:: max(1, len(points) // 200)]]
    return float(max(gaps))


def bush_offset(bush: float, cutter: float) -> float:
    """Return how far a guide bush or bearing keeps the cutter from its template, mm.

    Half the difference of the diameters (common practice): positive for a guide bush, 0 for a
    bearing of the cutter's own size, negative for a smaller one.

    Raises
    ------
    LayoutError
        If a diameter is not above 0.

    Examples
    --------
    >>> bush_offset(bush=24.0, cutter=12.0)
    6.0
    """
    if min(bush, cutter) <= 0:
        raise LayoutError(f"a bush of {bush:g} and a cutter of {cutter:g} mm are above 0 both")
    return (bush - cutter) / 2
