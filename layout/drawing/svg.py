"""Scenes as SVG at true size: millimetres, real arcs, one titled group for each meaning.

SVG counts y downwards: here, and only here, y becomes the frame's top less y.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from functools import reduce
from typing import Any

from ..geometry import Arc, Bounds, Line, Path, Point, Segment
from ..geometry.window import split
from .curves import Trace, traces
from .scene import CAP_HEIGHT, Area, Group, Layer, Scene, Text, plain

LONGER, ROUND = 140.0, 3.0  # mm on paper: the longer side of what is shown, and white round it
# Longest arc in one `A`: on a half circle a reader would find the centre from the root of a
# rounding error, hundredths of a millimetre away; on a quarter it is exact
_QUARTER = math.pi / 2
# Faces of the same widths, the ones by which words were kept apart
_FACE = "Helvetica, Arial, 'Liberation Sans', sans-serif"


def to_svg(scene: Scene) -> str:
    """Return the scene as an SVG document in mm, a group for each layer with its key and title."""
    import xml.etree.ElementTree as ET

    import svgwrite

    frame = scene.frame
    width, height = _number(frame.width), _number(frame.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    drawing.set_desc(title=scene.title)
    writer = _Writer(drawing, frame)
    seen: Counter[str] = Counter()
    for group in scene.groups:
        seen[group.layer.key] += 1
        again = f"-{seen[group.layer.key]}" if seen[group.layer.key] > 1 else ""
        drawing.add(writer.group(group, group.layer.key + again))
    root = drawing.get_xml()
    ET.indent(root, " ")
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(root, "unicode") + "\n"


class _Writer:
    """Turns items into elements; holds the document and where its corner lies."""

    def __init__(self, drawing: Any, frame: Bounds) -> None:  # noqa: ANN401 - svgwrite has no types
        self.drawing = drawing
        self.frame = frame

    def group(self, group: Group, key: str) -> Any:  # noqa: ANN401
        layer = group.layer
        dashes = {"stroke_dasharray": " ".join(_number(d) for d in layer.dashes)}
        held = self.drawing.g(
            id=key,
            fill="none",
            stroke=layer.colour,
            stroke_width=_number(layer.line_width),
            stroke_linejoin="round",
            **(dashes if layer.dashes else {}),
        )
        held.set_desc(title=layer.title)
        for item in group.items:
            if isinstance(item, Text):
                held.add(self.text(item, layer))
            else:
                for trace in traces(item, layer):
                    held.add(self.path(trace, layer))
        return held

    def path(self, trace: Trace, layer: Layer) -> Any:  # noqa: ANN401
        """Draw paths; a mark's name is its title, which viewers show and programs read."""
        drawn = self.drawing.path(d=" ".join(self.data(path) for path in trace.paths))
        if trace.filled:
            drawn.update({"fill": layer.colour, "fill-rule": "evenodd"})
        if not trace.stroked:
            drawn["stroke"] = "none"
        if trace.width:
            drawn["stroke-width"] = _number(trace.width)
        if not trace.dashed:
            drawn["stroke-dasharray"] = "none"
        elif layer.dashes and trace.phase:
            drawn["stroke-dashoffset"] = _number(trace.phase % sum(layer.dashes))
        if trace.name:
            drawn.set_desc(title=plain(trace.name))
        return drawn

    def text(self, text: Text, layer: Layer) -> Any:  # noqa: ANN401
        x, y = self.at(text.at)
        drawn = self.drawing.text(
            plain(text.words),
            insert=(x, y),
            fill=layer.colour,
            stroke="none",
            font_family=_FACE,
            font_size=_number(text.height / CAP_HEIGHT),
            text_anchor=text.anchor,
        )
        if text.halo:
            width = _number(2 * text.halo)
            drawn.update({"stroke": "#ffffff", "stroke-width": width, "paint-order": "stroke"})
            drawn["stroke-linejoin"] = "round"
        if text.bold:
            drawn["font-weight"] = "bold"
        if text.turn:
            drawn["transform"] = f"rotate({_number(-math.degrees(text.turn))} {x} {y})"
        return drawn

    def data(self, path: Path) -> str:
        parts = ["M {} {}".format(*self.at(path.segments[0].start))]
        for segment in path.segments:
            parts += [self.step(piece) for piece in split(segment, _QUARTER)]
        return " ".join(parts) + (" Z" if path.is_closed else "")

    def step(self, segment: Segment) -> str:
        x, y = self.at(segment.end)
        if isinstance(segment, Line):
            return f"L {x} {y}"
        if isinstance(segment, Arc):
            radii = f"{_number(segment.radius)} {_number(segment.radius)} 0"
        else:
            # y is turned over, so the ellipse's own turn is too
            turn = _number(-math.degrees(segment.turn))
            radii = f"{_number(segment.half_length)} {_number(segment.half_width)} {turn}"
        return f"A {radii} 0 {int(segment.sweep < 0)} {x} {y}"

    def at(self, point: Point) -> tuple[str, str]:
        return _number(point.x - self.frame.left), _number(self.frame.top - point.y)


def _number(value: float) -> str:
    """Return a number to the nearest 1e-6 mm without idle zeros."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def glance(title: str, shown: Sequence[tuple[Layer, Path, Sequence[Path]]]) -> str:
    """Return closed paths with their holes, mm, each on its layer, as an SVG; later ones on top."""
    box = reduce(Bounds.joined, (path.bounds for _, path, _ in shown))
    scale = LONGER / max(box.width, box.height)
    groups = tuple(
        Group(layer, (Area(path.scaled(scale), tuple(hole.scaled(scale) for hole in holes)),))
        for layer, path, holes in shown
    )
    frame = Bounds(*(side * scale for side in (box.left, box.bottom, box.right, box.top)))
    return to_svg(Scene(title, frame.grown(ROUND), groups))
