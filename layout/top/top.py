"""The top: an outline in its place on the panel that it is cut from, of sizes as they are made."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cached_property, reduce

from ..fit.found import Fit
from ..fit.points import holds_all
from ..fit.wish import Limits, Span, Wish
from ..geometry import Path, Placement, Region
from ..geometry.polygon import Polygon
from ..geometry.tolerance import CHORD, SIZE_SLACK
from ..outlines import Outline
from ..panel import Panel, SoundWood, Spoils
from ..panel.datum import Datum
from .runs import Runs, out_of, runs_of

_LONG = 1.1
"""Length over width from which a top is seen to lie some way (our choice)."""


@dataclass(frozen=True)
class Top:
    """A top on its panel."""

    panel: Panel = field(metadata={"json": False})
    outline: Outline
    """The finished top as it is made; its sizes are those of the sheets."""
    exact: Outline | None = field(default=None, kw_only=True)
    """The finished top as it was found, before rounding; None where no search found it."""
    placement: Placement
    """Where its centre lies on the panel, and its turn."""
    lipping: float = 0.0
    """Thickness of the lipping round the core, mm; 0 for none."""
    kept: tuple[Path, ...] = field(default=(), metadata={"json": False})
    """Edges of the panel that stay, the wood on their left: nothing is cut where it lies on one."""

    def line(self, outside: float = 0.0) -> Path:
        """Return the true parallel of the finish line on the panel, mm outside it, or inside."""
        return self.outline.line(outside).placed(self.placement)

    @cached_property
    def finish(self) -> Path:
        """The finished edge, on the panel."""
        return self.line()

    @property
    def polygon(self) -> Polygon:
        """The finished top on the panel as a shapely geometry, inside the true outline, mm."""
        return Region.of(self.finish).shape

    @cached_property
    def core(self) -> Path:
        """The line that is cut, on the panel: `lipping` inside the finish line."""
        return self.line(-self.lipping)

    @cached_property
    def runs(self) -> Runs:
        """The core line, broken where it lies on edges that are kept."""
        return runs_of(self.core, self.kept)

    @property
    def area(self) -> float:
        """The area of the finished top, mm²."""
        return self.outline.area

    @property
    def thickness(self) -> float:
        """What it is made of is so thick, mm: flattened where it is, else as found."""
        return self.panel.made_thickness

    @property
    def mass(self) -> float:
        """The mass of the finished top, kg, a lipping weighed as the panel."""
        return self.panel.substance.mass(self.area, self.thickness)

    @property
    def grain(self) -> float:
        """Direction of the grain from the length of the top, radians."""
        return self.panel.grain - self.placement.turn

    @property
    def off_grain(self) -> float:
        """How far its length lies from the grain, radians: 0 to a quarter turn.

        0 for a top about as long as it is wide: it has no length that the eye follows.
        """
        is_long = self.outline.length > _LONG * self.outline.width
        return abs(math.remainder(self.grain, math.pi)) if is_long else 0.0

    def turn_from(self, datum: Datum) -> float:
        """Return how far its long axis turns from the datum, radians."""
        return self.placement.turn - datum.frame.turn

    def sound_for(self, *purposes: Spoils, tape_error: float = 0.0) -> SoundWood:
        """Return what of its panel is left for all of these purposes."""
        sound = (self.panel.sound_for(purpose, tape_error=tape_error) for purpose in purposes)
        return reduce(SoundWood.meet, sound)


def top_from(fit: Fit, panel: Panel, wish: Wish, *, step: float, tape_error: float = 0.0) -> Top:
    """Return the top that is made of a fit, its sizes rounded down to whole steps, mm.

    Not where the smaller one could let go of a point that it is to cover, or run its edge through a
    defect that lies wholly inside the found one. A tape may have been out by so much.
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
    octagon comes down to a whole size across its flats, and an outline that keeps its form stays
    as found. It needs no new proof: each family shrinks into itself about the same centre.
    """
    found = top.outline
    width = _rounded(found.width, limits.width, step)
    length = max(_rounded(found.length, limits.length, step), width)
    if found.is_round:
        outline = found.resized(length, length)
    elif found.free_sizes == 1:
        outline = _regular(found, limits, width)
    else:
        try:
            outline = found.resized(length, width)
        except ValueError:  # its corners would not fit, or it keeps its form
            outline = found
    if top.kept and found.free_sizes == 2:
        return _kept_on(top, outline, limits, step)
    return replace(top, outline=outline)


def _kept_on(top: Top, outline: Outline, limits: Limits, step: float) -> Top:
    """Return a found top made narrower, with its long side back on the edge.

    A capsule must be as much shorter, or its rounder ends stand out beyond those that were found.
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
    centre = top.placement.centre + out_of(edge) * ((found.width - outline.width) / 2)
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
