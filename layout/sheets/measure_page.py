"""What to measure on a panel: a sketch with blanks, on one page for the pocket."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..drawing import layers
from ..drawing.kit.flow import LETTERS, Flow
from ..drawing.scene import Anchor, Scene, Stroke, Text, line, text_width
from ..geometry import Bounds, Path, Point, circle
from ..template.paper import Margins, Paper, Sheet
from ..words import measure as words
from ..words.measure import Shape

_WRITTEN = 1 + len(words.FIGURES) + 1 + words.DEFECTS + len(words.ASK)
"""Rows to write in; they share what is left of the page."""

_SET, _SKETCH = 119.0, 64.0
"""What the sketch and the paragraphs take, and of that the sketch with its blanks, mm."""

_BLANK = 24.0
"""Length of a blank in the sketch, mm."""

_COLUMNS = (0.04, 0.28, 0.18, 0.18, 0.16, 0.16)
"""Widths of the columns of the table of defects, as shares."""

_WANE = (0.0, 1.4, -0.8, 1.0, -1.2, 0.6, 1.6, -0.6, 0.4)
"""How a live edge wanders in the sketch, mm."""


def measure_page(shape: Shape, paper: Paper) -> Scene:
    """Return the sheet for a panel of some shape, on a page held upright."""
    page = _Page(Sheet.of(paper, Margins.all(10.0), landscape=False))
    page.say(words.TITLE, 5.0, bold=True)
    page.blanks(words.HEAD)
    page.say(words.HOW[shape])
    page.sketch(shape)
    for row in words.FIGURES:
        page.blanks(row)
    page.empty_table(words.LIVE_DEFECT if shape is Shape.LIVE else words.DEFECT, words.DEFECTS)
    page.say(words.LOOK_FOR)
    for asked in words.ASK:
        page.blanks((asked,))
    page.say(words.THEN)
    (scene,) = page.scenes()
    return scene


class _Page(Flow):
    """A page with lines to write on."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__(sheet.frame, sheet.printable, words.TITLE)
        self.row = (self.room.height - _SET) / _WRITTEN
        """Between lines to write on, mm."""

    def say(self, told: str, height: float = LETTERS, *, bold: bool = False) -> None:
        """Set a paragraph with white round it."""
        self.y -= 0.9 * height
        self.words(told, height, bold=bold)
        self.y += 0.3 * height  # a row to write on has white of its own

    def rule(self, start: Point, end: Point) -> None:
        """Draw a thin line."""
        self.put(line(start, end), layers.DIMENSIONS)

    def edge(self, *paths: Path) -> None:
        """Draw edges of the panel."""
        for path in paths:
            self.put(Stroke(path), layers.PANEL)

    def letter(self, at: Point, name: str, anchor: Anchor = "middle") -> None:
        """Write the letter of a corner or a struck point."""
        self.put(Text(at, name, 3.5, anchor, bold=True))

    def blanks(self, labels: Sequence[str]) -> None:
        """Set a row of blanks, evenly wide."""
        self.y -= self.row
        wide = self.room.width / len(labels)
        for i, label in enumerate(labels):
            self.blank(label, Point(self.room.left + i * wide, self.y), wide - 4.0)

    def blank(self, label: str, at: Point, wide: float) -> None:
        """Set a label, and a line to write on as far as the width goes."""
        self.put(Text(at, label, LETTERS))
        start = at + Point(text_width(label, LETTERS) + 1.5 if label else 0.0, -0.8)
        self.rule(start, Point(at.x + wide, start.y))

    def empty_table(self, headings: Sequence[str], rows: int) -> None:
        """Set a table to be filled in."""
        left, width = self.room.left, self.room.width
        self.y -= self.row
        top = self.y + 4.0
        edges = [left + width * sum(_COLUMNS[:i]) for i in range(len(_COLUMNS) + 1)]
        for x, told in zip(edges, headings, strict=False):
            self.put(Text(Point(x + 1.0, self.y), told, LETTERS, bold=True))
        for number in range(rows + 1):
            self.rule(Point(left, self.y - 2), Point(left + width, self.y - 2))
            if number < rows:
                self.y -= self.row
                self.put(Text(Point(left + 1.0, self.y), "abcdefghijkl"[number], bold=True))
        for x in edges:
            self.rule(Point(x, top), Point(x, self.y - 2))
        self.y -= 3.5

    def sketch(self, shape: Shape) -> None:
        """Set the sketch with its blanks."""
        middle = Point(self.room.middle.x, self.y - _SKETCH / 2 - 2)
        self.y -= _SKETCH + 2
        {Shape.SIDES: self._sides, Shape.LIVE: self._live, Shape.ROUND: self._round}[shape](middle)

    def _sides(self, middle: Point) -> None:
        box = Bounds.about(middle, 48.0, 20.0)
        self.edge(Path.round_box(box))
        for name, corner in zip("ABCD", box.corners, strict=True):
            out = corner - middle
            self.letter(corner + Point(math.copysign(5, out.x), 2 if out.y > 0 else -5), name)
            self.rule(corner, corner - out * 0.25)
        below, above, left, right = box.bottom - 6, box.top + 3, self.room.left, box.right + 4
        for label, x, y in (
            ("A–B", middle.x - 42, below),
            ("rise ±", middle.x + 4, below),
            ("C–D", middle.x - 42, above),
            ("rise ±", middle.x + 4, above),
            ("B–C", right, middle.y + 3),
            ("rise ±", right, middle.y - 6),
            ("D–A", left, middle.y + 3),
            ("rise ±", left, middle.y - 6),
            ("A–C", middle.x - 18, middle.y + 4),
            ("B–D", middle.x - 18, middle.y - 6),
        ):
            self.blank(label, Point(x, y), _BLANK + 12)

    def _live(self, middle: Point) -> None:
        box = Bounds.about(middle + Point(8.0, 0.0), self.room.width / 2 - 20, 15.0)
        step = box.width / words.STATIONS
        xs = [box.left + step * i for i in range(words.STATIONS + 1)]
        for y, way in ((box.top, 1), (box.bottom, -1)):
            waney = (Point(x, y + way * w) for x, w in zip(xs, _WANE, strict=True))
            self.edge(Path.through(waney))
        lower_left, lower_right, upper_right, upper_left = box.corners
        self.edge(Path.through((lower_left, upper_left)), Path.through((lower_right, upper_right)))
        struck = box.bottom + 6
        self.rule(Point(box.left, struck), Point(box.right, struck))
        for x, name in ((box.left - 5, "P"), (box.right + 2, "Q")):
            self.letter(Point(x, struck - 1), name, "start")
        for x in xs:
            self.rule(Point(x, box.bottom - 3), Point(x, box.top + 3))
        rows = (box.top + 6, box.bottom - 8, box.bottom - 15)
        for told, y in zip(words.LIVE_ROWS, rows, strict=True):
            self.put(Text(Point(self.room.left, y), told))
            for x in xs:
                self.blank("", Point(x - step / 2 + 1.5, y), step - 3)

    def _round(self, middle: Point) -> None:
        self.edge(circle(middle, 25.0))
        for k in range(8):  # an eighth of a turn apart
            way = Point.polar(1.0, math.radians(45 * k - 90))
            self.rule(middle + way * 25, middle + way * 19)
            if k % 2 == 0:
                self.letter(middle + way * 29 + Point(0, -1.7), "ABCD"[k // 2])
        for k, label in enumerate(words.DIAMETERS):
            self.blank(label, Point(middle.x + 36, middle.y + 14 - 10 * k), 56.0)
