"""What the build of a panel asks for when it is cut: a new rim, cramps on a joint, an edging."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..geometry import Line, Path, Region
from ..geometry.tolerance import SAME_EDGE, SAME_FIGURE
from ..geometry.window import clipped
from ..panel import Kind, Panel
from ..panel.frame import frame_of, joints_of, opening_of
from .tools import SPARE

if TYPE_CHECKING:
    from .bench import Bench
    from .cut import Trim
    from .straight import StraightCuts


@dataclass(frozen=True, slots=True)
class RimLoss:
    """Where the line that is cut leaves the solid rim of a hollow panel."""

    stretches: tuple[Path, ...]
    """On the panel, along the line."""
    length: float

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
    lost = math.fsum(stretch.length for stretch in stretches)
    return RimLoss(stretches, lost) if stretches else None


@dataclass(frozen=True, slots=True)
class FrameJoint:
    """A joint of rail and stile that a cut runs through."""

    name: str
    """``lower left corner``, show face up."""
    cuts: tuple[str, ...]
    """Labels of the straight cuts; none where only the curve runs through it."""
    place: Path


@dataclass(frozen=True, slots=True)
class UnknownFrame:
    """The joints of a frame have to be found: its stiles and rails are not given."""


def frame_joints(panel: Panel, trims: tuple[Trim, ...], core: Path) -> tuple[FrameJoint, ...]:
    """Return the joints that cuts run through; none where the frame's widths are not known."""
    if panel.build.kind is not Kind.FRAMED or frame_of(panel) is None:
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
    top = bench.top
    if not top.lipping and not top.panel.build.kind.is_board:
        return None
    lines = [segment for segment in top.runs.segments if isinstance(segment, Line)]
    kept = math.fsum(path.length for path in top.runs.kept)
    for side in cuts.skipped:
        if side.strip <= SAME_FIGURE:  # the panel's own edge
            along = (line for line in lines if (-line.direction.left).dot(side.waste) > 0.999)
            kept += math.fsum(line.length for line in along)
    around, tightest = top.core.length - kept, top.outline.tightest(top.lipping)
    return Edging(
        around,
        kept,
        cut_length=around * SPARE,
        strip_width=top.thickness + OVER_THICKNESS,
        thickness=top.lipping,
        tightest=tightest,
        layers=max(1, math.ceil(top.lipping * BENDS_COLD / tightest - 1e-9)) if tightest else 1,
        on_straights=bool(lines),
    )
