"""What a panel asks for when it is cut: a new rim, cramps on a joint; what its edges get.

Lipping and edging: how much goes round, and how thin a strip must be to bend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry import Line, Path, Region
from ..geometry.tolerance import SAME_EDGE, SAME_FIGURE
from ..geometry.window import clipped
from ..panel import Kind, Panel
from ..panel.edges import Edge
from ..panel.frame import joints_of, opening_of
from ..panel.named_edges import named_edges
from ..top import Top
from .bench import Bench
from .cut import Trim
from .straight import StraightCuts
from .tools import SPARE


@dataclass(frozen=True, slots=True)
class RimLoss:
    """Where the line that is cut leaves the solid rim of a hollow panel."""

    stretches: tuple[Path, ...]
    """On the panel, along the line."""
    length: float
    """Of all of them, mm."""

    @property
    def is_all_round(self) -> bool:
        """Whether no solid rim is left."""
        return len(self.stretches) == 1 and self.stretches[0].is_closed


def rim_loss(panel: Panel, core: Path) -> RimLoss | None:
    """Return where the line leaves the solid rim; None where the panel has none, or keeps it."""
    if panel.build.kind is not Kind.HOLLOW:
        return None
    opening = opening_of(panel)
    stretches = () if opening is None else clipped(core, opening)
    if not stretches:
        return None
    return RimLoss(stretches, math.fsum(stretch.length for stretch in stretches))


@dataclass(frozen=True, slots=True)
class FrameJoint:
    """A joint of rail and stile that a cut runs through."""

    name: str
    """``lower left corner``, show face up."""
    cuts: tuple[str, ...]
    """Labels of the straight cuts; none where only the curve runs through it."""
    place: Path
    """On the panel."""


@dataclass(frozen=True, slots=True)
class UnknownFrame:
    """The joints of a frame have to be found: its stiles and rails are not given."""


def frame_joints(panel: Panel, trims: tuple[Trim, ...], core: Path) -> tuple[FrameJoint, ...]:
    """Return the joints that cuts run through; none where the frame's widths are not known."""
    if panel.build.kind is not Kind.FRAMED or not knows_frame(panel):
        return ()
    face, found = panel.region(), []
    for corner, place in joints_of(panel):
        joint = Region.of(place)
        sawn = tuple(t.label for t in trims if any(joint.chord(a, b) for a, b in t.spans))
        parts = (part for run in clipped(core, place.bounds) for part in run.segments)
        # along the panel's own edge nothing is cut
        if sawn or any(face.edge_distance(part.at(0.5)) > SAME_EDGE for part in parts):
            found.append(FrameJoint(corner, sawn, place))
    return tuple(found)


def knows_frame(panel: Panel) -> bool:
    """Return whether the widths of stiles and rails are given."""
    return panel.build.stile > 0 and panel.build.rail > 0


@dataclass(frozen=True, slots=True)
class KeptEdge:
    """A part of the finished edge that is the panel's own."""

    name: str
    """By the letters of its corners: ``AB``."""
    stretch: Path
    """Of the finish line, on the panel, the wood on its left."""
    edge: Path
    """The panel's edge there, as far as the rough line; a straight one may stand a little proud."""
    live: bool
    """Whether it is neither straight nor one even bow."""


def kept_edges(top: Top, rough: Sequence[Path]) -> tuple[KeptEdge, ...]:
    """Return the parts that are kept, with the names of their edges.

    Parameters
    ----------
    rough : sequence of Path
        The panel's edge at each, as far as the rough line.
    """
    runs = top.runs
    names = {held.path: held.name for held in named_edges(top.panel)} if runs.kept else {}
    return tuple(
        KeptEdge(names.get(edge, ""), path, piece, live=not Edge(edge.segments).is_clean)
        for path, edge, piece in zip(runs.kept, runs.edges, rough, strict=True)
    )


OVER_THICKNESS = 4.0
"""A lipping is cut this much wider than the panel is thick, and flushed, mm (common practice)."""

BENDS_COLD = 100.0
"""A strip bends cold round a radius of this many times its thickness: what hardwood laminations of
curved beams may (American Wood Council, *National Design Specification*, section 5.3.8, from
memory)."""


@dataclass(frozen=True, slots=True)
class Edging:
    """What goes round the sawn edges of a top."""

    around: float
    """Length of all edges but those that are kept, mm; for a lipping round the core."""
    kept: float
    """Length of the panel's own edges that are kept, mm."""
    cut_length: float
    """`around` and a tenth more, mm."""
    strip_width: float
    """Before it is flushed, mm."""
    thickness: float
    """Of the lipping, mm; 0 for a thin edging."""
    tightest: float | None
    """Least radius that it must follow, mm; None for straight edges, with mitred corners."""
    layers: int
    """A lipping too thick to bend cold there is laminated of so many strips."""
    on_straights: bool
    """Whether a joint can lie on a straight part of it."""

    @property
    def layer(self) -> float:
        """Thickness of one strip, mm."""
        return self.thickness / self.layers


def edging_of(bench: Bench, cuts: StraightCuts) -> Edging | None:
    """Return what goes round a top that is lipped, or whose build has a raw edge; else None."""
    if not bench.top.lipping and not bench.top.panel.build.kind.is_board:
        return None
    kept = _kept(bench, cuts)
    around = bench.top.core.length - kept
    tightest = bench.top.outline.tightest(bench.top.lipping)
    layers = 1
    if bench.top.lipping and tightest:
        layers = max(1, math.ceil(bench.top.lipping * BENDS_COLD / tightest - 1e-9))
    return Edging(
        around,
        kept,
        cut_length=around * SPARE,
        strip_width=bench.top.thickness + OVER_THICKNESS,
        thickness=bench.top.lipping,
        tightest=tightest,
        layers=layers,
        on_straights=any(isinstance(segment, Line) for segment in bench.top.runs.segments),
    )


def _kept(bench: Bench, cuts: StraightCuts) -> float:
    """Return the length of edges of the top that are edges of the panel."""
    stay = math.fsum(path.length for path in bench.top.runs.kept)
    kept = [side.waste for side in cuts.skipped if side.strip <= SAME_FIGURE]
    lines = [segment for segment in bench.top.runs.segments if isinstance(segment, Line)]
    return stay + math.fsum(
        line.length for line in lines for waste in kept if (-line.direction.left).dot(waste) > 0.999
    )
