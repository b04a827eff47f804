"""Words, tables and drawings set one below the other, on as many pages as they need."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from ...geometry import Bounds, Path, Point
from .. import layers
from ..scene import Item, Layer, Scene, Stroke, Text, grouped, text_width, wrapped

LETTERS = 2.5  # height of a capital in running words, mm: about 10 point
_LEADING = 1.75
_BOX = 3.2
Drawn = tuple[Layer, Item]


class Flow:
    """Fills pages from the top; a new page begins where the next thing does not fit."""

    def __init__(self, frame: Bounds, room: Bounds, title: str) -> None:
        self.frame, self.room, self.title = frame, room, title
        self.pages: list[list[Drawn]] = [[]]
        self.y = room.top

    def space(self, height: float) -> None:
        """Leave some room, unless at the top of a page."""
        if self.y < self.room.top:
            self.y -= height

    def need(self, height: float) -> None:
        """Begin a new page unless so much is left of this one."""
        if self.y - height < self.room.bottom and self.y < self.room.top:
            self.pages.append([])
            self.y = self.room.top
            self.words(f"{self.title}, page {len(self.pages)}", 3.5, bold=True)
            self.space(2.0)

    def put(self, item: Item, layer: Layer = layers.LETTERING) -> None:
        """Add an item to the page."""
        self.pages[-1].append((layer, item))

    def words(
        self, words: str, height: float = LETTERS, *, bold: bool = False, indent: float = 0.0,
        whole: bool = False,
    ) -> None:  # fmt: skip
        """Set a paragraph; a `whole` one stands on one page."""
        rows = wrapped(words, height, self.room.width - indent, bold)
        self.need(height * _LEADING * (len(rows) if whole else 1))
        for row in rows:
            self.need(height * _LEADING)
            self.put(Text(Point(self.room.left + indent, self.y - height), row, height, bold=bold))
            self.y -= height * _LEADING

    def heading(self, words: str) -> None:
        """Set a heading, with room for two rows below it."""
        self.space(3.0)
        self.need(16.0)
        self.words(words, 3.5, bold=True)
        self.space(0.8)

    def check(self, words: str) -> None:
        """Set a paragraph with a box to tick before it."""
        self.need(LETTERS * _LEADING * len(wrapped(words, LETTERS, self.room.width - 6.0)))
        low, left = self.y - LETTERS - 0.35, self.room.left
        self.put(Stroke(Path.round_box(Bounds(left, low, left + _BOX, low + _BOX))))
        self.words(words, indent=6.0)
        self.space(0.8)

    def table(self, rows: Sequence[Sequence[str]], indent: float = 0.0) -> None:
        """Set rows in columns as wide as their widest words; the last column is wrapped."""
        columns = zip(*rows, strict=True)
        widths = [5.0 + max(text_width(cell, LETTERS) for cell in column) for column in columns]
        for row in rows:
            left = indent
            for cell, width in zip(row[:-1], widths, strict=False):
                self.need(LETTERS * _LEADING)
                self.put(Text(Point(self.room.left + left, self.y - LETTERS), cell, LETTERS))
                left += width
            self.words(row[-1], indent=min(left, self.room.width - 20.0))

    def drawing(self, height: float, draw: Callable[[Bounds], Iterable[Drawn]]) -> None:
        """Set a drawing of some height, mm, across the whole room."""
        self.need(height)
        box = Bounds(self.room.left, self.y - height, self.room.right, self.y)
        self.pages[-1].extend(draw(box))
        self.y -= height

    def scenes(self) -> tuple[Scene, ...]:
        """Return the pages."""
        titles = [self.title, *(f"{self.title}, page {n}" for n in range(2, len(self.pages) + 1))]
        pages = zip(titles, self.pages, strict=True)
        return tuple(Scene(title, self.frame, grouped(page)) for title, page in pages)
