"""What a panel asks for when it is cut: a new rim, cramps on a joint; what its kept edges get."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..geometry import Path, Point, Region
from ..geometry.tolerance import SAME_POINT
from ..panel import Kind, Panel
from ..panel.edges import Edge
from ..panel.frame import joints_of, opening_of
from ..panel.named_edges import named_edges
from ..top import Top
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
    hollow = Region.empty() if opening is None else Region.of(Path.round_box(opening))
    points = [*map(Point.of, core.points(1.0))]
    runs: list[list[Point]] = []
    for one, other in zip(points, points[1:] + points[:1], strict=True):
        for start, end in hollow.chord(one, other):
            if runs and runs[-1][-1].distance_to(start) <= SAME_POINT:
                runs[-1].append(end)
            else:
                runs.append([start, end])
    if len(runs) > 1 and runs[-1][-1].distance_to(runs[0][0]) <= SAME_POINT:
        runs[0] = runs.pop() + runs[0][1:]
    if not runs:
        return None
    stretches = tuple(Path.through(run) for run in runs)
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
    line = [*map(Point.of, core.points(1.0))]
    steps = [*pairwise((*line, line[0]))]
    found = []
    for corner, place in joints_of(panel):
        joint = Region.of(place)
        sawn = tuple(t.label for t in trims if any(joint.chord(a, b) for a, b in t.spans))
        if sawn or any(joint.chord(a, b) for a, b in steps):
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
