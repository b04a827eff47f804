"""One sheet of a template: first what is drawn, then what finds room beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ..drawing import layers
from ..drawing.kit.labels import LabelSetter
from ..drawing.scene import Group, Item, Layer, Scene, Stroke, Text, text_box, text_width, wrapped
from ..geometry import Bounds, Placement, Point, at_most, first_of_best
from ..geometry.tolerance import ROUNDING
from ..geometry.window import Cutter
from ..template.calibration import longest_bar
from ..template.content import mark_ring
from ..template.tiles import Tile, TilePlan
from ..units import Tape
from ..words.paper import correction_words, sheets_words, side_words
from .template_drawing import Shown, names_of
from .template_parts import ARM, FACE_MARK, CheckBar, cross_at, face_mark, register_cross, strokes
from .template_seams import flip_items, seam_items, seams_of


class TemplateSheet:
    """Composes one sheet: first what is drawn, then what finds room beside it."""

    def __init__(self, shown: Shown, plan: TilePlan, tile: Tile) -> None:
        self.shown, self.plan, self.tile = shown, plan, tile
        self.shift = plan.shift(tile)
        self.to_sheet = Placement(self.shift)
        self.own_marks = [m for m in plan.register_marks if tile.name in m.tiles]
        self.own_crosses = [c for c in shown.crosses if c.tile == tile.name]
        self.room = tile.window.moved(self.shift)
        self.cell = tile.cell.moved(self.shift)
        points = shown.points + np.array([self.shift.x, self.shift.y])
        self.spots = LabelSetter(self.room)
        self.spots.keep_clear_at(points[self.room.holds_points(points)], half=0.3)

    @property
    def name(self) -> str:
        """What the sheet is called."""
        return f"sheet {self.tile.name}"

    def scene(self) -> Scene:
        """Return the sheet."""
        content, plan, tile = self.shown.content, self.plan, self.tile
        drawn = list(self.drawing())
        self.reserve()
        register = self.register()
        names = self.names()  # first, for these are bound to their places; the rest can move
        flips = flip_items(self.shown.portion, self.spots, self.shift, self.shown.box)
        bars = self.bars()
        numbers = self.register_names()
        heading = self.heading()
        seams = seam_items(tile, plan, self.spots, self.cell)
        groups = (
            *drawn,
            Group(layers.FLIP, flips),
            Group(layers.SHEET, (*seams, *register, *numbers)),
            Group(layers.CHECK_BARS, bars),
            Group(layers.MARK_NAMES, names),
            Group(layers.LETTERING, heading),
        )
        kept = tuple(group for group in groups if group.items)
        title = f"Sheet {tile.name}, {content.title}"
        return Scene(title, plan.sheet.frame, kept, plan.stretch)

    def reserve(self) -> None:
        """Keep words off the marks and the seams."""
        for mark in self.shown.marks:
            if self.tile.window.holds(mark.at):
                self.spots.keep_clear(mark_ring(mark).bounds.moved(self.shift))
        for seam in seams_of(self.tile, self.cell):
            self.spots.keep_clear(Bounds.around((seam.start, seam.end)).grown(0.3))

    def drawing(self) -> Iterator[Group]:
        """Yield what of the template lies on this sheet, cut to it, layer by layer."""
        held: dict[Layer, list[Item]] = {}
        window = self.tile.window
        for layer, cutter, box in self.shown.lines:
            if min(box.shared(window)) >= 0:
                held.setdefault(layer, []).extend(self.strokes(layer, cutter))
        for layer, items in held.items():
            yield Group(layer, tuple(items))

    def strokes(self, layer: Layer, cutter: Cutter) -> Iterator[Stroke]:
        """Yield what of a line lies on this sheet; dashes carry on from sheet to sheet."""
        for piece in cutter.pieces(self.tile.window):
            phase = piece.start if layer.dashes else 0.0
            yield Stroke(piece.path.placed(self.to_sheet), phase)

    def register(self) -> tuple[Item, ...]:
        """Return the register marks and corner crosses of this sheet."""
        marks = [mark.at + self.shift for mark in self.own_marks]
        corners = [cross.at + self.shift for cross in self.own_crosses]
        self.spots.keep_clear(*(Bounds.about(at, ARM) for at in marks))
        self.spots.keep_clear(*(Bounds.about(at, _CORNER_ARM) for at in corners))
        drawn = (*map(register_cross, marks), *(cross_at(at, _CORNER_ARM) for at in corners))
        return tuple(item for paths in drawn for item in strokes(paths))

    def register_names(self) -> tuple[Item, ...]:
        """Return the register marks' numbers, in this sheet's cell, and the crosses' names."""
        inner = replace(self.spots, room=self.cell)
        items: list[Item] = []
        for mark in self.own_marks:
            at, words = mark.at + self.shift, str(mark.number)
            items += inner.set(Text(at, words), off=_BESIDE_MARK, within=True)
        for cross in self.own_crosses:
            named = Text(cross.at + self.shift, cross.name, 3.5)
            items += self.spots.set(named, within=True)
        return tuple(items)

    def bars(self) -> tuple[Item, ...]:
        """Return the two check bars, each as long as the sheet holds, where no line runs along."""
        tape = self.shown.content.tape
        items: list[Item] = []
        for upright in (False, True):
            bar = self._clearest_bar(tape, upright=upright)
            items += strokes(bar.paths())
            self.spots.keep_clear(bar.box)
            words = self.spots.best(
                (text, text_box(text).grown(0.5))
                for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
                for after in (True, False)
                for text in [bar.text(share, after=after)]
            )
            items += [words] if words else []
        return tuple(items)

    def _clearest_bar(self, tape: Tape, *, upright: bool) -> CheckBar:
        room = self.room
        length = longest_bar((room.height if upright else room.width) - 1.0, tape)
        tried: list[tuple[float, CheckBar]] = []
        for off in range(14, int(min(room.width, room.height) / 2), 4):
            start = (
                Point(self.cell.left + off, room.bottom + (room.height - length) / 2)
                if upright
                else Point(room.left + (room.width - length) / 2, self.cell.bottom + off)
            )
            bar = CheckBar(start, length, upright, tape)
            near, box = bar.box.grown(2.0), bar.box.grown(1.0)
            shared = (box.shared(taken) for taken in self.spots.taken)
            along = self.spots.drawn_in(near) + sum(
                5.0 * max(wide, high) for wide, high in shared if min(wide, high) > ROUNDING
            )
            tried.append((along, bar))
            if at_most(along, _CROSSED):
                break
        return first_of_best(tried, lambda found: -found[0], tolerance=ROUNDING)[1]

    def heading(self) -> tuple[Item, ...]:
        """Return the sheet's name, the face mark and what must be known, as one block."""
        content, plan = self.shown.content, self.plan
        side, portion = side_words(content), self.shown.portion.name
        count = sheets_words(len(plan.tiles))
        rows = [
            (f"{content.title} · {portion} · {count}", 2.5, False),
            (side, 3.5 if content.mirrored else 2.5, content.mirrored),
            ("print at 100 %, then measure both bars", 2.5, False),
        ]
        if not plan.correction.is_none:
            fixed = f"corrected {correction_words(plan.correction)}"
            rows += [(words, 2.5, False) for words in wrapped(fixed, 2.5, _HEADING)]
        named = FACE_MARK[0] + 3.0 + text_width(self.name, _NUMBER, bold=True)
        width = max(named, *(text_width(words, h, bold) for words, h, bold in rows))
        height = FACE_MARK[1] + 1.0 + sum(_ROW * h for _, h, _ in rows)
        block = self.spots.best(
            (Point(x, y), Bounds(x - 1, y - 1, x + width + 1, y + height + 1))
            for x, y in _places(self.cell, width, height)
        )
        if block is None:
            return self._small_heading()
        flag = block + Point(0, height - FACE_MARK[1])
        name_at = block + Point(FACE_MARK[0] + 3.0, height - 9.5)
        items = [*strokes(face_mark(flag, mirrored=content.mirrored))]
        items.append(Text(name_at, self.name, _NUMBER, bold=True))
        y = height - FACE_MARK[1] - 0.5
        for words, h, bold in rows:
            y -= _ROW * h
            items.append(Text(block + Point(0, y), words, h, bold=bold))
        return tuple(items)

    def _small_heading(self) -> tuple[Item, ...]:
        """Return the name, the face mark and the side alone, on paper too narrow for more."""
        side = "MIRRORED" if self.shown.content.mirrored else "face up"
        at = Point(self.room.left + 2, self.room.top - 16)
        return (
            *strokes(face_mark(at + Point(0, 3), mirrored=self.shown.content.mirrored)),
            Text(at + Point(FACE_MARK[0] + 3, 5), self.name, _NUMBER, bold=True),
            Text(at, side, 2.5, bold=True),
        )

    def names(self) -> tuple[Item, ...]:
        """Return the names of what is marked in this sheet's cell."""
        shown, cell = self.shown, self.tile.cell
        kept = (
            piece.path
            for layer, cutter, _ in shown.lines
            for piece in (cutter.pieces(cell) if layer == layers.KEPT else ())
        )
        here = replace(shown.content, marks=shown.marks, kept=tuple(kept))
        return names_of(here, cell, self.spots, self.shift, *_NAME_HEIGHTS)


_NUMBER = 7.0
"""Height of the sheet's name, mm."""

_BESIDE_MARK = 5.0
"""How far a register mark's number stands from its middle, mm: just clear of its arms."""

_CORNER_ARM = 4.0
"""Length of a corner cross's arms, mm: they stand out from the register marks."""

_NAME_HEIGHTS = (3.5, 2.5)
"""Heights of a mark's name, mm: the second where there is no room for the first."""

_HEADING = 62.0
"""Width to which a heading's longest words are wrapped, mm."""

_ROW = 1.75
"""Distance of a heading's rows by the height of their letters."""

_CROSSED = 40
"""Points of drawn lines, 1.5 mm apart, that a bar may cross: a few lines across, none along."""


def _places(cell: Bounds, width: float, height: float) -> Iterator[tuple[float, float]]:
    """Yield places for a block, from the upper left of a cell, row by row."""
    y = cell.top - height - 8.0
    while y >= cell.bottom + 8.0:
        x = cell.left + 16.0
        while x + width <= cell.right - 8.0:
            yield x, y
            x += 10.0
        y -= 8.0
