"""Scenes as SVG at true size: millimetres, real arcs, one titled group for each meaning.

SVG counts y downwards: here, and only here, y becomes the frame's top less y. svgwrite stands
behind this file alone.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import reduce
from typing import Any

from ..geometry import Arc, Bounds, Line, Path, Point, Segment
from ..geometry.window import split
from .curves import hatch_lines
from .scene import (
    CAP_HEIGHT,
    Area,
    Group,
    Item,
    Layer,
    Mark,
    Scene,
    Stroke,
    Text,
    mark_lines,
    plain,
)

_QUARTER = math.pi / 2
"""Longest arc in one `A`: on a half circle a reader would find the centre from the root of a
rounding error, hundredths of a millimetre away; on a quarter it is exact."""

_FACE = "Helvetica, Arial, 'Liberation Sans', sans-serif"
"""Faces of the same widths, the ones by which words were kept apart."""


def to_svg(scene: Scene) -> str:
    """Return the scene as an SVG document whose width, height and viewBox are in mm.

    Every group has the layer's key as its id (with a number where a layer comes again) and the
    layer's title as its title. Hatching is drawn as lines.
    """
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
            for element in self.elements(item, layer):
                held.add(element)
        return held

    def elements(self, item: Item, layer: Layer) -> Iterable[Any]:
        match item:
            case Text():
                yield self.text(item, layer)
            case Mark():
                yield self.mark(item)
            case Area():
                yield from self.area(item, layer)
            case Stroke():
                line = self.path(item.path)
                if layer.dashes and item.phase:
                    line["stroke-dashoffset"] = _number(item.phase % sum(layer.dashes))
                yield line

    def path(self, *paths: Path, dashed: bool = True) -> Any:  # noqa: ANN401
        plain_line = {} if dashed else {"stroke_dasharray": "none"}
        return self.drawing.path(d=" ".join(self.data(path) for path in paths), **plain_line)

    def mark(self, mark: Mark) -> Any:  # noqa: ANN401
        """Draw a mark; its name is its title, which viewers show and programs read."""
        drawn = self.path(*mark_lines(mark), dashed=False)
        if mark.name:
            drawn.set_desc(title=plain(mark.name))
        return drawn

    def area(self, area: Area, layer: Layer) -> Iterable[Any]:
        edge = self.path(area.boundary, *area.holes)
        edge["fill-rule"] = "evenodd"
        if layer.hatching == "solid":
            edge["fill"] = layer.colour
        lines = hatch_lines(area, layer.hatching, layer.hatch[0])
        if lines:
            hatch = self.path(*(Path((Line(a, b),)) for a, b in lines), dashed=False)
            hatch["stroke-width"] = _number(layer.hatch[1])
            yield hatch
        if not area.edged:
            edge["stroke"] = "none"
        if area.edged or layer.hatching == "solid":
            yield edge

    def text(self, text: Text, layer: Layer) -> Any:  # noqa: ANN401
        x, y = self.at(text.at)
        weight = {"font_weight": "bold"} if text.bold else {}
        halo = {
            "stroke": "#ffffff",
            "stroke_width": _number(2 * text.halo),
            "paint_order": "stroke",
            "stroke_linejoin": "round",
        }
        turned = {"transform": f"rotate({_number(-math.degrees(text.turn))} {x} {y})"}
        return self.drawing.text(
            plain(text.words),
            insert=(x, y),
            fill=layer.colour,
            **(halo if text.halo else {"stroke": "none"}),
            font_family=_FACE,
            font_size=_number(text.height / CAP_HEIGHT),
            text_anchor=text.anchor,
            **weight,
            **(turned if text.turn else {}),
        )

    def data(self, path: Path) -> str:
        parts = ["M {} {}".format(*self.at(path.segments[0].start))]
        pieces = [piece for segment in path.segments for piece in split(segment, _QUARTER)]
        parts += [self.step(piece) for piece in pieces]
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


LONGER = 140.0
"""mm on paper: the longer side of what is shown."""

ROUND = 3.0
"""mm on paper left round it."""


def glance(title: str, shown: Sequence[tuple[Layer, Path, Sequence[Path]]]) -> str:
    """Return paths as an SVG document, later ones on top.

    Parameters
    ----------
    shown : sequence of (Layer, Path, sequence of Path)
        Closed paths with their holes, mm, and what they mean.
    """
    box = reduce(Bounds.joined, (path.bounds for _, path, _ in shown))
    scale = LONGER / max(box.width, box.height)
    groups = tuple(
        Group(layer, (Area(path.scaled(scale), tuple(hole.scaled(scale) for hole in holes)),))
        for layer, path, holes in shown
    )
    frame = Bounds(*(side * scale for side in (box.left, box.bottom, box.right, box.top)))
    return to_svg(Scene(title, frame.grown(ROUND), groups))
