"""One sheet of a template: first what is drawn, then what finds room beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import reduce

import numpy as np

from ..drawing import layers, scene
from ..drawing.kit.labels import ALONG, LabelSetter, text_along
from ..geometry import Bounds, Placement, Point, at_most, first_of_best
from ..geometry.tolerance import ROUNDING
from ..geometry.window import pieces_in
from ..template.calibration import longest_bar
from ..template.portions import Portion
from ..template.tiles import Tile, TilePlan
from ..words.paper import FLIP, LIES_HERE, TRIM_HERE, correction_words, sheets_words, side_words
from .template_drawing import FACE_MARK, CheckBar, Shown, face_mark, names_of

_NUMBER = 7.0  # height of the sheet's name, mm
# Arm of a register mark, and the ring round it, both halves of which show across a seam, mm
_ARM, _RING = 3.0, 4.0
_BESIDE_MARK = 5.0  # from a register mark's middle to its number, mm: just clear of its arms
_CORNER_ARM = 4.0  # length of a corner cross's arms, mm: they stand out from the register marks
_NAME_HEIGHTS = (3.5, 2.5)  # of a mark's name, mm: the second where the first has no room
_HEADING = 62.0  # width to which a heading's longest words are wrapped, mm
_ROW = 1.75  # distance of a heading's rows by the height of their letters
_CROSSED = 40  # points of drawn lines, 1.5 mm apart, that a bar may cross: few lines, none along


def template_sheet(shown: Shown, plan: TilePlan, tile: Tile) -> scene.Scene:
    """Return one sheet of what a portion shows."""
    sheet, content = _Sheet(shown, plan, tile), shown.content
    sheet.lines()
    sheet.register()
    # names first, for these are bound to their places; the rest can move
    sheet.add(layers.MARK_NAMES, sheet.names())
    sheet.add(layers.FLIP, flip_items(shown.portion, sheet.spots, sheet.shift, content.bounds))
    sheet.add(layers.CHECK_BARS, sheet.bars())
    sheet.add(layers.SHEET, sheet.register_names())
    sheet.add(layers.LETTERING, sheet.heading())
    sheet.add(layers.SHEET, seam_items(tile, plan, sheet.spots, sheet.cell))
    title = f"Sheet {tile.name}, {content.title}"
    return scene.Scene(title, plan.sheet.frame, scene.grouped(sheet.drawn), plan.stretch)


class _Sheet:
    """What stands on a sheet so far, and where there is room."""

    def __init__(self, shown: Shown, plan: TilePlan, tile: Tile) -> None:
        self.shown, self.plan, self.tile = shown, plan, tile
        self.shift = plan.shift(tile)
        self.room, self.cell = tile.window.moved(self.shift), tile.cell.moved(self.shift)
        marks = (mark for mark in plan.register_marks if tile.name in mark.tiles)
        self.marks = [(mark.at + self.shift, f"{mark.number}") for mark in marks]
        crosses = (cross for cross in plan.corner_crosses if cross.tile == tile.name)
        self.crosses = [(cross.at + self.shift, cross.name) for cross in crosses]
        self.crossed: list[Bounds] = []
        self.drawn: list[tuple[scene.Layer, scene.Item]] = []
        self.spots = LabelSetter(self.room)
        points = shown.points + np.array([*self.shift])
        self.spots.keep_clear_at(points[self.room.holds_points(points)], half=0.3)

    def add(self, layer: scene.Layer, items: Iterable[scene.Item]) -> None:
        """Draw items on a layer."""
        self.drawn += [(layer, item) for item in items]

    def lines(self) -> None:
        """Draw what of the template lies on this sheet; dashes carry on from sheet to sheet."""
        window, laid = self.tile.window, Placement(self.shift)
        for layer, path, box in self.shown.lines:
            if min(box.shared(window)) >= 0:
                for piece in pieces_in(path, window):
                    phase = piece.start if layer.dashes else 0.0
                    self.add(layer, [scene.Stroke(piece.path.placed(laid), phase)])

    def register(self) -> None:
        """Draw register marks and corner crosses; keep words off them, marks and seams."""
        for mark in self.shown.marks:
            if self.tile.window.holds(mark.at):
                self.spots.keep_clear(mark.ring.bounds.moved(self.shift))
        for start, end, *_ in seams_of(self.tile, self.cell):
            self.spots.keep_clear(Bounds.around((start, end)).grown(0.3))
        crosses = [scene.Mark(at, _ARM, _RING) for at, _ in self.marks]
        crosses += [scene.Mark(at, _CORNER_ARM) for at, _ in self.crosses]
        self.crossed = [Bounds.about(cross.at, cross.arm) for cross in crosses]
        self.spots.keep_clear(*self.crossed)
        self.add(
            layers.SHEET,
            (scene.Stroke(path) for cross in crosses for path in scene.mark_lines(cross)),
        )

    def register_names(self) -> Iterator[scene.Item]:
        """Yield the register marks' numbers, in this sheet's cell, and the crosses' names."""
        self.spots.room = self.cell
        for at, words in self.marks:
            yield from self.spots.set(scene.Text(at, words), off=_BESIDE_MARK, within=True)
        self.spots.room = self.room
        for at, words in self.crosses:
            yield from self.spots.set(scene.Text(at, words, 3.5), within=True)

    def names(self) -> Iterator[scene.Item]:
        """Yield the names of what is marked in this sheet's cell."""
        shown, cell = self.shown, self.tile.cell
        kept = tuple(
            piece.path
            for layer, path, _ in shown.lines
            for piece in (pieces_in(path, cell) if layer == layers.KEPT else ())
        )
        here = replace(shown.content, marks=shown.marks, kept=kept)
        return names_of(here, cell, self.spots, self.shift, *_NAME_HEIGHTS)

    def bars(self) -> Iterator[scene.Item]:
        """Yield the two check bars, each as long as the sheet holds, where no line runs along."""
        for upright in (False, True):
            bar = self._clearest_bar(upright=upright)
            yield from bar.lines()
            self.spots.keep_clear(bar.box)
            texts = (bar.text(share, after=after) for share in ALONG for after in (True, False))
            yield from self.spots.placed(texts, apart=0.5)

    def _clearest_bar(self, *, upright: bool) -> CheckBar:
        room, tape = self.room, self.shown.content.tape
        length = longest_bar((room.height if upright else room.width) - 1.0, tape)
        middle, corner = room.middle, Point(self.cell.left, self.cell.bottom)
        tried: list[tuple[float, CheckBar]] = []
        for off in range(14, int(min(room.width, room.height) / 2), 4):
            start = Point(middle.x - length / 2, corner.y + off)
            if upright:
                start = Point(corner.x + off, middle.y - length / 2)
            bar = CheckBar(start, length, upright, tape)
            box = bar.box.grown(1.0)
            shared = [box.shared(Bounds(*taken)) for taken in self.spots.taken]
            covered = sum(5.0 * max(both) for both in shared if min(both) > ROUNDING)
            near = bar.box.grown(1.8)  # or a rule laid along it hides the arms of a cross
            met = sum(min(near.shared(cross)) > ROUNDING for cross in self.crossed)
            drawn = self.spots.drawn_in(bar.box.grown(2.0))
            tried.append((drawn + covered + 10 * _CROSSED * met, bar))
            if at_most(tried[-1][0], _CROSSED):
                break
        return first_of_best(tried, lambda found: -found[0], tolerance=ROUNDING)[1]

    def heading(self) -> list[scene.Item]:
        """Return name, face mark and what must be known; on narrow paper of that the side alone."""
        content, plan, cell = self.shown.content, self.plan, self.cell
        wide, high = FACE_MARK
        side, count = side_words(content), sheets_words(len(plan.tiles))
        rows = [
            (f"{content.title} · {self.shown.portion.name} · {count}", 2.5, False),
            (side, 3.5 if content.mirrored else 2.5, content.mirrored),
            ("print at 100 %, then measure both bars", 2.5, False),
        ]
        if not plan.correction.is_none:
            fixed = f"corrected {correction_words(plan.correction)}"
            rows += [(words, 2.5, False) for words in scene.wrapped(fixed, 2.5, _HEADING)]
        name = f"sheet {self.tile.name}"
        named = wide + 3.0 + scene.text_width(name, _NUMBER, bold=True)
        width = max(named, *(scene.text_width(words, h, bold) for words, h, bold in rows))
        height = high + 1.0 + sum(_ROW * h for _, h, _ in rows)
        block = Bounds(-1.0, -1.0, width + 1.0, height + 1.0)
        # from the upper left of the cell, row by row
        ys = np.arange(cell.top - height - 8.0, cell.bottom + 8.0 - ROUNDING, -8.0)
        xs = np.arange(cell.left + 16.0, cell.right - 8.0 - width + ROUNDING, 10.0)
        places = (Point(float(x), float(y)) for y in ys for x in xs)
        corner = self.spots.best((at, block.moved(at)) for at in places)
        flag = Point(self.room.left + 2, self.room.top - high - 1)
        if corner is None:
            rows = [("MIRRORED" if content.mirrored else "face up", 2.5, True)]
        else:
            flag = corner + Point(0, height - high)
        at = flag + Point(wide + 3.0, high - 9.5)
        items: list[scene.Item] = [*face_mark(flag, mirrored=content.mirrored)]
        items.append(scene.Text(at, name, _NUMBER, bold=True))
        at = flag - Point(0, 0.5)
        for words, h, bold in rows:
            at -= Point(0, _ROW * h)
            items.append(scene.Text(at, words, h, bold=bold))
        return items


_LETTERS = 2.5
# Where along a seam its words may stand, from the middle outwards
_SHARES = (0.5, *(0.5 + side * k / 25 for k in range(1, 12) for side in (-1, 1)))
_LEAST_FLIP = 40.0  # on less of a flip line than this its words find no room, mm


def seams_of(tile: Tile, cell: Bounds) -> Iterator[tuple[Point, Point, str, bool]]:
    """Yield the seams of a sheet from below or the left, the neighbour, whether it lies under that.

    Else, at the right and below, it is trimmed.
    """
    lower_left, lower_right, upper_right, upper_left = cell.corners
    seams = (
        (lower_right, upper_right, tile.right, False),
        (lower_left, lower_right, tile.below, False),
        (lower_left, upper_left, tile.left, True),
        (upper_left, upper_right, tile.above, True),
    )
    return (seam for seam in seams if seam[2])


def seam_items(
    tile: Tile, plan: TilePlan, spots: LabelSetter, cell: Bounds
) -> Iterator[scene.Item]:
    """Yield the seams of a sheet with what to do at each, in the middle of the strip beyond it."""
    strip = plan.overlap / 2
    letters = min(_LETTERS, strip - 2.0)
    for start, end, neighbour, under in seams_of(tile, cell):
        yield scene.line(start, end)
        off = (strip - letters) / 2 * (1 if under else -1)
        words = (LIES_HERE if under else TRIM_HERE).format(neighbour)
        yield from spots.placed(text_along(start, end, words, letters, s, off) for s in _SHARES)


def flip_items(
    portion: Portion, spots: LabelSetter, shift: Point, box: Bounds
) -> Iterator[scene.Item]:
    """Yield the sign and words for each flip line of a sheet; `box` is the template's own."""
    room = spots.room
    shown = room, box.moved(shift), portion.window.moved(shift)
    left, right = max(b.left for b in shown), min(b.right for b in shown)
    bottom, top = max(b.bottom for b in shown), min(b.top for b in shown)
    if portion.flip_x and room.left < shift.x < room.right and top - bottom > _LEAST_FLIP:
        yield from _flip(Point(shift.x, bottom), Point(shift.x, top), -1, spots)
    if portion.flip_y and room.bottom < shift.y < room.top and right - left > _LEAST_FLIP:
        yield from _flip(Point(left, shift.y), Point(right, shift.y), 1, spots)


def _flip(start: Point, end: Point, side: int, spots: LabelSetter) -> tuple[scene.Item, ...]:
    """Return a flip line's words between two signs, on its left side or (below 0) its right."""
    along, length = (end - start).unit(), start.distance_to(end)
    out, half = along.left * side, scene.text_width(FLIP, _LETTERS) / 2 + 5.0
    offers: list[tuple[tuple[scene.Item, ...], Bounds]] = []
    for share in _SHARES:
        text = text_along(start, end, FLIP, _LETTERS, share, 5.0 * side)
        signs = [
            scene.line(*(start + along * (way + a) + out * o for a, o in _TRIANGLE), closed=True)
            for way in (share * length - half, share * length + half)
            if 0 < way < length
        ]
        boxes = (scene.text_box(text).grown(1.0), *(sign.path.bounds.grown(0.2) for sign in signs))
        offers.append(((text, *signs), reduce(Bounds.joined, boxes)))
    return spots.best(offers) or ()


_TRIANGLE = ((-2.0, 1.5), (2.0, 1.5), (0.0, 6.0))  # corners of a sign: along the line, off it, mm
