"""What joins template sheets: seams with the neighbours' names, and the lines to flip on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce

from ..drawing.kit.labels import LabelSetter, text_along
from ..drawing.scene import Item, line, text_box, text_width
from ..geometry import Bounds, Point
from ..template.portions import Portion
from ..template.tiles import Tile, TilePlan
from ..words.paper import FLIP, seam_words

_LETTERS = 2.5
_SHARES = (0.5, *(0.5 + side * k / 25 for k in range(1, 12) for side in (-1, 1)))
"""Where along a seam its words may stand, from the middle outwards."""

_LEAST_FLIP = 40.0
"""On less of a flip line than this its words find no room, mm."""


@dataclass(frozen=True, slots=True)
class Seam:
    """One side of a cell, from below or from the left."""

    start: Point
    end: Point
    neighbour: str
    under: bool
    """Whether the sheet lies under its neighbour there; else it is trimmed."""


def seams_of(tile: Tile, cell: Bounds) -> Iterator[Seam]:
    """Yield the seams of a sheet: trimmed at the right and below, under the neighbour elsewhere."""
    lower_left, lower_right, upper_right, upper_left = cell.corners
    for seam in (
        Seam(lower_right, upper_right, tile.right, under=False),
        Seam(lower_left, lower_right, tile.below, under=False),
        Seam(lower_left, upper_left, tile.left, under=True),
        Seam(upper_left, upper_right, tile.above, under=True),
    ):
        if seam.neighbour:
            yield seam


def seam_items(tile: Tile, plan: TilePlan, spots: LabelSetter, cell: Bounds) -> Iterator[Item]:
    """Yield the seams of a sheet with what to do at each, in the middle of the strip beyond it."""
    strip = plan.overlap / 2
    letters = min(_LETTERS, strip - 2.0)
    for seam in seams_of(tile, cell):
        yield line(seam.start, seam.end)
        off = (strip - letters) / 2 * (1 if seam.under else -1)
        words = seam_words(seam.neighbour, under=seam.under)
        texts = (text_along(seam.start, seam.end, words, letters, s, off) for s in _SHARES)
        text = spots.best((text, text_box(text)) for text in texts)
        if text is not None:
            yield text


def flip_items(portion: Portion, spots: LabelSetter, shift: Point, box: Bounds) -> Iterator[Item]:
    """Yield the sign and words for each flip line of a sheet; `box` is the template's own."""
    room = spots.room
    shown = room, box.moved(shift), portion.window.moved(shift)
    left, right = max(b.left for b in shown), min(b.right for b in shown)
    bottom, top = max(b.bottom for b in shown), min(b.top for b in shown)
    if portion.flip_x and room.left < shift.x < room.right and top - bottom > _LEAST_FLIP:
        yield from _flip(Point(shift.x, bottom), Point(shift.x, top), -1, spots)
    if portion.flip_y and room.bottom < shift.y < room.top and right - left > _LEAST_FLIP:
        yield from _flip(Point(left, shift.y), Point(right, shift.y), 1, spots)


def _flip(start: Point, end: Point, side: int, spots: LabelSetter) -> tuple[Item, ...]:
    """Return a flip line's words between two signs, on its left side or (below 0) its right."""
    along, length = (end - start).unit(), start.distance_to(end)
    out, half = along.left * side, text_width(FLIP, _LETTERS) / 2 + 5.0
    offers: list[tuple[tuple[Item, ...], Bounds]] = []
    for share in _SHARES:
        text = text_along(start, end, FLIP, _LETTERS, share, 5.0 * side)
        signs = [
            line(*(start + along * (way + a) + out * o for a, o in _TRIANGLE), closed=True)
            for way in (share * length - half, share * length + half)
            if 0 < way < length
        ]
        boxes = (text_box(text).grown(1.0), *(sign.path.bounds.grown(0.2) for sign in signs))
        offers.append(((text, *signs), reduce(Bounds.joined, boxes)))
    return spots.best(offers) or ()


_TRIANGLE = ((-2.0, 1.5), (2.0, 1.5), (0.0, 6.0))
"""Corners of the sign: along the line, and off it, mm."""
