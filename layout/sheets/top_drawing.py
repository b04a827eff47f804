"""The new top on the panel: its lines, marks, cuts, legs and what falls off."""

from __future__ import annotations

from collections.abc import Iterator

from ..cutting.cut import Trim
from ..cutting.plan import CutPlan
from ..drawing import layers
from ..drawing.kit.areas import areas_of
from ..drawing.kit.frame import DrawingFrame
from ..drawing.kit.labels import LabelSetter
from ..drawing.scene import Area, Group, Item, Mark, Stroke
from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..marking.mark import Kind
from ..plan.plan import Plan
from ..words.saw_lines import numbers_of

_PAST_EDGE = 4.0
"""How far saw lines and guides are drawn past the panel, paper mm."""


def waste_groups(plan: Plan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the waste side of the rough-cut line, shaded."""
    kept = Region.of(plan.cuts.rough, "outside")
    waste = plan.job.panel.region().minus(kept)
    yield Group(layers.WASTE, areas_of(waste, frame, edged=False))


def line_groups(cuts: CutPlan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the rough-cut line, the core line where there is one, and the finish line."""
    yield Group(layers.ROUGH, tuple(Stroke(frame.of(path)) for path in cuts.drawn(cuts.rough)))
    if cuts.core != cuts.finish:
        yield Group(layers.CORE, (Stroke(frame.of(cuts.core)),))
    yield Group(layers.FINISH, tuple(Stroke(frame.of(path)) for path in cuts.drawn(cuts.finish)))
    yield Group(layers.KEPT, tuple(Stroke(frame.of(kept.edge)) for kept in cuts.kept))


def cut_groups(cuts: CutPlan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield saw lines, past both edges, and the guides beside them."""
    lines = [longer(frame.at(t.start.point), frame.at(t.end.point)) for t in cuts.trims]
    lines += [
        Path.through((frame.at(c.start.point), frame.at(c.end.point))) for c in cuts.corner_cuts
    ]
    if lines:
        yield Group(layers.SAW_LINE, tuple(Stroke(line) for line in lines))
    guides = [
        Stroke(longer(frame.at(trim.guide.start.point), frame.at(trim.guide.end.point)))
        for trim in cuts.trims
        if trim.guide is not None
    ]
    if guides:
        yield Group(layers.GUIDE, tuple(guides))


def cut_labels(plan: Plan, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield the number of each saw line, as the first page has it, beyond the end of the line."""
    cuts, numbers = plan.cuts, numbers_of(plan)
    for trim in cuts.trims:
        end = _end_of(trim, frame)
        yield from setter.set(end, f"line {numbers[trim.label]}", 2.5, bold=True)
    for cut in cuts.corner_cuts:
        middle = frame.at(cut.start.point.midpoint(cut.end.point))
        yield from setter.set(middle, f"line {numbers[cut.label]}", 1.8)


def leg_groups(plan: Plan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield battens, legs with their plates and screw holes, and feet that stand elsewhere."""
    if plan.legs is None:
        return
    items: list[Item] = []
    legs = plan.legs.legs
    battens = () if plan.table is None else plan.table.battens
    holes = () if plan.table is None else plan.table.holes
    yield Group(layers.BATTENS, tuple(Stroke(frame.of(batten.print)) for batten in battens))
    for leg in legs:
        hollow = () if leg.hollow is None else (frame.of(leg.hollow),)
        items.append(Area(frame.of(leg.print), hollow))
        items.append(Mark(frame.at(leg.on_panel), arm=1.5))
    yield Group(layers.LEGS, tuple(items))
    plates = tuple(Stroke(frame.of(leg.plate)) for leg in legs if leg.plate is not None)
    yield Group(layers.PLATES, plates)
    floor = (leg.floor_print for leg in legs if leg.floor_print is not None)
    yield Group(layers.FEET, tuple(Stroke(frame.of(path)) for path in floor))
    centres = {leg.on_panel for leg in legs}
    drilled = (hole.on_panel for hole in holes if hole.on_panel not in centres)
    yield Group(layers.SCREWS, tuple(Mark(frame.at(point), arm=0.7) for point in drilled))


def leg_labels(plan: Plan, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield the number of each leg."""
    if plan.legs is None:
        return
    for leg in plan.legs.legs:
        yield from setter.set(frame.at(leg.on_panel), f"leg {leg.number}", 2.5)


def kept_labels(cuts: CutPlan, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield "kept edge" beside each of those."""
    for kept in cuts.kept:
        yield from setter.set(frame.at(kept.edge.at(0.75 * kept.edge.length)), "kept edge", 2.5)


def mark_groups(plan: Plan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the centrelines and every mark."""
    for kind in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE):
        ends = [frame.at(mark.point) for mark in plan.marks.of(kind)]
        if len(ends) == 2:
            yield Group(layers.CENTRELINE, (Stroke(longer(*ends)),))
    crosses = tuple(Mark(frame.at(mark.point), arm=2.0) for mark in plan.marks.marks)
    yield Group(layers.MARKS, crosses)


def mark_labels(plan: Plan, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield the label of each mark."""
    for mark in plan.marks.marks:
        yield from setter.set(frame.at(mark.point), mark.label, 2.5, bold=True)


def offcut_groups(plan: Plan, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the largest clean rectangle of each offcut worth keeping."""
    kept = [o.clean for o in plan.offcuts.pieces if o.kept and o.clean is not None]
    if kept:
        yield Group(
            layers.OFFCUTS,
            tuple(Stroke(frame.of(Path.through_ring(clean.corners))) for clean in kept),
        )


def offcut_labels(plan: Plan, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield the number of each offcut worth keeping."""
    for offcut in plan.offcuts.pieces:
        if offcut.kept and offcut.clean is not None:
            at = frame.at(offcut.clean.centre)
            yield from setter.set(at, f"offcut {offcut.number}", 2.5)


def longer(start: Point, end: Point) -> Path:
    """Return the line from start to end, drawn a little past both."""
    past = (end - start).unit() * _PAST_EDGE
    return Path.through((start - past, end + past))


def _end_of(trim: Trim, frame: DrawingFrame) -> Point:
    start, end = frame.at(trim.start.point), frame.at(trim.end.point)
    return end + (end - start).unit() * _PAST_EDGE
