"""The grid that sheets lie in: windows, seams, marks on them, and which sheets hang together."""

from __future__ import annotations

from collections import deque
from collections.abc import Set
from dataclasses import dataclass

import numpy as np

from ..geometry import Bounds, Point, Points, array_of, first_of_best
from ..geometry.tolerance import SAME_PLACE
from .paper import PaperError
from .tiles import Place, Places, RegisterMark, Tile, beside, reached

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
