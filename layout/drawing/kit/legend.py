"""The legend of a drawing: each layer that it uses, with a sample and its meaning."""

from __future__ import annotations

from collections.abc import Iterable

from ...geometry import Bounds, Path, Point
from ..scene import Area, Group, Item, Layer, Stroke, Text

SAMPLE = 14.0
"""Length of a sample line, paper mm."""

ROW = 5.4
"""Height of a row, paper mm."""

LETTERS = 2.5
"""Height of the lettering, paper mm."""


def legend(layers: Iterable[Layer], room: Bounds, lettering: Layer, columns: int) -> list[Group]:
    """Return the groups of a legend that fills `room` column by column from its upper left."""
    held = list(layers)
    rows = -(-len(held) // columns)
    wide = room.width / columns
    groups: list[Group] = []
    for i, layer in enumerate(held):
        column, row = divmod(i, rows)
        left, middle = room.left + column * wide, room.top - (row + 0.5) * ROW
        groups.append(Group(layer, (_sample(layer, left, middle),)))
        words = Text(Point(left + SAMPLE + 2.5, middle - LETTERS / 2), layer.title, LETTERS)
        groups.append(Group(lettering, (words,)))
    return groups


def _sample(layer: Layer, left: float, middle: float) -> Item:
    if layer.hatching != "none":
        return Area(Path.round_box(Bounds(left, middle - 1.6, left + SAMPLE, middle + 1.6)))
    return Stroke(Path.through((Point(left, middle), Point(left + SAMPLE, middle))))
