"""What the build of a panel asks for when it is cut: a new rim, cramps on a joint."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import SAME_POINT
from ..panel.build import Kind
from ..panel.defect import rectangular_place
from ..panel.panel import Panel
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
    hollow = _inside_frame(panel)
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

    corner: str
    """``lower left``, show face up."""
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
    found = []
    for corner, place in _joints(panel):
        joint = Region.of(place)
        sawn = tuple(t.label for t in trims if any(joint.chord(a, b) for a, b in t.spans))
        if sawn or any(joint.holds_point(p) for p in line):
            found.append(FrameJoint(corner, sawn, place))
    return tuple(found)


def knows_frame(panel: Panel) -> bool:
    """Return whether the widths of stiles and rails are given."""
    return panel.build.stile > 0 and panel.build.rail > 0


def _joints(panel: Panel) -> Iterator[tuple[str, Path]]:
    """Yield the four corners of a frame with their places."""
    bounds = panel.boundary.bounds
    along, across = _frame(panel)
    for h, side in ((-1, "left"), (1, "right")):
        for v, level in ((-1, "lower"), (1, "upper")):
            at = Point(
                bounds.middle.x + h * (bounds.width - along) / 2,
                bounds.middle.y + v * (bounds.height - across) / 2,
            )
            yield f"{level} {side}", rectangular_place(at, along, across)


def _frame(panel: Panel) -> tuple[float, float]:
    """Return how wide the frame is at the panel's left and right, and above and below, mm."""
    bounds = panel.boundary.bounds
    stile, rail = panel.build.stile, panel.build.rail
    return (rail, stile) if bounds.width >= bounds.height else (stile, rail)


def _inside_frame(panel: Panel) -> Region:
    """Return the part of a hollow panel that has no solid wood in it."""
    bounds = panel.boundary.bounds
    along, across = _frame(panel)
    length, width = bounds.width - 2 * along, bounds.height - 2 * across
    if min(length, width) <= 0:
        return Region.empty()
    return Region.of(rectangular_place(bounds.middle, length, width))
