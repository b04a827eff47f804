"""The cutting plan: every cut of a job, in order, with its lines, guides and what falls off.

What is done to the panel until the top is cut out is a union of types: each finds its words.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from ..concern import Concern
from ..geometry import Path, Region
from ..geometry.tolerance import SAME_PLACE
from ..marking.marks import marks_for
from ..panel.build import Kind
from ..panel.datum import Datum
from ..panel.frame import frame_of
from ..top import Top
from ..units import Tape
from .bench import Bench, WorkFace
from .builds import Edging, FrameJoint, RimLoss, UnknownFrame, edging_of, frame_joints, rim_loss
from .curves import curve_cuts
from .cut import (
    CornerCut,
    CurveCut,
    JigsawCut,
    Kerf,
    RouterCut,
    SkippedTrim,
    SkipReason,
    StraightCut,
    Trim,
    TrimKind,
)
from .mending import Mended, mends_for
from .rough import KeptEdge, jigsaw_kerf, kept_edges, rough_allowance, rough_line, rough_region
from .router import QuarterFeed
from .sawn import extent_of, line_of
from .straight import MarkedAgain, corner_cuts_of, straight_cuts
from .tools import Tools

REST, TWIST_LEFT = 7, 2.0
"""Days that a flattened slab lies before it is trusted, and the twist, mm, that it may then have
(common practice)."""


@dataclass(frozen=True, slots=True)
class Flatten:
    """A slab is flattened, once it is cut roughly to length."""

    found: float
    thickness: float
    """Before and after, mm."""
    mended_from: str = ""
    """The line that is struck on it anew for its mends; empty where it has none."""


@dataclass(frozen=True, slots=True)
class Rest:
    """A flattened slab rests and is marked again."""

    again: MarkedAgain
    days: int = REST
    twist: float = TWIST_LEFT
    """What it may be wound by then, mm."""


@dataclass(frozen=True, slots=True)
class KnifeLines:
    """Every saw line is knifed on the show face."""

    below: bool
    """Whether that lies down."""


@dataclass(frozen=True, slots=True)
class CornerCuts:
    """All corner cuts, one after the other."""

    cuts: tuple[CornerCut, ...]


Prepared = Flatten | Mended | Rest | KnifeLines | FrameJoint | UnknownFrame
Act = Prepared | Trim | SkippedTrim | KeptEdge | CornerCuts | CurveCut | RimLoss | Edging
"""Everything that a cutting plan may ask for, and what of it comes before the cuts."""


class CutMatter(Enum):
    """What may stand against a cutting plan: `Concern.matter`."""

    NO_ROOM = "what stands outside the line is less than a saw needs"


@dataclass(frozen=True, slots=True)
class CutPlan:
    """All cuts in order."""

    face: WorkFace
    """How the show face lies while it is marked and sawn."""
    trims: tuple[Trim, ...]
    skipped: tuple[SkippedTrim, ...]
    """Sides that are not sawn, each with the reason."""
    kept: tuple[KeptEdge, ...]
    again: MarkedAgain | None
    """The second setting out of a slab, which every cut after its rough length is marked by."""
    mends: tuple[Mended, ...]
    """What is mended before the top is cut out."""
    corner_cuts: tuple[CornerCut, ...]
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
    """What is left of the panel after the last saw."""
    kerfs: tuple[Kerf, ...]
    """What each saw turns to dust, in cutting order: trims, corner cuts, then the jigsaw's ring."""
    edging: Edging | None
    """What goes round the edge, where it is lipped or a raw edge of board."""
    rim: RimLoss | None
    """Where the line leaves the solid rim of a hollow panel."""
    joints: tuple[FrameJoint, ...]
    """Joints of a framed panel that cuts run through."""
    unknown_frame: bool
    """Whether the panel is framed and nobody knows how wide its stiles and rails are."""
    concerns: tuple[Concern, ...] = ()

    def drawn(self, line: Path) -> tuple[Path, ...]:
        """Return what is drawn of finish, core or rough line: all but what a kept edge is."""
        return line.without(path for kept in self.kept for path in (kept.stretch, kept.edge))

    @property
    def saw_kerfs(self) -> tuple[Region, ...]:
        """What each saw turns to dust, in cutting order."""
        return tuple(kerf.band for kerf in self.kerfs)

    @property
    def feeds(self) -> tuple[QuarterFeed, ...]:
        """Which way the router goes round a solid top."""
        routed = (cut.feeds for cut in self.curve_cuts if isinstance(cut, RouterCut))
        return next(routed, ())

    @property
    def acts(self) -> tuple[Act, ...]:
        """What to do at the bench, in order."""
        return tuple(self._acts())

    def _acts(self) -> Iterator[Act]:
        again = self.again
        if again is not None:
            yield from (trim for trim in self.trims if trim.kind is TrimKind.ROUGH)
            yield Flatten(again.found, again.thickness, again.datum.name if self.mends else "")
        yield from self.mends
        if again is not None:
            yield Rest(again)
        if self.face.chips or not self.face.mirrored:  # so that the show face does not chip
            yield KnifeLines(self.face.mirrored)
        yield from self.joints
        if self.unknown_frame:
            yield UnknownFrame()
        yield from (trim for trim in self.trims if trim.kind is not TrimKind.ROUGH)
        yield from self.skipped
        yield from self.kept
        if self.corner_cuts:
            yield CornerCuts(self.corner_cuts)
        yield from (cut for cut in self.curve_cuts if isinstance(cut, JigsawCut))
        if self.rim is not None:
            yield self.rim
        yield from (cut for cut in self.curve_cuts if not isinstance(cut, JigsawCut))
        if self.edging is not None and self.edging.thickness:
            yield self.edging


def plan_cuts(top: Top, datum: Datum, tools: Tools, tape: Tape | None = None) -> CutPlan:
    """Return the cuts that take a top out of its panel, plugs and keys sized for the tape."""
    bench, panel, core = Bench(top, datum, tools), top.panel, top.core
    cuts = straight_cuts(bench)
    corners, blank = corner_cuts_of(cuts)
    curves = curve_cuts(bench, blank, core, is_hollow=cuts.is_hollow)
    extent = extent_of(panel.region())
    sawn: tuple[StraightCut, ...] = (*cuts.trims, *corners)
    kerfs = [Kerf(cut.label, line_of(cut).band(cut.kerf, extent)) for cut in sawn]
    if isinstance(curves[0], JigsawCut):
        kerfs.append(Kerf(curves[0].label, jigsaw_kerf(bench)))
        left = rough_region(bench)
        # lines that only touch what is left cut nothing off it, whatever rounding makes of them
        blank = left if blank.grown(SAME_PLACE).holds(left) else blank.meet(left)
    rough = rough_line(bench)
    return CutPlan(
        face=bench.face,
        trims=cuts.trims,
        skipped=cuts.skipped,
        kept=kept_edges(top, rough.kept),
        again=_marked_again(cuts.bench) if bench.is_slab else None,
        mends=tuple(mends_for(panel, Region.of(core), tape or Tape())),
        corner_cuts=corners,
        curve_cuts=curves,
        finish=top.finish,
        core=core,
        rough=rough.closed,
        kerf=tools.kerf,
        allowance=rough_allowance(bench),
        blank=blank,
        kerfs=tuple(kerfs),
        edging=edging_of(bench, cuts),
        rim=rim_loss(panel, core),
        joints=frame_joints(panel, cuts.trims, core),
        unknown_frame=panel.build.kind is Kind.FRAMED and frame_of(panel) is None,
        concerns=tuple(
            Concern(CutMatter.NO_ROOM, (side.edge,) if side.edge else (), side.strip, side.needed)
            for side in cuts.skipped
            if side.reason is SkipReason.TOO_THIN
        ),
    )


def _marked_again(bench: Bench) -> MarkedAgain:
    panel = bench.top.panel
    marks = marks_for(bench.top, bench.datum, bench.tools.workshop())
    return MarkedAgain(panel.boundary, panel.thickness, bench.top.thickness, bench.datum, marks)
