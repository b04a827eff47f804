"""What joins template sheets: seams with the neighbours' names, and the lines to flip on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce

from ..drawing.kit.labels import LabelSetter
from ..drawing.scene import Item, Stroke, Text, text_box
from ..geometry import Bounds, Path, Point
from ..template.portions import Portion
from ..template.tiles import Tile, TilePlan
from ..words.paper import FLIP, LIES_HERE, TRIM_HERE
from .template_parts import line

_LETTERS = 2.5
_SHARES = (0.5, *(0.5 + side * k / 25 for k in range(1, 12) for side in (-1, 1)))
"""Where along a seam its words may stand, from the middle outwards."""


@dataclass(frozen=True, slots=True)
class Seam:
    """One side of a cell: where it runs, which way is outward, and what to do there."""

    start: Point
    end: Point
    outward: Point
    words: str


def seam_items(tile: Tile, plan: TilePlan, spots: LabelSetter, cell: Bounds) -> tuple[Item, ...]:
    """Return the seams of a sheet with what to do at each, in the strip beyond it."""
    items: list[Item] = []
    for seam in seams_of(tile, cell):
        items.append(Stroke(line(seam.start, seam.end)))
        words = spots.best(_along(seam, plan.overlap / 2))
        items += [words] if words else []
    return tuple(items)


def seams_of(tile: Tile, cell: Bounds) -> Iterator[Seam]:
    """Yield the seams of a sheet: trimmed at the right and below, under the neighbour elsewhere."""
    lower_left, lower_right, upper_right, upper_left = cell.corners
    for neighbour, start, end, outward, under in (
        (tile.right, lower_right, upper_right, Point(1, 0), False),
        (tile.below, lower_left, lower_right, Point(0, -1), False),
        (tile.left, lower_left, upper_left, Point(-1, 0), True),
        (tile.above, upper_left, upper_right, Point(0, 1), True),
    ):
        if neighbour:
            yield Seam(start, end, outward, (LIES_HERE if under else TRIM_HERE).format(neighbour))


def _along(seam: Seam, strip: float) -> Iterator[tuple[Text, Bounds]]:
    """Yield places for a seam's words: in the middle of its strip, reading from below or right."""
    upright = seam.outward.x != 0
    turn = math.pi / 2 if upright else 0.0
    letters = min(_LETTERS, strip - 2.0)
    # the baseline lies below the letters: left of them where they read upwards
    below = Point(letters / 2, 0.0) if upright else Point(0.0, -letters / 2)
    for share in _SHARES:
        at = seam.start + (seam.end - seam.start) * share + seam.outward * (strip / 2) + below
        text = Text(at, seam.words, letters, "middle", turn)
        yield text, text_box(text)


def flip_items(portion: Portion, spots: LabelSetter, shift: Point, box: Bounds) -> tuple[Item, ...]:
    """Return the sign and words for each flip line of a sheet; `box` is the template's own."""
    room = spots.room
    shown = room, box.moved(shift), portion.window.moved(shift)
    items: list[Item] = []
    for flipped, upright in ((portion.flip_x, True), (portion.flip_y, False)):
        level = shift.x if upright else shift.y
        low, high = _span(room, upright=not upright)
        starts, ends = zip(*(_span(held, upright=upright) for held in shown), strict=True)
        start, end = max(starts), min(ends)
        if flipped and low < level < high and end - start > _LEAST_FLIP:
            items += _flip(level, start, end, spots, upright=upright)
    return tuple(items)


_LEAST_FLIP = 40.0
"""On less of a flip line than this its words find no room, mm."""


def _span(box: Bounds, *, upright: bool) -> tuple[float, float]:
    return (box.bottom, box.top) if upright else (box.left, box.right)


def _flip(
    level: float, start: float, end: float, spots: LabelSetter, *, upright: bool
) -> Iterator[Item]:
    """Yield a flip line's sign and words on the side that is shown."""

    def at(along: float, off: float) -> Point:
        return Point(level + off, along) if upright else Point(along, level + off)

    def signs(middle: float, text: Text) -> tuple[Path, ...]:
        half = (text_box(text).height if upright else text_box(text).width) / 2 + 5.0
        return tuple(
            Path.through((at(place - 2, 1.5), at(place + 2, 1.5), at(place, 6.0)), closed=True)
            for place in (middle - half, middle + half)
            if start < place < end
        )

    turn = math.pi / 2 if upright else 0.0
    offers = []
    for share in _SHARES:
        middle = start + (end - start) * share
        text = Text(at(middle, 5.0 + (2.5 if upright else 0.0)), FLIP, 2.5, "middle", turn)
        held = signs(middle, text)
        boxes = (text_box(text).grown(1.0), *(sign.bounds.grown(0.2) for sign in held))
        offers.append(((text, held), reduce(Bounds.joined, boxes)))
    chosen = spots.best(offers)
    if chosen is None:
        return
    text, held = chosen
    yield text
    yield from map(Stroke, held)
