"""Scenes as PDF pages at true size, one scene a page, with layers that a viewer can switch.

reportlab draws; pikepdf adds the layers (optional content) and asks viewers not to scale. A scene's
`stretch` meets a printer that shrinks: positions are spread, lettering keeps its size.
"""

from __future__ import annotations

import io
import math
from collections.abc import Sequence

import pikepdf
from pikepdf import Array, Dictionary, Name, String
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from ..geometry import Line, Point, Segment
from ..geometry.window import split
from .curves import Trace, cubic_controls, traces
from .scene import CAP_HEIGHT, Group, Layer, Scene, Text, plain

# PDF's operators by whether a path is stroked and filled (ISO 32000-1, 8.5.3)
_PAINT = {(True, False): "S", (False, True): "f*", (True, True): "B*"}
POINTS_PER_MM = 72 / 25.4  # a PDF point is 1/72 inch
# Longest arc drawn as one cubic: 22.5° lie within 7e-8 of the radius, 90° only within 2.7e-4
_BEZIER_TURN = math.pi / 8


def to_pdf(scenes: Sequence[Scene], title: str) -> bytes:
    """Return a PDF with one page for each scene, each of its frame's size."""
    layers = list(dict.fromkeys(group.layer for scene in scenes for group in scene.groups))
    names = {layer: f"L{number}" for number, layer in enumerate(layers, 1)}
    return _finished(_drawn(scenes, title, names), title, names)


def _drawn(scenes: Sequence[Scene], title: str, names: dict[Layer, str]) -> bytes:
    held = io.BytesIO()
    canvas = Canvas(held, pageCompression=0, invariant=1)  # pikepdf packs the streams
    canvas.setTitle(title)
    canvas.setAuthor("Panelwright")
    canvas.setSubject("Print at 100 %, actual size, with no scaling to the page")
    canvas.setCreator("Panelwright")
    canvas.setProducer("reportlab")
    for number, scene in enumerate(scenes, 1):
        page = _Page(canvas, scene)
        canvas.setPageSize((scene.frame.width * POINTS_PER_MM, scene.frame.height * POINTS_PER_MM))
        canvas.bookmarkPage(f"page-{number}")
        canvas.addOutlineEntry(plain(scene.title), f"page-{number}")
        for group in scene.groups:
            canvas.addLiteral(f"/OC /{names[group.layer]} BDC")
            page.draw(group)
            canvas.addLiteral("EMC")
        canvas.showPage()
    canvas.save()
    return held.getvalue()


class _Page:
    """Draws groups on the canvas's current page."""

    def __init__(self, canvas: Canvas, scene: Scene) -> None:
        self.canvas = canvas
        frame, middle = scene.frame, scene.frame.middle
        self.middle = middle
        self.corner = Point(middle.x - frame.left, middle.y - frame.bottom) * POINTS_PER_MM
        self.across, self.up = (factor * POINTS_PER_MM for factor in scene.stretch)

    def draw(self, group: Group) -> None:
        layer = group.layer
        self.canvas.saveState()
        colour = [int(layer.colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
        self.canvas.setStrokeColorRGB(*colour)
        self.canvas.setFillColorRGB(*colour)
        self.canvas.setLineWidth(layer.line_width * POINTS_PER_MM)
        self.canvas.setLineJoin(1)
        self.dash(layer.dashes)
        for item in group.items:
            if isinstance(item, Text):
                self.text(item)
            else:
                for trace in traces(item, layer):
                    self.trace(trace, layer)
        self.canvas.restoreState()

    def dash(self, lengths: tuple[float, ...] = (), phase: float = 0.0) -> None:
        """Set dashes, begun as far into them as the phase says; without any, a line drawn through.

        PDF knows no exponents (ISO 32000-1, 7.3.3), so no number is left to ``str``.
        """
        start = phase % sum(lengths) if lengths else 0.0
        written = " ".join(f"{length * POINTS_PER_MM:.4f}" for length in lengths)
        self.canvas.addLiteral(f"[{written}] {start * POINTS_PER_MM:.4f} d")

    def trace(self, trace: Trace, layer: Layer) -> None:
        """Draw paths by PDF's own operators, 1e-4 points or 4e-5 mm true."""
        own = bool(trace.width or not trace.dashed)
        if own:
            self.canvas.saveState()
            self.dash()
            self.canvas.setLineWidth((trace.width or layer.line_width) * POINTS_PER_MM)
        elif layer.dashes:
            self.dash(layer.dashes, trace.phase)
        held: list[str] = []
        for path in trace.paths:
            held.append(f"{self.written(path.segments[0].start)} m")
            for segment in path.segments:
                held += [self.step(piece) for piece in split(segment, _BEZIER_TURN)]
            if path.is_closed:
                held.append("h")
        held.append(_PAINT[trace.stroked, trace.filled])
        self.canvas.addLiteral(" ".join(held))
        if own:
            self.canvas.restoreState()

    def step(self, segment: Segment) -> str:
        if isinstance(segment, Line):
            return f"{self.written(segment.end)} l"
        points = (*cubic_controls(segment), segment.end)
        return " ".join(self.written(point) for point in points) + " c"

    def written(self, point: Point) -> str:
        x, y = self.at(point)
        return f"{x:.4f} {y:.4f}"

    def text(self, text: Text) -> None:
        words, size = plain(text.words), text.height / CAP_HEIGHT * POINTS_PER_MM
        font = "Helvetica-Bold" if text.bold else "Helvetica"
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
        back = Point.polar(share * stringWidth(words, font, size), text.turn)
        x, y = self.at(text.at)
        cos, sin = math.cos(text.turn), math.sin(text.turn)
        held = self.canvas.beginText()
        held.setTextTransform(cos, sin, -sin, cos, x - back.x, y - back.y)
        held.setFont(font, size)
        held.textOut(words)
        self.canvas.drawText(held)

    def at(self, point: Point) -> tuple[float, float]:
        """Return a point of the scene in points from the page's lower left corner."""
        off = point - self.middle
        return self.corner.x + off.x * self.across, self.corner.y + off.y * self.up


def _finished(drawn: bytes, title: str, names: dict[Layer, str]) -> bytes:
    """Return the file with its layers, its wish not to be scaled, and an id from its content."""
    held = io.BytesIO()
    with pikepdf.open(io.BytesIO(drawn)) as pdf:
        # each layer is named once, and every page points at them (ISO 32000-1, 8.11)
        groups = {
            f"/{name}": pdf.make_indirect(
                Dictionary(Type=Name.OCG, Name=String(layer.title), Intent=Name.View)
            )
            for layer, name in names.items()
        }
        properties, listed = pdf.make_indirect(Dictionary(groups)), list(groups.values())
        for page in pdf.pages:
            page.obj.Resources.Properties = properties
        shown = Dictionary(Name=String("Layers"), BaseState=Name.ON, Order=Array(listed))
        pdf.Root.OCProperties = Dictionary(OCGs=Array(listed), D=shown)
        pdf.Root.ViewerPreferences = Dictionary(
            {
                "/PrintScaling": Name("/None"),  # Name.None_ would write /None_
                "/PickTrayByPDFSize": True,
                "/DisplayDocTitle": True,
                "/Duplex": Name("/Simplex"),
            }
        )
        pdf.Root.Lang = String("en-GB")
        for key in ("/CreationDate", "/ModDate", "/Trapped"):
            if key in pdf.docinfo:
                del pdf.docinfo[key]
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
            metadata["dc:title"] = title
        pdf.save(held, min_version="1.7", deterministic_id=True)
    return held.getvalue()
