"""Sheets without a plan: what to measure on a panel, and the rectangle that a printer is tried by.

The first is for the pocket, a sketch with blanks, on one page.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ..drawing import layers
from ..drawing.kit.flow import LETTERS, Flow
from ..drawing.scene import Anchor, Group, Item, Scene, Stroke, Text, text_width, wrapped
from ..geometry import Bounds, Path, Point, circle
from ..template.calibration_bars import CalibrationBars, calibration_sheet
from ..template.paper import Margins, Paper, Sheet
from ..words import measure as words
from ..words.measure import Shape
from ..words.paper import calibration_words
from .template_parts import CheckBar, line, strokes

_WRITTEN = 1 + len(words.FIGURES) + 1 + words.DEFECTS + len(words.ASK)
"""Rows to write in; they share what is left of the page."""

_SET = 119.0
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
    page = _Page(Sheet.of(paper, margins or Margins.all(10.0), landscape=False))
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
        self.put(Stroke(line(start, end)), layers.DIMENSIONS)

    def edge(self, path: Path) -> None:
        """Draw an edge of the panel."""
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
        corners = {"A": box.left, "B": box.right, "C": box.right, "D": box.left}
        for letter, x in corners.items():
            low = letter in "AB"
            at = Point(x + (-5 if x == box.left else 5), box.bottom - 5 if low else box.top + 2)
            self.letter(at, letter)
            corner = Point(x, box.bottom if low else box.top)
            self.rule(corner, corner + (middle - corner) * 0.25)
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
            self.edge(Path.through(edge))
        for x in (box.left, box.right):
            self.edge(line(Point(x, box.bottom), Point(x, box.top)))
        struck = box.bottom + 6
        self.rule(Point(box.left, struck), Point(box.right, struck))
        for x, name in ((box.left - 5, "P"), (box.right + 2, "Q")):
            self.letter(Point(x, struck - 1), name, "start")
        step = xs[1] - xs[0]
        for x in xs:
            self.rule(Point(x, box.bottom - 3), Point(x, box.top + 3))
        rows = (box.top + 6, box.bottom - 8, box.bottom - 15)
        for told, y in zip(words.LIVE_ROWS, rows, strict=True):
            self.put(Text(Point(self.room.left, y), told))
            for x in xs:
                self.blank("", Point(x - step / 2 + 1.5, y), step - 3)

    def _round(self, middle: Point) -> None:
        self.edge(circle(middle, 25.0))
        for i, way in enumerate(_eighths()):
            self.rule(middle - way * 25, middle - way * 19)
            self.rule(middle + way * 25, middle + way * 19)
            if i % 2 == 0:
                for end, name in zip((-1, 1), ("AC", "BD")[i // 2], strict=True):
                    at = middle + way * (29.0 * end) + Point(0, -1.7)
                    self.letter(at, name)
        for k, label in enumerate(words.DIAMETERS):
            self.blank(label, Point(middle.x + 36, middle.y + 14 - 10 * k), 56.0)


def _eighths() -> Iterator[Point]:
    """Yield four directions an eighth of a turn apart, from the front to the back first."""
    half = 0.5**0.5
    yield from (Point(0, 1), Point(half, half), Point(-1, 0), Point(half, -half))


_INSET = 12.0

Said = tuple[str, float, bool]
"""Words, the height of their capitals, and whether they are bold."""


def calibration_page(paper: Paper, margins: Margins, command: Sequence[str] = ()) -> Scene:
    """Return the sheet that is printed once and measured along both edges and both diagonals.

    Parameters
    ----------
    command : sequence of str
        What to type, in lines, so that what was read is kept.
    """
    sheet = calibration_sheet(paper, margins)
    bars = CalibrationBars.on(paper, margins)
    box, tape = bars.box, bars.tape
    items: list[Item] = []
    for start, length, upright in (
        (Point(box.left, box.bottom), bars.across, False),
        (Point(box.left, box.top), bars.across, False),
        (Point(box.left, box.bottom), bars.along, True),
        (Point(box.right, box.bottom), bars.along, True),
    ):
        items += strokes(CheckBar(start, length, upright, tape).paths())
    for start, end in (
        (Point(box.left, box.bottom), Point(box.right, box.top)),
        (Point(box.left, box.top), Point(box.right, box.bottom)),
    ):
        # the diagonals are only begun, so that the words keep clear paper
        way = (end - start).unit()
        items += [Stroke(line(start, start + way * _INSET)), Stroke(line(end - way * _INSET, end))]
    texts = _words(paper, bars, command)
    groups = (Group(layers.CHECK_BARS, tuple(items)), Group(layers.LETTERING, texts))
    return Scene(f"Calibration sheet, {paper.name}", sheet.frame, groups)


def _words(paper: Paper, bars: CalibrationBars, command: Sequence[str]) -> tuple[Item, ...]:
    """Return the words: all of them where they find room between the bars, else the first ones."""
    box = bars.box
    items: list[Item] = []
    left, width = box.left + _INSET, box.width - 2 * _INSET
    y = box.top - 2 * _INSET
    for told, height, bold in _said(paper, bars, command):
        rows = wrapped(told, height, width, bold)
        if y - height * 1.75 * len(rows) < box.bottom + _INSET:
            break
        for row in rows:
            y -= height * 1.75
            items.append(Text(Point(left, y), row, height, bold=bold))
        y -= 2.0
    x_at = Point(box.middle.x, box.bottom + 4.0)
    items.append(Text(x_at, f"x  {bars.tape.measure(bars.across)}", 3.5, "middle"))
    y_at = Point(box.left + 7.5, box.middle.y)
    items.append(Text(y_at, f"y  {bars.tape.measure(bars.along)}", 3.5, "middle", math.pi / 2))
    return tuple(items)


def _said(paper: Paper, bars: CalibrationBars, command: Sequence[str]) -> tuple[Said, ...]:
    told = calibration_words(bars, tuple(command))
    return (
        (f"Calibration sheet · {paper.name}", 5.0, True),
        (f"x, along the short edge, should be {bars.words(bars.across)}", 3.5, True),
        (f"y, along the long edge, should be {bars.words(bars.along)}", 3.5, True),
        *((words, 2.5, words in command) for words in told),
    )
