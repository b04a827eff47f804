"""The rectangle that a printer is tried by: its bars, and what to do with what they read."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..drawing import layers
from ..drawing.kit.flow import Flow
from ..drawing.scene import Item, Scene, Text, line
from ..geometry import Point
from ..template.calibration import CalibrationBars, calibration_sheet
from ..template.paper import Margins, Paper
from ..words.paper import calibration_words
from .template_parts import CheckBar

_INSET = 12.0
"""How far diagonals are drawn from their corners, and words stand off the bars, mm."""


def calibration_page(paper: Paper, margins: Margins, command: Sequence[str] = ()) -> Scene:
    """Return the sheet that is printed once and measured along both edges and both diagonals.

    Words stand between the bars as far as there is room, a `command` to type in lines of its own.
    """
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
    for words in calibration_words(bars, tuple(command)):
        flow.space(2.0)
        flow.words(words, bold=words in command, whole=True)
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
