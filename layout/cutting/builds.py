"""What the build of a panel asks for when it is cut: a new rim, cramps on a joint."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..geometry import Path, Region
from ..geometry.tolerance import SAME_EDGE
from ..geometry.window import clipped
from ..panel import Kind, Panel
from ..panel.frame import joints_of, opening_of

if TYPE_CHECKING:
    from .cut import Trim


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
