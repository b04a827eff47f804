"""Sheets that need no plan: a quick answer, a panel to measure, a printer to try."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from ..drawing import layers
from ..drawing.kit.flow import LETTERS, Flow
from ..drawing.scene import Anchor, Group, Item, Mark, Scene, Stroke, Text, line, text_width
from ..geometry import Arc, Bounds, Path, Point, circle
from ..marking.quick import Division, MarkedArc, MarkedSuperellipse
from ..template.calibration import CalibrationBars, calibration_sheet
from ..template.content import TemplateContent, TemplateMark
from ..template.paper import Margins, Paper, Sheet
from ..units import Tape
from ..words import measure as words
from ..words.measure import Shape
from ..words.paper import calibration_words
from ..words.ways import Answer
from .template_drawing import CheckBar, template_drawing

_INSET = 12.0  # how far diagonals are drawn from their corners, and words stand off the bars, mm
_ROUND = 25.0  # white round the drawing of an arc, mm


def answer_scene(answer: Answer, tape: Tape) -> Scene:
    """Return an answer drawn at full size: the line, its centres and its centrelines."""
    if isinstance(answer, MarkedArc):
        return _arc_scene(answer, tape)
    if isinstance(answer, MarkedSuperellipse | Division):
        raise TypeError(f"{type(answer).__name__} is a table, not a drawing")
    outline = answer.outline
    best: Any = next((m for m in answer.methods if m.serves), answer.methods[0])
    content = TemplateContent(
        title=f"{outline.name} {tape.figure(outline.length)} × {tape.measure(outline.width)}",
        finish=outline.path(),
        marks=tuple(TemplateMark(pivot.name, pivot.at) for pivot in best.pivots),
        symmetric_x=True,
        symmetric_y=True,
        tape=tape,
    )
    return template_drawing(content)


def _arc_scene(answer: MarkedArc, tape: Tape) -> Scene:
    """Return the arc over its chord, with an upright at each station."""
    left, right = Point(-answer.chord / 2, 0.0), Point(answer.chord / 2, 0.0)
    arc = Path((Arc.from_chord_and_rise(right, left, answer.rise),))
    places = dict.fromkeys(Point(s * o.out, o.up) for o in answer.ordinates for s in (1, -1))
    uprights = (line(Point(place.x, 0.0), place) for place in places if place.y > 0)
    told = tape.fill("chord {chord:measure}, rise {rise:measure}, radius {radius:measure}", answer)
    groups = (
        Group(layers.CENTRELINE, (line(left, right), *uprights)),
        Group(layers.FINISH, (Stroke(arc),)),
        Group(layers.MARKS, tuple(map(Mark, (left, right, Point(0.0, answer.rise))))),
        Group(layers.LETTERING, (Text(Point(0.0, -12.0), told, 5.0, "middle"),)),
    )
    return Scene(told, arc.bounds.joined(Bounds.around((left, right))).grown(_ROUND), groups)


def calibration_page(paper: Paper, margins: Margins, command: Sequence[str] = ()) -> Scene:
    """Return the sheet that a printer is tried by, with a `command` to type in lines of its own."""
    bars = CalibrationBars.on(paper, margins)
    box, told = bars.box, f"Calibration sheet · {paper.name}"
    room = replace(box.grown(-_INSET), top=box.top - 2 * _INSET)
    flow = Flow(calibration_sheet(paper, margins).frame, room, told.replace(" ·", ","))
    for item in _bars(bars):
        flow.put(item, layers.CHECK_BARS)
    x_at, y_at = Point(box.middle.x, box.bottom + 4.0), Point(box.left + 7.5, box.middle.y)
    flow.put(Text(x_at, f"x  {bars.tape.measure(bars.across)}", 3.5, "middle"))
    flow.put(Text(y_at, f"y  {bars.tape.measure(bars.along)}", 3.5, "middle", math.pi / 2))
    flow.words(told, 5.0, bold=True, whole=True)
    for side, length in (("x, along the short", bars.across), ("y, along the long", bars.along)):
        flow.space(2.0)
        flow.words(f"{side} edge, should be {bars.words(length)}", 3.5, bold=True, whole=True)
    for said in calibration_words(bars, tuple(command)):
        flow.space(2.0)
        flow.words(said, bold=said in command, whole=True)
    return flow.scenes()[0]


def _bars(bars: CalibrationBars) -> Iterator[Item]:
    lower_left, lower_right, upper_right, upper_left = bars.box.corners
    for start in (lower_left, upper_left):
        yield from CheckBar(start, bars.across, upright=False, tape=bars.tape).lines()
    for start in (lower_left, lower_right):
        yield from CheckBar(start, bars.along, upright=True, tape=bars.tape).lines()
    for start, end in ((lower_left, upper_right), (upper_left, lower_right)):
        # the diagonals are only begun, so that the words keep clear paper
        way = (end - start).unit() * _INSET
        yield from (line(start, start + way), line(end - way, end))


# Rows to write in; they share what is left of the page
_WRITTEN = 1 + len(words.FIGURES) + 1 + words.DEFECTS + len(words.ASK)
# What the sketch and the paragraphs take, and of that the sketch with its blanks, mm
_SET, _SKETCH = 119.0, 64.0
_BLANK = 24.0  # length of a blank in the sketch, mm
_COLUMNS = (0.04, 0.28, 0.18, 0.18, 0.16, 0.16)  # widths of columns of defects, as shares
_WANE = (0.0, 1.4, -0.8, 1.0, -1.2, 0.6, 1.6, -0.6, 0.4)  # how a live edge wanders, mm


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
