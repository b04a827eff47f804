"""Choosing the tile plan with the fewest sheets.

The paper is tried upright and on its side, and the grid is shifted in small steps, judged by points
along the lines. The most promising are settled exactly: lines cut to the cells, sheets dropped that
show nothing their neighbours do not, and others put back where the rest would fall apart.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Bounds, Line, Path, Points, Segment, first_of_best, ranked
from ..geometry.segments import most_length
from ..geometry.tolerance import ROUNDING
from ..geometry.window import clipped
from .paper import PaperError, Sheet
from .tiles import (
    Grid,
    Place,
    Places,
    TilePlan,
    beside,
    check_overlap,
    field_of,
    register_marks,
    tied_together,
    tiles_on,
)
from .wish import TemplateWish

_SPACING = 2.0  # distance between the points that stand for a line, mm
_SHIFTS = 9  # places tried between the two ends of the play that a grid has
_SETTLED = 8  # how many promising shifts are settled exactly
_NEAR_SEAM = 8.0  # a line along a seam nearer than this is awkward to join, mm
_ROLL_SPARE = 40.0  # by which a piece of roll is longer than its drawing, for a check bar, mm
_SHORTEST_PIECE = 200.0  # shorter ones curl and hold no check bar worth reading, mm


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The lines to be shown, and points along them."""

    segments: tuple[Segment, ...]
    points: Points
    owner: NDArray[np.intp]
    bounds: Bounds

    @classmethod
    def of(cls, paths: Sequence[Path]) -> _Drawn:
        segments = tuple(segment for path in paths for segment in path.segments)
        points, owner = points_on(segments, _SPACING)
        bounds = reduce(Bounds.joined, (path.bounds for path in paths))
        return cls(segments, points, owner, bounds)

    def runs_through(self, box: Bounds) -> bool:
        """Whether any line has ink in a box: points decide, and near its edges the exact lines."""
        if box.grown(-2 * ROUNDING).holds_points(self.points).any():
            return True
        near = np.unique(self.owner[box.grown(_SPACING).holds_points(self.points)])
        return any(clipped(Path((self.segments[k],)), box) for k in near)


def tiles_for(paths: Sequence[Path], wish: TemplateWish, *, tied: bool = True) -> TilePlan:
    """Return the plan that shows every line on the fewest sheets; `tied` they hang together.

    A `PaperError` if the lines take a piece of a roll that leaves too little between the margins.
    """
    paper, white, overlap, correction = wish.paper, wish.margins, wish.overlap, wish.correction
    if not paths:
        page = Sheet.of(paper, white, landscape=False, length=paper.width)
        return TilePlan(paper, page, overlap, (), (), correction, white)
    drawn = _Drawn.of(paths)
    found: list[tuple[tuple[float, ...], Sheet, Grid, Places]] = []
    refused: PaperError | None = None
    for landscape in (False, True):
        try:
            sheet = _sheet(wish, drawn.bounds, landscape=landscape)
            field = field_of(sheet, correction)
            check_overlap(overlap, field)
        except PaperError as error:
            refused = error
            continue
        crowd, grid, kept = _fewest(drawn, field, overlap, tied=tied)
        used = len(kept) * sheet.width * sheet.height
        found.append(((-len(kept), -used, -crowd), sheet, grid, kept))
    if refused is not None and not found:
        raise refused
    _, sheet, grid, kept = first_of_best(found, lambda way: way[0], tolerance=(0.0, 1.0, ROUNDING))
    tiles = tiles_on(grid, kept)
    marks = register_marks(tiles, drawn.points)
    return TilePlan(paper, sheet, overlap, tiles, marks, correction, white)


def _sheet(wish: TemplateWish, bounds: Bounds, *, landscape: bool) -> Sheet:
    """Return the paper as it lies; a roll is cut to what the drawing needs."""
    paper, margins = wish.paper, wish.margins
    if not paper.roll:
        return Sheet.of(paper, margins, landscape=landscape)
    extent, white = bounds.height, margins.bottom + margins.top
    if landscape:
        extent, white = bounds.width, margins.turned.left + margins.turned.right
    needed = (extent + _ROLL_SPARE) * max(1.0, wish.correction.along) + white
    length = min(paper.length, max(_SHORTEST_PIECE, math.ceil(needed - ROUNDING)))
    return Sheet.of(paper, margins, landscape=landscape, length=length)


def _fewest(
    drawn: _Drawn, field: Bounds, overlap: float, *, tied: bool
) -> tuple[float, Grid, Places]:
    """Return the shift with the fewest sheets; among equals the one with least along its seams."""
    width, height, box = field.width, field.height, drawn.bounds
    across = _shifts(drawn.points[:, 0], box.left, box.right, width, overlap)
    # rows count downwards from the top: measure y downwards, too
    down = _shifts(-drawn.points[:, 1], -box.top, -box.bottom, height, overlap)
    judged = ranked(
        ((c, r) for c in across for r in down),
        lambda way: (
            -int(np.count_nonzero(np.bincount(way[1].index * way[0].count + way[0].index))),
            -way[0].crowd - way[1].crowd,
        ),
        tolerance=(0.0, ROUNDING),
    )
    settled: list[tuple[int, float, Grid, Places]] = []
    for c, r in judged[:_SETTLED]:
        grid = Grid(c.start, -r.start, width, height, overlap, c.count, r.count)
        kept = _needed(drawn, grid)
        kept = tied_together(kept, grid) if tied else kept
        settled.append((len(kept), c.crowd + r.crowd, grid, kept))
    _, crowd, grid, kept = first_of_best(
        settled, lambda found: (-found[0], -found[1]), tolerance=(0.0, ROUNDING)
    )
    return crowd, grid, kept


@dataclass(frozen=True, slots=True)
class _Shift:
    """A row of windows along one axis: its start, how many, and where each point falls."""

    start: float
    count: int
    index: NDArray[np.intp]
    crowd: float


def _shifts(
    values: NDArray[np.float64], low: float, high: float, window: float, overlap: float
) -> list[_Shift]:
    """Return rows of windows, as few as hold the extent or one more, at several shifts."""
    step = window - overlap
    fewest = max(1, math.ceil((high - low - overlap) / step - 1e-9))
    found = []
    for count in (fewest, fewest + 1) if fewest > 1 else (fewest,):
        play = count * step + overlap - (high - low)
        for k in range(_SHIFTS):
            start = low - play * k / (_SHIFTS - 1)
            place = (values - start - overlap / 2) / step + ROUNDING
            index = np.clip(np.floor(place), 0, count - 1).astype(np.intp)
            off = np.abs(place - np.round(place)) * step
            inner = (np.round(place) > 0) & (np.round(place) < count)
            crowd = float(np.count_nonzero((off < _NEAR_SEAM) & inner))
            # between equals, the middle of the play
            found.append(_Shift(start, count, index, crowd + abs(2 * k / (_SHIFTS - 1) - 1)))
    return found


def _needed(drawn: _Drawn, grid: Grid) -> Places:
    """Return the places whose sheets show what no neighbour shows."""
    every = frozenset(grid.places)
    kept = {place for place in grid.places if drawn.runs_through(grid.cell(place, every))}
    relied_on: set[Place] = set()
    for place in sorted(kept):
        if place in relied_on:
            continue
        sides = kept.intersection(beside(place))
        if sides and not drawn.runs_through(grid.cell(place, sides, less=1.0)):
            kept.remove(place)
            relied_on |= sides
    return frozenset(kept)


def points_on(segments: Sequence[Segment], spacing: float) -> tuple[Points, NDArray[np.intp]]:
    """Return points along segments, none over `spacing` mm apart, and the number of each's segment.

    The ends of each segment are included, so that it is known by its own points alone.

    >>> from ..geometry.point import Point
    >>> points_on([Line(Point(0, 0), Point(3, 0))], 2.0)[0].tolist()
    [[0.0, 0.0], [1.5, 0.0], [3.0, 0.0]]
    """
    # equal steps of an ellipse's angle are not equal on the line: the longest counts
    steps = np.array([max(1, math.ceil(most_length(s) / spacing)) for s in segments])
    owner = np.repeat(np.arange(len(steps)), steps + 1)
    first = np.cumsum(steps + 1) - (steps + 1)
    share = (np.arange(len(owner)) - first[owner]) / steps[owner]
    figures = np.array([_figures(segment) for segment in segments])[owner].T
    start, way, u, v, (from_angle, sweep) = np.split(figures, [2, 4, 6, 8])
    angle = from_angle + sweep * share
    points: Points = (start + way * share + u * np.cos(angle) + v * np.sin(angle)).T
    return points, owner


def _figures(segment: Segment) -> tuple[float, ...]:
    """Return start and way of a line; of an arc centre, no way, half-axes, start and sweep."""
    start, u, v, *turns = segment.swept
    way = segment.end - segment.start if isinstance(segment, Line) else ORIGIN
    return (*start, *way, *u, *v, *turns)
