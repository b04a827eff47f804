"""The top that is made: the fit's exact size, rounded down to sizes that a maker would choose."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..fit.found import Fit
from ..fit.wish import Limits, Span
from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.tolerance import SIZE_SLACK
from ..outlines import (
    Capsule,
    Circle,
    Outline,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
)


@dataclass(frozen=True, slots=True)
class Top:
    """A top on its panel.

    Attributes
    ----------
    outline : Outline
        The finished top as it is made; its sizes are those of the sheets.
    exact : Outline
        The finished top as it was found, before rounding.
    placement : Placement
        Where its centre lies on the panel, and its turn.
    lipping : float
        Thickness of the lipping round the core, mm; 0 for none.
    """

    outline: Outline
    exact: Outline
    placement: Placement
    lipping: float = 0.0

    @property
    def finish_line(self) -> Path:
        """The finish line on the panel."""
        return self.outline.path().placed(self.placement)

    @property
    def core_line(self) -> Path:
        """What is cut from the panel: the line `lipping` inside the finish line."""
        if self.lipping == 0:
            return self.finish_line
        return self.outline.parallel(-self.lipping).placed(self.placement)

    @property
    def area(self) -> float:
        """The area of the finished top, mm²."""
        return self.outline.area


def top_from(
    fit: Fit,
    limits: Limits,
    *,
    step: float,
    lipping: float,
    kept: tuple[Path, ...] = (),
) -> Top:
    """Return the top of a fit with its sizes rounded down to whole steps, mm.

    A size that the limits fix is kept as it is, and none is rounded below its least. A hexagon or
    octagon comes down to a whole size across its flats, and an outline of the maker's own or a
    piece as found stays as it was found, for their forms are kept. The rounded top lies within the
    found one, so it needs no new proof: each family shrinks into itself when its length or width
    shrinks about the same centre.

    A long side that lies on an edge of the panel which is kept, one of `kept`, stays on it.
    """
    found = fit.outline
    width = _rounded(found.width, limits.width, step)
    length = max(_rounded(found.length, limits.length, step), width)
    if isinstance(found, Circle):
        outline: Outline = Circle(max(width, _rounded(found.length, limits.length, step)))
    elif isinstance(found, RegularPolygon):
        outline = _regular(found, limits, width)
    else:
        outline = found.resized(length, width) if _may_resize(found, length, width) else found
    top = Top(outline, found, fit.placement, lipping)
    if kept and isinstance(outline, Rectangle | RoundedRectangle | Capsule):
        return _kept_on(top, kept[0], limits, step)
    return top


def _kept_on(top: Top, edge: Path, limits: Limits, step: float) -> Top:
    """Return a top narrower than found with its long side back on the edge.

    A capsule that is narrower by so much must be as much shorter, or its rounder ends stand out
    beyond those that were found.
    """
    found, outline = top.exact, top.outline
    if isinstance(found, Capsule):
        most = found.length - (found.width - outline.width)
        length = outline.length
        if length > most:
            length = _rounded(most, limits.length, step)
        if length > most or length < outline.width:
            return replace(top, outline=found)
        outline = outline.resized(length, outline.width)
    out = -(edge.segments[-1].end - edge.segments[0].start).unit().left
    centre = top.placement.centre + out * ((found.width - outline.width) / 2)
    return replace(top, outline=outline, placement=replace(top.placement, centre=centre))


def _regular(found: RegularPolygon, limits: Limits, across_flats: float) -> RegularPolygon:
    """Return the regular top of a rounded width; as found where its length may not follow."""
    rounded = RegularPolygon(found.sides, across_flats)
    fixed = limits.length.least == limits.length.greatest
    return found if fixed or rounded.length < limits.length.least - SIZE_SLACK else rounded


def _rounded(size: float, limit: Span, step: float) -> float:
    """Return the size in whole steps, at least `limit.least`; as found where that is impossible."""
    if step <= 0 or limit.least == limit.greatest:
        return size
    rounded = math.floor((size + SIZE_SLACK) / step) * step
    return rounded if rounded > 0 and rounded >= limit.least - SIZE_SLACK else size


def _may_resize(found: Outline, length: float, width: float) -> bool:
    """Return whether the corners of an outline still fit on a smaller one."""
    try:
        found.resized(length, width)
    except ValueError:
        return False
    return True
