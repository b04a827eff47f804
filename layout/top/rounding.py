"""The top that is made: the fit's exact size, rounded down to sizes that a maker would choose."""

from __future__ import annotations

import math
from dataclasses import replace

from ..fit.found import Fit
from ..fit.points import holds_all
from ..fit.wish import Limits, Span, Wish
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, SIZE_SLACK
from ..outlines import Outline
from ..panel.panel import Panel
from .top import Top


def top_from(fit: Fit, panel: Panel, wish: Wish, *, step: float, tape_error: float = 0.0) -> Top:
    """Return the top that is made of a fit, its sizes rounded down where that loses nothing.

    A smaller top could let go of a point that it is to cover, or run its edge through a defect that
    lies wholly inside the found one; then it is made exactly as it was found.

    Parameters
    ----------
    step : float
        Sizes are whole steps of so many mm.
    tape_error : float
        How far any tape may have been out, mm.
    """
    found = Top(panel, fit.outline, fit.placement, wish.lipping, wish.kept, exact=fit.outline)
    top = _rounded_down(found, wish.limits, step)
    core = Region.from_rings(fit.placement.of(fit.core.inner(CHORD)))
    islands = (defect.reach(tape_error) for defect in panel.islands)
    held = [island for island in islands if core.holds(island)]
    held += [Region.at(point) for point in wish.covers]
    within = Region.from_rings(top.core.points(CHORD, "inside"))
    return top if not held or holds_all(within, held) else found


def _rounded_down(top: Top, limits: Limits, step: float) -> Top:
    """Return a found top with its sizes rounded down to whole steps, mm.

    A size that the limits fix is kept as it is, and none is rounded below its least. A hexagon or
    octagon comes down to a whole size across its flats, and an outline of the maker's own or a
    piece as found stays as it was found, for their forms are kept. The rounded top lies within the
    found one, so it needs no new proof: each family shrinks into itself when its length or width
    shrinks about the same centre.

    A long side that lies on an edge of the panel which is kept stays on it.
    """
    found = top.outline
    width = _rounded(found.width, limits.width, step)
    length = max(_rounded(found.length, limits.length, step), width)
    if found.is_round:
        outline = found.resized(length, length)
    elif found.free_sizes == 1:
        outline = _regular(found, limits, width)
    else:
        outline = found.resized(length, width) if _may_resize(found, length, width) else found
    if top.kept and found.free_sizes == 2:
        return _kept_on(top, outline, limits, step)
    return replace(top, outline=outline)


def _kept_on(top: Top, outline: Outline, limits: Limits, step: float) -> Top:
    """Return a found top made narrower, with its long side back on the edge.

    A capsule that is narrower by so much must be as much shorter, or its rounder ends stand out
    beyond those that were found.
    """
    found, edge = top.outline, top.kept[0]
    if found.arc_centres and not found.is_boxed:
        most = found.length - (found.width - outline.width)
        length = outline.length
        if length > most:
            length = _rounded(most, limits.length, step)
        if length > most or length < outline.width:
            return top
        outline = outline.resized(length, outline.width)
    out = -(edge.segments[-1].end - edge.segments[0].start).unit().left
    centre = top.placement.centre + out * ((found.width - outline.width) / 2)
    return replace(top, outline=outline, placement=replace(top.placement, centre=centre))


def _regular(found: Outline, limits: Limits, across_flats: float) -> Outline:
    """Return the regular top of a rounded width; as found where its length may not follow."""
    rounded = found.resized(found.length * across_flats / found.width, across_flats)
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
