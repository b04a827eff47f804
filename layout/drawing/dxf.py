"""Scenes as DXF: real entities in millimetres, one layer for each meaning, y up.

The file is for a cutter or another drawing program, so it holds lines to follow and places to
drill: hatching and the arms of crosses stay on paper.
"""

from __future__ import annotations

import io
import math
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Literal

import ezdxf
from ezdxf.colors import RGB, aci2rgb
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.layout import Modelspace

from ..geometry import Arc, EllipticArc, Line, Path, Point, Segment
from ..geometry.oval_parallels import arcs_along
from ..geometry.tolerance import CURVE, SAME_POINT
from .curves import long_axis_first, whole_turn
from .scene import Area, Item, Layer, Mark, Scene, Stroke, Text, plain

# The releases that are written: R2010 for what is in use, R12 for what reads nothing else
Release = Literal["R2010", "R12"]
_MM, _METRIC, _CROSS = 4, 1, 2  # $INSUNITS, $MEASUREMENT; $PDMODE: a point shows as a cross
# ISO 128-2 line types by how many lengths repeat
_LINE_TYPES = {2: ("ISO02", "dashed"), 4: ("ISO04", "long dash, dot")}
# Group codes whose values are real numbers (DXF reference, group code value types)
_REAL_NUMBERS = {*range(10, 60), *range(110, 150), *range(210, 240), *range(1010, 1060)}
_BLACK = "#000000"


def to_dxf(scene: Scene, release: Release = "R2010") -> str:
    """Return the scene as the text of a DXF file; for R12 the text is plain ASCII.

    A boundary of lines and arcs is one polyline with bulges; elliptic arcs are, in R12, arcs within
    0.0005 mm; a mark is a POINT, and a CIRCLE where it has a diameter. Nothing is drawn twice.
    """
    with _no_dates():
        document = _document(scene, release)
        writer = _Writer(document, release)
        for group in scene.groups:
            writer.use(group.layer)
            for item in group.items:
                writer.draw(item)
        if release != "R12":  # in one order: ezdxf takes them from a set
            document.classes.add_required_classes(document.dxfversion)
            document.classes.classes = dict(sorted(document.classes.classes.items()))
        held = io.StringIO()
        document.write(held)
    return _without_exponents(held.getvalue())


def _without_exponents(text: str) -> str:
    """Return the text, pairs of a group code and its value, without exponents."""
    lines = text.split("\n")
    for i in range(1, len(lines), 2):
        if "e" in lines[i] and int(lines[i - 1]) in _REAL_NUMBERS:
            lines[i] = f"{round(float(lines[i]), 12) + 0.0:.12f}".rstrip("0") + "0"
    return "\n".join(lines)


@contextmanager
def _no_dates() -> Iterator[None]:
    """Have ezdxf write fixed dates and ids while the file is made."""
    options = ezdxf.options
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(scene: Scene, release: Release) -> Drawing:
    document = Drawing.new(release)  # ezdxf.new() sets metres, and warns about it for R12
    header, frame = document.header, scene.frame
    if release != "R12":
        header["$MEASUREMENT"] = _METRIC
        header["$INSUNITS"] = _MM
        header["$LUNITS"] = 2
        header["$LWDISPLAY"] = 1
    header["$LTSCALE"] = 1.0
    header["$PDMODE"] = _CROSS
    header["$PDSIZE"] = 6.0
    document.modelspace().reset_extents(
        (frame.left, frame.bottom, 0.0), (frame.right, frame.top, 0.0)
    )
    document.set_modelspace_vport(
        height=1.1 * max(frame.height, frame.width * 0.6), center=(frame.middle.x, frame.middle.y)
    )
    return document


class _Writer:
    """Draws items on the layer in use, each at most once."""

    def __init__(self, document: Drawing, release: Release) -> None:
        self.document = document
        self.space: Modelspace = document.modelspace()
        self.old = release == "R12"
        self.layer, self.on = "", {"layer": ""}
        self.drawn: set[tuple[object, ...]] = set()

    def use(self, layer: Layer) -> None:
        self.layer = layer.key.upper().replace("-", "_") if self.old else layer.key
        self.on = {"layer": self.layer}
        if self.layer in self.document.layers:
            return
        made = self.document.layers.add(
            self.layer, color=_nearest_index(layer.colour), linetype=self.line_type(layer)
        )
        if not self.old:
            if layer.colour != _BLACK:  # index 7 is black or white, whatever shows on the ground
                made.rgb = RGB.from_hex(layer.colour)
            made.dxf.lineweight = round(layer.line_width * 100)
            made.description = plain(layer.title)

    def line_type(self, layer: Layer) -> str:
        if not layer.dashes:
            return "CONTINUOUS"
        kind, words = _LINE_TYPES[len(layer.dashes)]
        name = f"{kind}-{round(layer.line_width * 100):03d}"
        if name not in self.document.linetypes:
            lengths = [d if n % 2 == 0 else -d for n, d in enumerate(layer.dashes)]
            pattern = [sum(layer.dashes), *lengths]
            self.document.linetypes.add(name, pattern, description=f"ISO 128-2 {words}")
        return name

    def draw(self, item: Item) -> None:
        match item:
            case Text():
                self.text(item)
            case Stroke():
                self.path(item.path)
            case Area():
                for path in (item.boundary, *item.holes):
                    self.path(path)
            case Mark():
                if self.once("point", *item.at):
                    self.space.add_point(tuple(item.at), dxfattribs=self.on)
                if item.diameter:
                    self.circle(item.at, item.diameter / 2)

    def once(self, *what: object) -> bool:
        """Whether this has not been drawn on the layer in use; numbers count to 1e-6."""
        key = (self.layer, *(round(w, 6) + 0.0 if isinstance(w, float) else w for w in what))
        fresh = key not in self.drawn
        self.drawn.add(key)
        return fresh

    def text(self, text: Text) -> None:
        words = text.words
        if self.old:  # accents are dropped, and what is left is a "?"
            spelt = unicodedata.normalize("NFKD", plain(words).translate(_IN_R12))
            bare = "".join(letter for letter in spelt if not unicodedata.combining(letter))
            words = bare.encode("ascii", "replace").decode("ascii")
        if self.once("text", *text.at, words):
            turn = math.degrees(text.turn)
            made = self.space.add_text(words, height=text.height, rotation=turn, dxfattribs=self.on)
            held_by = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}[text.anchor]
            made.set_placement(tuple(text.at), align=TextEntityAlignment[held_by])

    def circle(self, centre: Point, radius: float) -> None:
        if self.once("circle", *centre, radius):
            self.space.add_circle(tuple(centre), radius, dxfattribs=self.on)

    def path(self, path: Path) -> None:
        whole = whole_turn(path)
        if isinstance(whole, Arc):
            self.circle(whole.centre, whole.radius)
        elif whole is not None:
            self.ellipse(whole)
        elif path.is_closed and not any(isinstance(s, EllipticArc) for s in path.segments):
            self.boundary(path)
        else:
            for segment in path.segments:
                self.segment(segment)

    def boundary(self, path: Path) -> None:
        """Draw a closed boundary of lines and arcs as one polyline; a bulge is tan(sweep/4)."""
        corners = [
            (s.start.x, s.start.y, math.tan(s.sweep / 4) if isinstance(s, Arc) else 0.0)
            for s in path.segments
        ]
        if self.once("boundary", *(value for corner in corners for value in corner)):
            add = self.space.add_polyline2d if self.old else self.space.add_lwpolyline
            add(corners, format="xyb", close=True, dxfattribs=self.on)

    def segment(self, segment: Segment) -> None:
        if isinstance(segment, EllipticArc):
            self.ellipse(segment)
            return
        ends = sorted((tuple(segment.start), tuple(segment.end)))
        if isinstance(segment, Line):
            if self.once("line", *ends[0], *ends[1]):
                self.space.add_line(tuple(segment.start), tuple(segment.end), dxfattribs=self.on)
        elif self.once("arc", *segment.centre, segment.radius, *ends[0], *ends[1]):
            arc = segment if segment.sweep > 0 else segment.reversed()
            self.space.add_arc(
                tuple(arc.centre),
                arc.radius,
                math.degrees(arc.from_angle) % 360,
                math.degrees(arc.from_angle + arc.sweep) % 360,
                dxfattribs=self.on,
            )

    def ellipse(self, arc: EllipticArc) -> None:
        """Draw an elliptic arc; its longer half-axis comes first and it runs anticlockwise."""
        if self.old:
            for piece in arcs_along(arc, CURVE):
                self.segment(piece)
            return
        run = long_axis_first(arc if arc.sweep > 0 else arc.reversed())
        long = Point.polar(run.half_length, run.turn)
        ends = sorted((tuple(run.start), tuple(run.end)))
        if self.once("ellipse", *run.centre, *long, run.half_width, *ends[0], *ends[1]):
            whole = abs(run.sweep - math.tau) < SAME_POINT
            start = 0.0 if whole else run.from_angle % math.tau
            self.space.add_ellipse(
                tuple(run.centre),
                (*long, 0.0),
                run.half_width / run.half_length,
                start,
                math.tau if whole else start + run.sweep,
                dxfattribs=self.on,
            )


def _nearest_index(colour: str) -> int:
    """Return the numbered colour nearest to ``#rrggbb``; black is 7, which shows on any ground."""
    if colour == _BLACK:
        return 7
    wanted = RGB.from_hex(colour)
    return min(range(1, 250), key=lambda index: math.dist(aci2rgb(index), wanted))


_IN_R12 = str.maketrans(
    {"ø": "%%c", "Ø": "%%c", "°": "%%d", "±": "%%p", "×": "x", "·": "-", "−": "-", "–": "-",
     "—": "-", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "′": "'", "″": '"', "²": "2", "→": "->"}
)  # fmt: skip
"""R12 knows three control codes, for diameter, degree and plus-minus, and else only ASCII."""
