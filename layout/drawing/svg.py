"""Scenes as SVG at true size: millimetres, real arcs, one titled group for each meaning.

SVG counts y downwards: here, and only here, y becomes the frame's top less y.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import reduce
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

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
    width, height = _number(scene.frame.width), _number(scene.frame.height)
    root = _element(
        "svg",
        scene.title,
        xmlns="http://www.w3.org/2000/svg",
        version="1.1",
        width=f"{width}mm",
        height=f"{height}mm",
        viewBox=f"0 0 {width} {height}",
    )
    writer = _Writer(scene.frame)
    seen: Counter[str] = Counter()
    for group in scene.groups:
        seen[group.layer.key] += 1
        again = f"-{seen[group.layer.key]}" if seen[group.layer.key] > 1 else ""
        root.append(writer.group(group, group.layer.key + again))
    ElementTree.indent(root, " ")
    told = ElementTree.tostring(root, "unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{told}\n'


def _element(tag: str, title: str = "", **told: str) -> Element:
    """Return an element with its title; `stroke_width` is its attribute stroke-width."""
    made = Element(tag, {name.replace("_", "-"): told[name] for name in sorted(told)})
    if title:
        ElementTree.SubElement(made, "title").text = title
    return made


class _Writer:
    """Turns items into elements; holds where the corner of the document lies."""

    def __init__(self, frame: Bounds) -> None:
        self.frame = frame

    def group(self, group: Group, key: str) -> Element:
        layer = group.layer
        dashes = {"stroke_dasharray": " ".join(_number(d) for d in layer.dashes)}
        held = _element(
            "g",
            layer.title,
            id=key,
            fill="none",
            stroke=layer.colour,
            stroke_width=_number(layer.line_width),
            stroke_linejoin="round",
            **(dashes if layer.dashes else {}),
        )
        for item in group.items:
            held.extend(self.elements(item, layer))
        return held

    def elements(self, item: Item, layer: Layer) -> Iterable[Element]:
        match item:
            case Text():
                yield self.text(item, layer)
            case Mark():  # its name is its title, which viewers show and programs read
                yield self.path(*mark_lines(item), title=plain(item.name), stroke_dasharray="none")
            case Area():
                yield from self.area(item, layer)
            case Stroke(path, phase):
                carried = sum(layer.dashes) if phase else 0.0
                offset = {"stroke_dashoffset": _number(phase % carried)} if carried else {}
                yield self.path(path, **offset)

    def path(self, *paths: Path, **told: str) -> Element:
        return _element("path", d=" ".join(self.data(path) for path in paths), **told)

    def area(self, area: Area, layer: Layer) -> Iterable[Element]:
        lines = hatch_lines(area, layer.hatching, layer.hatch[0])
        if lines:
            hatch = (Path((Line(a, b),)) for a, b in lines)
            width = _number(layer.hatch[1])
            yield self.path(*hatch, stroke_dasharray="none", stroke_width=width)
        solid = {"fill": layer.colour} if layer.hatching == "solid" else {}
        if area.edged or solid:
            edge = {} if area.edged else {"stroke": "none"}
            yield self.path(area.boundary, *area.holes, fill_rule="evenodd", **solid, **edge)

    def text(self, text: Text, layer: Layer) -> Element:
        x, y = self.at(text.at)
        weight = {"font_weight": "bold"} if text.bold else {}
        halo = {
            "stroke": "#ffffff",
            "stroke_width": _number(2 * text.halo),
            "paint_order": "stroke",
            "stroke_linejoin": "round",
        }
        turned = {"transform": f"rotate({_number(-math.degrees(text.turn))} {x} {y})"}
        made = _element(
            "text",
            x=x,
            y=y,
            fill=layer.colour,
            **(halo if text.halo else {"stroke": "none"}),
            font_family=_FACE,
            font_size=_number(text.height / CAP_HEIGHT),
            text_anchor=text.anchor,
            **weight,
            **(turned if text.turn else {}),
        )
        made.text = plain(text.words)
        return made

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
