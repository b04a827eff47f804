"""The tile plan: which part of a template each sheet shows, and how the sheets join.

The sheets lie in a grid. Neighbours share a strip, `overlap` wide, with a seam along its middle.
A sheet's *window* is all that it can show; its *cell* is what it alone must show: the window up to
the seams. Template coordinates throughout, mm, unless a name says sheet.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Set
from dataclasses import dataclass
from functools import reduce

import numpy as np

from ..geometry import Bounds, Point, Points, array_of, first_of_best
from ..geometry.tolerance import SAME_PLACE
from .calibration import TRUE, Correction
from .paper import Margins, Paper, PaperError, Sheet

INK = 0.5  # lines are cut this far inside the margins, mm, so that half their width stays printable
Place = tuple[int, int]  # a row and a column of a grid
Places = frozenset[Place]


def reached(start: set[Place], within: set[Place]) -> set[Place]:
    """Return the places that can be come to from some of them, edge over edge."""
    held, edge = set(start), set(start)
    while edge:
        edge = {n for place in edge for n in beside(place)} & within - held
        held |= edge
    return held


def beside(place: Place) -> tuple[Place, ...]:
    """Return the places left and right of a place, above it and below."""
    row, column = place
    return (row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of the template."""

    row: int
    column: int
    """Counted from the top left of the grid, from 0."""
    number: int
    """Of the sheet, row by row from 1: no letter, for those are papers, marks and corners."""
    window: Bounds
    cell: Bounds
    """What of the template it shows, and what of that from seam to seam."""
    left: str = ""
    right: str = ""
    above: str = ""
    below: str = ""
    """The names of the neighbours; empty where there is none."""

    @property
    def name(self) -> str:
        """Its number as it is written."""
        return str(self.number)


@dataclass(frozen=True, slots=True)
class RegisterMark:
    """A mark on a seam that both sheets show, so that they can be laid true."""

    number: int
    at: Point
    tiles: tuple[str, str]
    """The two sheets' names; the number is the same on both."""


@dataclass(frozen=True, slots=True)
class CheckLength:
    """A length to measure over the joined sheets."""

    start: str
    end: str
    """The names of two corner crosses."""
    length: float
    """mm."""


@dataclass(frozen=True, slots=True)
class CornerCross:
    """A cross near a corner of the joined sheets, from which the whole is checked."""

    name: str
    at: Point
    tile: str


@dataclass(frozen=True, slots=True)
class TilePlan:
    """How a template is spread over sheets."""

    paper: Paper
    sheet: Sheet
    """The paper as every page lies."""
    overlap: float
    """mm."""
    tiles: tuple[Tile, ...]
    """Row by row from the top left; sheets with nothing on them are left out."""
    register_marks: tuple[RegisterMark, ...]
    correction: Correction
    """Of the printer, along the short and the long edge of the paper."""
    upright_margins: Margins
    """The margins that were asked for, on the paper held upright."""

    @property
    def whole(self) -> Bounds:
        """The box round all windows, template mm."""
        return reduce(Bounds.joined, (tile.window for tile in self.tiles))

    @property
    def rows(self) -> int:
        """How many rows the grid has."""
        return max((1 + tile.row for tile in self.tiles), default=0)

    @property
    def columns(self) -> int:
        """How many columns the grid has."""
        return max((1 + tile.column for tile in self.tiles), default=0)

    @property
    def is_joined(self) -> bool:
        """Whether the sheets hang together, so that lengths can be measured over all of them."""
        places = {(tile.row, tile.column) for tile in self.tiles}
        return not places or reached({min(places)}, places) == places

    @property
    def stretch(self) -> tuple[float, float]:
        """By what a page is written larger across and up so that it prints true."""
        return self.correction.for_page(landscape=self.sheet.landscape)

    def shift(self, tile: Tile) -> Point:
        """Return what brings template coordinates onto a tile's sheet."""
        field = field_of(self.sheet, self.correction)
        return Point(field.left - tile.window.left, field.bottom - tile.window.bottom)

    @property
    def corner_crosses(self) -> tuple[CornerCross, ...]:
        """A cross on the sheet nearest each corner, from lower left; none of sheets apart."""
        if not self.tiles or not self.is_joined:
            return ()
        crosses = []
        for k, (name, corner) in enumerate(zip(_CORNERS, self.whole.corners, strict=True)):
            own = [(tile.window.grown(-INSET).corners[k], tile.name) for tile in self.tiles]
            away = [(at.distance_to(corner), at, tile) for at, tile in own]
            _, at, tile = first_of_best(away, lambda found: -found[0], tolerance=SAME_PLACE)
            crosses.append(CornerCross(name, at, tile))
        return tuple(crosses)

    @property
    def check_lengths(self) -> tuple[CheckLength, ...]:
        """The sides and the diagonals between the corner crosses, over the joined sheets."""
        crosses = self.corner_crosses
        if not crosses:
            return ()
        pairs = ((0, 1), (3, 2), (0, 3), (1, 2), (0, 2), (1, 3))
        ends = [(crosses[a], crosses[b]) for a, b in pairs]
        return tuple(CheckLength(a.name, b.name, a.at.distance_to(b.at)) for a, b in ends)


# Names of corner crosses: letters are those of the panel and its marks, figures those of sheets
_CORNERS = ("I", "II", "III", "IV")
INSET = 6.0  # of a corner cross in its window, mm: a 4 mm arm and clear paper beyond


def field_of(sheet: Sheet, correction: Correction = TRUE) -> Bounds:
    """Return where ink may go on a sheet, in true mm as it comes out of the printer.

    A page written larger must stay within the margins as written: its true field is smaller.
    """
    middle, corners = sheet.frame.middle, sheet.printable.grown(-INK).corners
    across, up = (max(1.0, f) for f in correction.for_page(landscape=sheet.landscape))
    offs = (corner - middle for corner in corners)
    return Bounds.around(middle + Point(off.x / across, off.y / up) for off in offs)


# Where on a seam, from either end, a register mark may lie: far apart, clear of the corners
_ALONG_SEAM = (0.15, 0.2, 0.1, 0.25, 0.3, 0.35)
_CLEAR = 6.0  # what a register mark wants clear of any drawn line, mm
LEAST_OVERLAP = 8.0  # half of it holds a register mark of 3 mm each way and the ink


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the seams of a grid of windows lie."""

    left: float
    top: float
    """The left and the upper edge of the first window."""
    width: float
    height: float
    """Of a window."""
    overlap: float
    columns: int
    rows: int
    """How many places it has."""

    def window(self, row: int, column: int) -> Bounds:
        """Return a window."""
        left = self.left + column * (self.width - self.overlap)
        top = self.top - row * (self.height - self.overlap)
        return Bounds(left, top - self.height, left + self.width, top)

    def cell(self, place: Place, kept: Set[Place], less: float = 0.5) -> Bounds:
        """Return a window up to its seams with kept neighbours; `less` by 1, to their windows."""
        (row, column), w, by = place, self.window(*place), less * self.overlap
        return Bounds(
            w.left + by * ((row, column - 1) in kept),
            w.bottom + by * ((row + 1, column) in kept),
            w.right - by * ((row, column + 1) in kept),
            w.top - by * ((row - 1, column) in kept),
        )

    @property
    def places(self) -> tuple[Place, ...]:
        """Every row and column, row by row from the top left."""
        return tuple((r, c) for r in range(self.rows) for c in range(self.columns))


def tiles_on(grid: Grid, kept: Places) -> tuple[Tile, ...]:
    """Return the tiles of the kept places, numbered from the first kept, with neighbours' names."""
    top, left = (min(place[axis] for place in kept) for axis in (0, 1))
    numbers = {place: number for number, place in enumerate(sorted(kept), start=1)}
    found = []
    for (row, column), number in numbers.items():
        names = (str(numbers.get(place, "")) for place in beside((row, column)))
        window, cell = grid.window(row, column), grid.cell((row, column), kept)
        found.append(Tile(row - top, column - left, number, window, cell, *names))
    return tuple(found)


def register_marks(tiles: tuple[Tile, ...], drawn: Points) -> tuple[RegisterMark, ...]:
    """Return two marks on each seam, clear of the drawn points where there is room."""
    by_name = {tile.name: tile for tile in tiles}
    marks: list[RegisterMark] = []
    for tile in tiles:
        for name in filter(None, (tile.right, tile.below)):
            # the seam, as far as both cells have it: below, its ends lie level
            cell, other = tile.cell, by_name[name].cell
            left, right = max(cell.left, other.left), min(cell.right, other.right)
            low, high = max(cell.bottom, other.bottom), min(cell.top, other.top)
            one, other_end = Point(left, high), Point(right, low)
            for start, end in ((one, other_end), (other_end, one)):
                at = _clearest([start + (end - start) * share for share in _ALONG_SEAM], drawn)
                marks.append(RegisterMark(len(marks) + 1, at, (tile.name, name)))
    return tuple(marks)


def _clearest(places: list[Point], drawn: Points) -> Point:
    """Return the first place clear of what is drawn, or else the clearest."""
    near = drawn[Bounds.around(places).grown(_CLEAR).holds_points(drawn)]
    rooms = np.hypot(*(near[:, None] - array_of(places)).transpose(2, 0, 1))
    enough = rooms.min(axis=0, initial=_CLEAR)
    best = first_of_best(range(len(places)), lambda k: float(enough[k]), tolerance=SAME_PLACE)
    return places[best]


def check_overlap(overlap_width: float, field: Bounds) -> None:
    """Raise a `PaperError` unless neighbours can share a strip of that width."""
    most = min(field.width, field.height) / 3
    if not LEAST_OVERLAP <= overlap_width <= most:
        raise PaperError(
            f"an overlap of {overlap_width:g} mm is not between {LEAST_OVERLAP:g} mm (room for "
            f"register marks) and {most:.0f} mm (a third of what a sheet can show)"
        )


def tied_together(kept: Places, grid: Grid) -> Places:
    """Return the places with more added by shortest ways until all of them join, edge to edge."""
    joined = set(kept)
    while True:
        island = reached({min(joined)}, joined)
        if len(island) == len(joined):
            return frozenset(joined)
        joined |= _bridge(island, joined - island, grid)


def _bridge(island: set[Place], others: set[Place], grid: Grid) -> set[Place]:
    """Return a shortest way, place by place, from an island to any of the others."""
    ways = deque([place] for place in sorted(island))
    left = set(grid.places) - island
    while True:  # a grid is in one piece
        way = ways.popleft()
        for near in sorted(left.intersection(beside(way[-1]))):
            if near in others:
                return {*way[1:], near}
            left.remove(near)
            ways.append([*way, near])
