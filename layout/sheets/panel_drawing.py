"""The old panel as it lies: its face, cut-outs and defects, its corners and the datum."""

from __future__ import annotations

from collections.abc import Iterator

from ..drawing import layers
from ..drawing.kit.areas import areas_of
from ..drawing.kit.frame import DrawingFrame
from ..drawing.kit.labels import LabelSetter
from ..drawing.scene import Area, Group, Item, Stroke
from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..panel import Panel
from ..panel.datum import Datum
from ..panel.shown import layer_of
from ..units import Tape

CORNER_LETTERS = 5.0
"""Height of the corner letters, paper mm."""


def face_groups(panel: Panel, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the wood of the panel and the cut-outs in it."""
    yield Group(layers.WOOD, areas_of(panel.region(), frame, edged=False))


def edge_groups(panel: Panel, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the edges of the panel and of its cut-outs, exact where nothing runs over an edge."""
    whole = Region.of(panel.boundary)
    within = [whole.shrunk(0.1).holds(Region.of(cut_out)) for cut_out in panel.cut_outs]
    if all(within):
        yield Group(layers.PANEL, (Stroke(frame.of(panel.boundary)),))
        if panel.cut_outs:
            yield Group(layers.CUT_OUT, tuple(Stroke(frame.of(c)) for c in panel.cut_outs))
        return
    rings = [a for area in areas_of(panel.region(), frame) for a in (area.boundary, *area.holes)]
    yield Group(layers.PANEL, tuple(Stroke(ring) for ring in rings))


def defect_groups(panel: Panel, frame: DrawingFrame) -> Iterator[Group]:
    """Yield the defects, each hatched as what it spoils."""
    for defect in panel.defects:
        yield Group(layer_of(defect), (Area(frame.of(defect.place)),))


def defect_labels(panel: Panel, frame: DrawingFrame, setter: LabelSetter) -> Iterator[Item]:
    """Yield the names of the defects, and "cut-out" beside each of those."""
    for defect in panel.defects:
        mend = "" if defect.mend is None else f" ({defect.mend.value})"
        yield from setter.set(frame.at(_middle(defect.place)), defect.name + mend, 2.5)
    for cut_out in panel.cut_outs:
        yield from setter.set(frame.at(_middle(cut_out)), "cut-out", 2.5)


def datum_items(
    datum: Datum, panel: Panel, frame: DrawingFrame, setter: LabelSetter, tape: Tape
) -> Iterator[Item]:
    """Yield the datum line, the letters of the corners and of struck points, and its name."""
    ends = (frame.at(datum.start), frame.at(datum.end))
    yield Stroke(Path.through(ends))
    middle = panel.boundary.bounds.middle
    for name, point in sorted(datum.places.items()):
        outwards = point - middle
        yield from setter.set(frame.at(point), name, CORNER_LETTERS, bold=True, towards=outwards)
    third = ends[0] + (ends[1] - ends[0]) * 0.3
    yield from setter.set(third, f"datum {datum.name}, {tape.measure(datum.length)}", 2.5)


def _middle(path: Path) -> Point:
    return path.bounds.middle
