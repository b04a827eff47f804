"""What a search returns: a found top and, never mixed with it, the bound that none can beat."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Path, Placement, Points, Region
from ..geometry.polygon import Polygon
from ..geometry.tolerance import CHORD
from ..outlines import Outline


@dataclass(frozen=True, slots=True)
class Bound:
    """A value that no top of the family within the limits can exceed; its own type on purpose."""

    value: float
    """In the unit of the goal: mm² for the largest, mm for the longest or widest."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A top proved inside the sound wood, and how far from the best it can be."""

    outline: Outline
    """The finished top, exact."""
    core: Outline
    """What is cut from the panel: the same as `outline` where there is no lipping. (For an oval the
    core line is the parallel curve of the finished oval and this is an oval that holds it.)"""
    placement: Placement
    """Where its centre lies on the panel and how far its long axis is turned from x."""
    score: float
    """What the goal counts, for the finished top: its area, mm², length or width, mm."""
    bound: Bound | None
    """What no top of this family can beat; None where it was not proved."""
    steps: int
    """Boxes that the search looked at."""
    clearance: float | None = None
    """Of an outline that comes in one size: from its edge to where the sound wood ends, mm; then
    `score` counts this, and `bound` is the most that any place gives."""

    @property
    def gap(self) -> float | None:
        """The share by which the bound stands above the score; None where nothing is proved.

        A clearance, which may be 0, has no share: see `clearance_gap`.
        """
        if self.bound is None or self.clearance is not None:
            return None
        return max(0.0, 1.0 - self.score / self.bound.value)

    @property
    def clearance_gap(self) -> float | None:
        """How far the bound of a clearance stands above it, mm; None where there is none."""
        if self.bound is None or self.clearance is None:
            return None
        return max(0.0, self.bound.value - self.clearance)

    @property
    def path(self) -> Path:
        """The exact edge of the finished top, on the panel."""
        return self.outline.line().placed(self.placement)

    @property
    def within(self) -> Region:
        """A polygon inside the core, on the panel."""
        return Region.from_rings(self.placement.of(self.core.inner(CHORD)))

    @property
    def polygon(self) -> Polygon:
        """The finished top on the panel as a shapely geometry, inside the true outline, mm."""
        return Region.from_rings(self.points()).shape

    def _repr_svg_(self) -> str:
        from ..drawing import layers
        from ..drawing.svg import glance

        return glance(repr(self), [(layers.FINISH, self.path, ())])

    def __repr__(self) -> str:
        """Return it in one line."""
        outline, middle = self.outline, self.placement.centre
        size = f"{outline.name} {outline.length:.1f} × {outline.width:.1f} mm"
        place = f"({middle.x:.1f}, {middle.y:.1f}), turned {math.degrees(self.placement.turn):.1f}°"
        gap = "" if self.gap is None else f", gap {self.gap:.2%}"
        return f"<Fit: {size} about {place}{gap}>"

    def points(self, tolerance: float = CHORD) -> Points:
        """Return a polygon of the finished top on the panel, (n, 2) mm, inside the true outline."""
        return self.placement.of(self.outline.inner(tolerance))
