"""The cutting plan: every cut of a job, in order, with its lines, guides and what falls off."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.polygon import Region
from ..marking.step import Step
from ..outlines import Outline
from ..panel.datum import Datum
from ..panel.panel import Panel
from .builds import build_steps
from .curves import core_path, curve_cuts, curve_kerf, rough_allowance, rough_path, rough_region
from .cut import CurveCut, Facet, SkippedTrim, Trim
from .edging import Edging, edging_of
from .facets import facets_of
from .feed import QuarterFeed, quarter_feeds
from .steps import steps_of
from .straight import Bench, straight_cuts
from .strips import SawLine, extent_of
from .tools import Tools


@dataclass(frozen=True, slots=True)
class CutPlan:
    """All cuts in order.

    Attributes
    ----------
    trims : tuple of Trim
        Straight cuts through the panel.
    skipped : tuple of SkippedTrim
        Sides that are not sawn, each with the reason.
    facets : tuple of Facet
    curve_cuts : tuple of CurveCut
        Jigsaw, then router.
    finish, core, rough : Path
        On the panel, closed: the finished edge, the line that is cut (the same without a lipping),
        and the line that the jigsaw follows.
    kerf, allowance : float
        Of the saw, and from the core line to the rough line, mm.
    blank : Region
        What is left of the panel after the straight cuts.
    saw_kerfs : tuple of Region
        What each cut turns to dust, in cutting order: trims, facets, then the jigsaw's ring. A band
        may overrun what is left of the panel.
    edging : Edging or None
        What goes round the edge, where it is lipped or a raw edge of board.
    feeds : tuple of QuarterFeed
        Which way the router goes round a solid top.
    steps : tuple of Step
        What to do at the bench, in order.
    """

    trims: tuple[Trim, ...]
    skipped: tuple[SkippedTrim, ...]
    facets: tuple[Facet, ...]
    curve_cuts: tuple[CurveCut, ...]
    finish: Path
    core: Path
    rough: Path
    kerf: float
    allowance: float
    blank: Region
    saw_kerfs: tuple[Region, ...]
    edging: Edging | None
    feeds: tuple[QuarterFeed, ...]
    steps: tuple[Step, ...]

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is dangerous about a cut, with the cut's label."""
        return tuple(f"{trim.label}: {text}" for trim in self.trims for text in trim.warnings)


def plan_cuts(
    panel: Panel,
    outline: Outline,
    placement: Placement,
    datum: Datum,
    tools: Tools,
    lipping: float = 0.0,
) -> CutPlan:
    """Return the cuts that take a finished top out of a panel.

    Parameters
    ----------
    panel : Panel
        With the thickness that it has when it is cut.
    outline : Outline
        The finished top.
    placement : Placement
    datum : Datum
    tools : Tools
    lipping : float
        The saw follows the core line, this far inside the finish line, mm.
    """
    bench = Bench(panel, datum, tools, outline, placement, lipping)
    cuts = straight_cuts(bench)
    facets = facets_of(bench, cuts)
    extent = extent_of(panel.region())
    blank = cuts.blank
    kerfs = [SawLine(cut.start.point, cut.waste).band(tools.kerf, extent) for cut in cuts.trims]
    for facet in facets:
        line = SawLine(facet.start, facet.waste)
        kerfs.append(line.band(tools.kerf, extent))
        blank = blank.minus(line.beyond(extent))
    core = core_path(outline, placement, lipping)
    curves = curve_cuts(bench, blank, core)
    ring = curve_kerf(bench, curves)
    if not ring.is_empty:
        kerfs.append(ring)
        blank = blank.meet(rough_region(bench))
    edging = edging_of(bench, cuts)
    return CutPlan(
        trims=cuts.trims,
        skipped=cuts.skipped,
        facets=facets,
        curve_cuts=curves,
        finish=outline.path().placed(placement),
        core=core,
        rough=rough_path(bench),
        kerf=tools.kerf,
        allowance=rough_allowance(bench),
        blank=blank,
        saw_kerfs=tuple(kerfs),
        edging=edging,
        feeds=quarter_feeds(bench),
        steps=(
            *build_steps(bench, cuts.trims, core),
            *steps_of(bench, cuts, facets, curves, edging),
        ),
    )
