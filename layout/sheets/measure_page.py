"""The sheet for the pocket: what to measure on a panel, a sketch with blanks, on one page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from ..drawing import layers
from ..drawing.lettering import text_width, wrapped
from ..drawing.scene import Group, Scene, Stroke, Text
from ..geometry import Bounds, Path, Point, circle
from ..template.paper import Margins, Paper, Sheet
from ..words import measure as words
from ..words.measure import Shape
from .template_parts import line

_CAP = 2.5
"""Height of a capital, mm."""

_WRITTEN = 1 + len(words.FIGURES) + 1 + words.DEFECTS + len(words.ASK)
"""Rows to write in; they share what is left of the page."""

_SET = 116.0
"""What the sketch and the paragraphs take, mm."""

_SKETCH = 64.0
"""Height of the sketch with its blanks, mm."""

_BLANK = 24.0
"""Length of a blank in the sketch, mm."""

_COLUMNS = (0.04, 0.28, 0.18, 0.18, 0.16, 0.16)
"""Widths of the columns of the table of defects, as shares."""

_WANE = (0.0, 1.4, -0.8, 1.0, -1.2, 0.6, 1.6, -0.6, 0.4)
"""How a live edge wanders in the sketch, mm."""


def measure_page(shape: Shape, paper: Paper, margins: Margins | None = None) -> Scene:
    """Return the sheet for a panel of some shape, on a page held upright."""
    sheet = Sheet.of(paper, margins or Margins.all(10.0), landscape=False)
    room = sheet.printable
    page = _Page(room, room.top, (room.height - _SET) / _WRITTEN)
    page.say(words.TITLE, 5.0, bold=True)
    page.blanks(words.HEAD)
    page.say(words.HOW[shape])
    page.sketch(shape)
    for row in words.FIGURES:
        page.blanks(row)
    page.table(words.LIVE_DEFECT if shape is Shape.LIVE else words.DEFECT, words.DEFECTS)
    page.say(words.LOOK_FOR)
    for asked in words.ASK:
        page.blanks((asked,))
    page.say(words.THEN)
    groups = (
        Group(layers.PANEL, tuple(page.edges)),
        Group(layers.DIMENSIONS, tuple(page.lines)),
        Group(layers.LETTERING, tuple(page.texts)),
    )
    return Scene(words.TITLE, sheet.frame, groups)


@dataclass
class _Page:
    """A page that is filled from its top."""

    room: Bounds
    y: float
    """What is free lies below this, mm."""
    row: float
    """Between lines to write on, mm."""
    edges: list[Stroke] = field(default_factory=list)
    lines: list[Stroke] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)

    def say(self, told: str, height: float = _CAP, *, bold: bool = False) -> None:
        """Set a paragraph."""
        self.y -= 1.0
        for row in wrapped(told, height, self.room.width, bold):
            self.y -= height * 1.7
            self.texts.append(Text(Point(self.room.left, self.y), row, height, bold=bold))
        self.y -= 1.0

    def blanks(self, labels: Sequence[str]) -> None:
        """Set a row of blanks, evenly wide."""
        self.y -= self.row
        wide = self.room.width / len(labels)
        for i, label in enumerate(labels):
            self.blank(label, Point(self.room.left + i * wide, self.y), wide - 4.0)

    def blank(self, label: str, at: Point, wide: float) -> None:
        """Set a label, and a line to write on as far as the width goes."""
        self.texts.append(Text(at, label, _CAP))
        start = at + Point(text_width(label, _CAP) + 1.5 if label else 0.0, -0.8)
        self.lines.append(Stroke(line(start, Point(at.x + wide, start.y))))

    def table(self, headings: Sequence[str], rows: int) -> None:
        """Set an empty table."""
        left, width = self.room.left, self.room.width
        self.y -= self.row
        top = self.y + 4.0
        edges = [left + width * sum(_COLUMNS[:i]) for i in range(len(_COLUMNS) + 1)]
        for x, told in zip(edges, headings, strict=False):
            self.texts.append(Text(Point(x + 1.0, self.y), told, _CAP, bold=True))
        for number in range(rows + 1):
            self.lines.append(
                Stroke(line(Point(left, self.y - 2), Point(left + width, self.y - 2)))
            )
            if number < rows:
                self.y -= self.row
                letter = "abcdefghijkl"[number]
                self.texts.append(Text(Point(left + 1.0, self.y), letter, _CAP, bold=True))
        for x in edges:
            self.lines.append(Stroke(line(Point(x, top), Point(x, self.y - 2))))
        self.y -= 3.5

    def sketch(self, shape: Shape) -> None:
        """Set the sketch with its blanks."""
        middle = Point(self.room.middle.x, self.y - _SKETCH / 2 - 2)
        self.y -= _SKETCH + 2
        {Shape.SIDES: self._sides, Shape.LIVE: self._live, Shape.ROUND: self._round}[shape](middle)

    def _sides(self, middle: Point) -> None:
        box = Bounds.about(middle, 48.0, 20.0)
        self.edges.append(Stroke(Path.round_box(box)))
        corners = {"A": box.left, "B": box.right, "C": box.right, "D": box.left}
        for letter, x in corners.items():
            low = letter in "AB"
            at = Point(x + (-5 if x == box.left else 5), box.bottom - 5 if low else box.top + 2)
            self.texts.append(Text(at, letter, 3.5, "middle", bold=True))
            corner = Point(x, box.bottom if low else box.top)
            self.lines.append(Stroke(line(corner, corner + (middle - corner) * 0.25)))
        below, above = box.bottom - 6, box.top + 3
        for label, at in (
            ("A–B", Point(middle.x - 42, below)),
            ("C–D", Point(middle.x - 42, above)),
            ("B–C", Point(box.right + 4, middle.y + 3)),
            ("D–A", Point(self.room.left, middle.y + 3)),
            ("A–C", Point(middle.x - 18, middle.y + 4)),
            ("B–D", Point(middle.x - 18, middle.y - 6)),
        ):
            self.blank(label, at, _BLANK + 12)
        for at in (
            Point(middle.x + 4, below),
            Point(middle.x + 4, above),
            Point(box.right + 4, middle.y - 6),
            Point(self.room.left, middle.y - 6),
        ):
            self.blank("rise ±", at, _BLANK + 12)

    def _live(self, middle: Point) -> None:
        box = Bounds.about(middle + Point(8.0, 0.0), self.room.width / 2 - 20, 15.0)
        xs = [box.left + box.width * i / words.STATIONS for i in range(words.STATIONS + 1)]
        for y, way in ((box.top, 1), (box.bottom, -1)):
            edge = [Point(x, y + way * w) for x, w in zip(xs, _WANE, strict=True)]
            self.edges.append(Stroke(Path.through(edge, closed=False)))
        for x in (box.left, box.right):
            self.edges.append(Stroke(line(Point(x, box.bottom), Point(x, box.top))))
        struck = box.bottom + 6
        self.lines.append(Stroke(line(Point(box.left, struck), Point(box.right, struck))))
        for x, name in ((box.left - 5, "P"), (box.right + 2, "Q")):
            self.texts.append(Text(Point(x, struck - 1), name, 3.5, bold=True))
        step = xs[1] - xs[0]
        for x in xs:
            self.lines.append(Stroke(line(Point(x, box.bottom - 3), Point(x, box.top + 3))))
        rows = (box.top + 6, box.bottom - 8, box.bottom - 15)
        for told, y in zip(words.LIVE_ROWS, rows, strict=True):
            self.texts.append(Text(Point(self.room.left, y), told, _CAP))
            for x in xs:
                self.blank("", Point(x - step / 2 + 1.5, y), step - 3)

    def _round(self, middle: Point) -> None:
        self.edges.append(Stroke(circle(middle, 25.0)))
        for i, way in enumerate(_eighths()):
            self.lines.append(Stroke(line(middle - way * 25, middle - way * 19)))
            self.lines.append(Stroke(line(middle + way * 25, middle + way * 19)))
            if i % 2 == 0:
                for end, name in zip((-1, 1), ("AC", "BD")[i // 2], strict=True):
                    at = middle + way * (29.0 * end) + Point(0, -1.7)
                    self.texts.append(Text(at, name, 3.5, "middle", bold=True))
        for k, label in enumerate(words.DIAMETERS):
            self.blank(label, Point(middle.x + 36, middle.y + 14 - 10 * k), 56.0)


def _eighths() -> Iterator[Point]:
    """Yield four directions an eighth of a turn apart, from the front to the back first."""
    half = 0.5**0.5
    yield from (Point(0, 1), Point(half, half), Point(-1, 0), Point(half, -half))
