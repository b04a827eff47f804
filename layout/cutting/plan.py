"""The cutting plan: every cut of a job, in order, with its lines, guides and what falls off."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..geometry.path import Path
from ..geometry.polygon import Region
from ..marking.marks import StringKit, marks_for
from ..marking.step import Step
from ..panel.build import Kind
from ..panel.datum import Datum
from ..top import Top
from ..units import Tape
from .again import MarkedAgain
from .bench import Bench
from .builds import FrameJoint, RimLoss, UnknownFrame, frame_joints, knows_frame, rim_loss
from .curve_steps import curve_step, facets_step
from .curves import curve_cuts, curve_kerf
from .cut import CurveCut, Facet, SkippedTrim, Trim, TrimKind
from .edging import Edging, edging_of
from .facets import facets_of
from .feed import QuarterFeed, quarter_feeds
from .kept_edges import KeptEdge, kept_edges
from .mending import Mended, mends_for
from .rough import rough_allowance, rough_line, rough_region
from .stages import line_of
from .steps import flatten_step, rest_step, skipped_step, trim_step
from .straight import StraightCuts, straight_cuts
from .strips import extent_of
from .tools import Tools
from .work_face import WorkFace, work_face

Act = Step | Mended | FrameJoint | UnknownFrame | RimLoss | Edging


@dataclass(frozen=True, slots=True)
class CutPlan:
    """All cuts in order."""

    face: WorkFace
    """How the show face lies while it is marked and sawn."""
    trims: tuple[Trim, ...]
    """Straight cuts through the panel."""
    skipped: tuple[SkippedTrim, ...]
    """Sides that are not sawn, each with the reason."""
    kept: tuple[KeptEdge, ...]
    """Edges of the panel that stay as they are."""
    again: MarkedAgain | None
    """The second setting out of a slab, which every cut after its rough length is marked by."""
    mends: tuple[Mended, ...]
    """What is mended before the top is cut out."""
    facets: tuple[Facet, ...]
    curve_cuts: tuple[CurveCut, ...]
    """Jigsaw, then router or hand."""
    finish: Path
    core: Path
    rough: Path
    """On the panel, closed: the finished edge, the line that is cut (the same without a lipping),
    and the line that the jigsaw follows."""
    kerf: float
    allowance: float
    """Of the saw, and from the core line to the rough line, mm."""
    blank: Region
    """What is left of the panel after the straight cuts."""
    saw_kerfs: tuple[Region, ...]
    """What each cut turns to dust, in cutting order: trims, facets, then the jigsaw's ring. A band
    may overrun what is left of the panel."""
    edging: Edging | None
    """What goes round the edge, where it is lipped or a raw edge of board."""
    rim: RimLoss | None
    """Where the line leaves the solid rim of a hollow panel."""
    joints: tuple[FrameJoint, ...]
    """Joints of a framed panel that cuts run through."""
    feeds: tuple[QuarterFeed, ...]
    """Which way the router goes round a solid top."""
    steps: tuple[Act, ...]
    """What to do at the bench, in order."""

    def drawn(self, line: Path) -> tuple[Path, ...]:
        """Return what is drawn of finish, core or rough line: all but what a kept edge is."""
        return line.without(path for kept in self.kept for path in (kept.stretch, kept.edge))

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is dangerous about a cut, with the cut's label."""
        return tuple(f"{trim.label}: {text}" for trim in self.trims for text in trim.warnings)


def plan_cuts(top: Top, datum: Datum, tools: Tools, tape: Tape | None = None) -> CutPlan:
    """Return the cuts that take a finished top out of its panel.

    Parameters
    ----------
    top : Top
    datum : Datum
    tools : Tools
    tape : Tape, optional
        Plugs and keys are of sizes that suit it; in millimetres where none is given.
    """
    bench, panel, core = Bench(top, datum, tools), top.panel, top.core
    cuts = straight_cuts(bench)
    facets = facets_of(bench, cuts)
    curves, blank, kerfs = _to_the_line(bench, cuts, facets, core)
    mends = mends_for(panel, Region.of(core), tape or Tape())
    face = work_face(panel, datum, tools.show_face)
    again = _marked_again(cuts.bench) if bench.is_slab else None
    edging = edging_of(bench, cuts)
    rim, joints = rim_loss(panel, core), frame_joints(panel, cuts.trims, core)
    rough = rough_line(bench)
    stays = kept_edges(top, rough.kept)
    steps = _Steps(bench, cuts, stays, face, again, mends, facets, curves, edging, rim, joints)
    return CutPlan(
        face=face,
        trims=cuts.trims,
        skipped=cuts.skipped,
        kept=stays,
        again=again,
        mends=mends,
        facets=facets,
        curve_cuts=curves,
        finish=top.finish,
        core=core,
        rough=rough.closed,
        kerf=tools.kerf,
        allowance=rough_allowance(bench),
        blank=blank,
        saw_kerfs=kerfs,
        edging=edging,
        rim=rim,
        joints=joints,
        feeds=quarter_feeds(bench),
        steps=tuple(steps.in_order()),
    )


def _to_the_line(
    bench: Bench, cuts: StraightCuts, facets: tuple[Facet, ...], core: Path
) -> tuple[tuple[CurveCut, ...], Region, tuple[Region, ...]]:
    """Return the cuts along the outline, what is left before the last, and every kerf."""
    kerf, extent = bench.tools.kerf, extent_of(bench.top.panel.region())
    blank = cuts.blank
    sawn: tuple[Trim | Facet, ...] = (*cuts.trims, *facets)
    kerfs = [line_of(cut).band(kerf, extent) for cut in sawn]
    for facet in facets:
        blank = blank.minus(line_of(facet).beyond(extent))
    curves = curve_cuts(bench, blank, core, is_hollow=cuts.is_hollow)
    ring = curve_kerf(bench, curves)
    if not ring.is_empty:
        kerfs.append(ring)
        blank = blank.meet(rough_region(bench))
    return curves, blank, tuple(kerfs)


def _marked_again(bench: Bench) -> MarkedAgain:
    tools = bench.tools
    kit = StringKit(tools.nail, tools.pencil, tools.string_stretch)
    marks = marks_for(bench.top, bench.datum, kit)
    return MarkedAgain(bench.top.panel.boundary, bench.top.thickness, bench.datum, marks)


@dataclass(frozen=True, slots=True)
class _Steps:
    """Everything that becomes a step, in the order of the bench."""

    bench: Bench
    cuts: StraightCuts
    kept: tuple[KeptEdge, ...]
    face: WorkFace
    again: MarkedAgain | None
    mends: tuple[Mended, ...]
    facets: tuple[Facet, ...]
    curves: tuple[CurveCut, ...]
    edging: Edging | None
    rim: RimLoss | None
    joints: tuple[FrameJoint, ...]

    def in_order(self) -> Iterator[Act]:
        face, trims = self.face.words, self.cuts.trims
        if self.again is not None:
            rough = (trim for trim in trims if trim.kind is TrimKind.ROUGH)
            yield from (trim_step(self.bench, trim, face) for trim in rough)
            yield flatten_step(self.bench)
        yield from self.mends
        if self.again is not None:
            yield rest_step(self.again)
        if self.face.score_step is not None:
            yield self.face.score_step
        yield from self.joints
        if self.bench.top.panel.build.kind is Kind.FRAMED and not knows_frame(self.bench.top.panel):
            yield UnknownFrame()
        others = (trim for trim in trims if trim.kind is not TrimKind.ROUGH)
        yield from (trim_step(self.cuts.bench, trim, face) for trim in others)
        skipped = enumerate(self.cuts.skipped, start=1)
        yield from (skipped_step(side, number) for number, side in skipped)
        yield from (edge.step(number) for number, edge in enumerate(self.kept, start=1))
        yield from self._curve()

    def _curve(self) -> Iterator[Act]:
        face = self.face.words
        if self.facets:
            yield facets_step(self.facets, face)
        yield from (curve_step(cut, face) for cut in self.curves if cut.tool == "jigsaw")
        if self.rim is not None:
            yield self.rim
        yield from (curve_step(cut, face) for cut in self.curves if cut.tool != "jigsaw")
        if self.edging is not None and self.edging.thickness:
            yield self.edging
