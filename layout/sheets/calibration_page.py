"""The calibration sheet: one rectangle to measure, from which a printer's error is taken out."""

from __future__ import annotations

import math

from ..drawing import layers
from ..drawing.lettering import wrapped
from ..drawing.scene import Group, Item, Scene, Stroke, Text
from ..geometry.point import Point
from ..template.calibration import MOST, CalibrationBars, calibration_sheet
from ..template.paper import Margins, Paper
from ..units import Tape
from .template_parts import CheckBar, line, strokes

_INSET = 12.0


def calibration_page(paper: Paper, margins: Margins, tape: Tape) -> Scene:
    """Return the sheet that is printed once and measured along both edges and both diagonals."""
    sheet = calibration_sheet(paper, margins)
    bars = CalibrationBars.on(paper, margins, tape)
    box = bars.box
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
    texts = _words(paper, bars, tape)
    groups = (Group(layers.CHECK_BARS, tuple(items)), Group(layers.LETTERING, texts))
    return Scene(f"Calibration sheet, {paper.name}", sheet.frame, groups)


def _words(paper: Paper, bars: CalibrationBars, tape: Tape) -> tuple[Item, ...]:
    across, along = tape.measure(bars.across), tape.measure(bars.along)
    box = bars.box
    said: tuple[tuple[str, float, bool], ...] = (
        (f"Calibration sheet · {paper.name}", 5.0, True),
        ("Print at 100 % (actual size), with the settings, the paper and the feed that the "
         "template will be printed with. Let the paper lie a quarter of an hour.", 2.5, False),
        ("Measure with a steel rule from outer tick to outer tick, to a quarter of a "
         "millimetre or 1/64 in.", 2.5, False),
        (f"x, along the short edge, should be {across}", 3.5, True),
        (f"y, along the long edge, should be {along}", 3.5, True),
        (f"The two diagonals should both be {tape.exact(bars.diagonal, 1)} {tape.unit}. Where they "
         "differ by more than 0.5 mm (1/32 in) the paper ran in askew: load it again.", 2.5, False),
        ("Give what you read for x and y to the program; it takes the printer's error out of each "
         f"edge. More than {100 * MOST:.0f} % is no printer's error but a page fitted to the wrong "
         "paper: it is refused.", 2.5, False),
    )  # fmt: skip
    items: list[Item] = []
    left, width = box.left + _INSET, box.width - 2 * _INSET
    y = box.top - 2 * _INSET
    for words, height, bold in said:
        for row in wrapped(words, height, width, bold):
            y -= height * 1.75
            items.append(Text(Point(left, y), row, height, bold=bold))
        y -= 2.0
    x_at = Point(box.middle.x, box.bottom + 4.0)
    items.append(Text(x_at, f"x  {across}", 3.5, "middle"))
    y_at = Point(box.left + 7.5, box.middle.y)
    items.append(Text(y_at, f"y  {along}", 3.5, "middle", math.pi / 2))
    return tuple(items)
