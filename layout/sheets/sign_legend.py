"""What the signs of the marks mean: drawn beside words, so that a sheet reads without names."""

from __future__ import annotations

from collections.abc import Iterable

from ..drawing import layers
from ..drawing.lettering import fitted_height, text_width
from ..drawing.scene import Item, Layer, Mark, Sign, Text, mark_lines
from ..geometry import Bounds, Point
from ..template.content import TemplateMark
from ..words.paper import SIGNS
from .template_parts import strokes

_ARM = 2.5
_BESIDE = 2.0
_BETWEEN = 7.0
_ROW = 7.0
"""Height of a row, mm."""


def signs_of(marks: Iterable[TemplateMark]) -> tuple[Sign, ...]:
    """Return the signs that some marks bear, in the order of the legend."""
    borne = {mark.sign for mark in marks}
    return tuple(sign for sign in SIGNS if sign in borne)


def legend_height(signs: tuple[Sign, ...]) -> float:
    """Return how high the legend is when it is set in rows, mm."""
    return _ROW * len(signs)


def legend_rows(signs: tuple[Sign, ...], box: Bounds) -> list[tuple[Layer, Item]]:
    """Return the legend in rows from the upper left of a box, each item with its layer."""
    items: list[tuple[Layer, Item]] = []
    for row, sign in enumerate(signs):
        middle = Point(box.left + _ARM + 1.0, box.top - _ROW * (row + 0.5))
        items += [(layers.MARKS, item) for item in strokes(mark_lines(_sample(sign, middle)))]
        at = middle + Point(_ARM + _BESIDE, -1.25)
        items.append((layers.LETTERING, Text(at, SIGNS[sign], 2.5)))
    return items


def legend_line(signs: tuple[Sign, ...], start: Point, room: float) -> tuple[Item, ...]:
    """Return the legend in one line from its middle left, its words as high as `room`, mm, lets."""
    fixed = len(signs) * (2 * _ARM + _BESIDE + _BETWEEN)
    height = fitted_height("".join(SIGNS[sign] for sign in signs), 3.5, room - fixed)
    items: list[Item] = []
    x = start.x
    for sign in signs:
        middle = Point(x + _ARM, start.y)
        items += strokes(mark_lines(_sample(sign, middle)))
        at = middle + Point(_ARM + _BESIDE, -height / 2)
        items.append(Text(at, SIGNS[sign], height))
        x = at.x + text_width(SIGNS[sign], height) + _BETWEEN
    return tuple(items)


def _sample(sign: Sign, at: Point) -> Mark:
    return Mark(at, _ARM, 2.0 if sign in ("nail", "hole") else 0.0, sign)
