"""The calibration sheet: one rectangle to measure, from which a printer's error is taken out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..drawing import layers
from ..drawing.lettering import wrapped
from ..drawing.scene import Group, Item, Scene, Stroke, Text
from ..geometry.point import Point
from ..template.calibration_bars import CalibrationBars, calibration_sheet
from ..template.paper import Margins, Paper
from ..words.paper import calibration_words
from .template_parts import CheckBar, line, strokes

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
    for words, height, bold in _said(paper, bars, command):
        rows = wrapped(words, height, width, bold)
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
