"""Where legs stand best: for each count one stance, placed, tipped and seated.

The insets at the sides and at the ends are tried over a grid, then in ever smaller steps round the
best; where firmness counts the feet are moved freely from there: each eight ways, and the feet that
are its mirror images with it, in steps that are halved when no move helps. Feet that would bear on
spoilt wood are moved off it by the least that frees them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

import numpy as np

from ..errors import LegsError
from ..geometry import Point, Region, array_of, first_of_best, ranked
from ..geometry.tolerance import SAME_PLACE
from ..geometry.turned_box import narrowest_strip
from .arrangement import ALIKE_FORCE, apart, middles_for
from .foot import Foot
from .people import PLACE
from .room import insets_for, nearest_on
from .sag import ALIKE
from .stability import IN_A_ROW
from .stance import Places, Sought, Stance
from .table import TableTop
from .wish import COUNTS, Goal, LegsWish

_SIDES, _ENDS = 3, 5
"""Insets tried at the sides and at the ends, besides the usual ones."""

_HALVINGS = 4
"""How often the steps round the best insets are halved: down to a sixteenth of the grid's."""

CROWDED = 100.0
"""More than four legs with less than this clear between two, mm, are not proposed unless their
number is asked for (our choice): not even a broom passes between them."""

_FARTHEST = (0.25, 0.3)
"""Farthest in that feet are tried, as shares of width and length."""

_FIRST, _LAST = 1 / 16, 0.5
"""The first step of free moves as a share of the stance's extent, and the last one, mm."""

_WAYS = tuple(Point.polar(1.0, math.tau * k / 8) for k in range(8))

Flip = tuple[int, int]
"""By what x and y are multiplied."""

_MIRRORS: tuple[Flip, ...] = ((1, 1), (-1, 1), (1, -1), (-1, -1))


def best_stances(
    wish: LegsWish,
    table: TableTop,
    goal: Goal = Goal.MOST_STABLE,
    counts: Sequence[int] = COUNTS,
    place: float = PLACE,
) -> tuple[Stance, ...]:
    """Return the best legs of each count, best count first.

    A stance that holds the load asked for goes before one that does not, whatever the goal, and one
    at which somebody sits before one that leaves no place; legs that cannot stay come last. Fewer
    legs go first unless more are better by `EACH_LEG` each. A count for which no foot finds room is
    left out, and one that crowds them where the counts are the usual ones. Places that the wish
    itself gives are tried too, unless a leg cannot stay there: the best of a count is never worse.
    A diner takes `place` mm of the edge.

    Raises
    ------
    LegsError
        If none finds room.
    """
    found: list[Stance] = []
    trouble: LegsError | None = None
    for count in counts:
        sought = Sought(replace(wish, count=count, at=()), table, goal, place)
        given = len(wish.at) == count and sought.placed(wish.at).stands
        try:
            stance = best_stance(sought, [wish.at] if given else [])
        except LegsError as error:
            trouble = error
            continue
        pairs = combinations(stance.wish.at, 2)
        crowded = count > 4 and min(wish.foot.gap(*pair) for pair in pairs) < CROWDED
        if not (crowded and tuple(counts) == COUNTS):
            found.append(stance)
    if not found:
        raise trouble or LegsError("no count of legs is given to compare")
    tolerance = (0.0, ALIKE_FORCE, 0.0, _alike(p.score for p in found), 0.0)
    return tuple(ranked(found, lambda stance: stance.rank, tolerance=tolerance))


def best_stance(sought: Sought, others: Sequence[Places] = ()) -> Stance:
    """Return the best stance of the wished number of legs, or one of some others.

    Raises
    ------
    LegsError
        If no foot finds room at any inset, or sag counts and the stiffness is not known.
    """
    wish, outline = sought.wish, sought.table.top.outline
    usual = insets_for(wish, outline)
    sides = np.linspace(usual.round_about, outline.width * _FARTHEST[0], _SIDES)
    ends = np.linspace(usual.round_about, outline.length * _FARTHEST[1], _ENDS)
    grid = [(usual.side, usual.end), *((float(s), float(e)) for s in sides for e in ends)]
    tried = _at_insets(sought, grid)
    if not tried:
        sought.as_wished()  # says why there is no room
        raise LegsError("no foot finds room under this top at any inset")
    best = _best(tried)
    step = (float(sides[1] - sides[0]), float(ends[1] - ends[0]))
    for _ in range(_HALVINGS):
        step = (step[0] / 2, step[1] / 2)
        side, end = best.insets
        near = [
            (side + i * step[0], end + j * step[1])
            for i in (-1, 0, 1)
            for j in (-1, 0, 1)
            if (i or j) and min(side + i * step[0], end + j * step[1]) >= usual.round_about
        ]
        best = _best([best, *_at_insets(sought, near)])
    more = list(others)
    if sought.goal is Goal.MOST_STABLE and wish.inset_side is None and wish.inset_end is None:
        roughly = polished(best.middles, wish.foot, sought.room, sought.stability.evenness)
        more.insert(0, polished(roughly, wish.foot, sought.room, sought.stability.force))
    found = _best([best, *_tried(sought, dict.fromkeys(more, best.insets))])
    return sought.stance(found.middles, found.score)


def _at_insets(sought: Sought, insets: Sequence[tuple[float, float]]) -> list[_Tried]:
    """Return the arrangements at these insets, where a foot finds room; wished insets stay."""
    wish = sought.wish
    arrangements: dict[Places, tuple[float, float]] = {}
    for side, end in insets:
        at = replace(
            wish,
            inset_side=side if wish.inset_side is None else wish.inset_side,
            inset_end=end if wish.inset_end is None else wish.inset_end,
        )
        try:
            middles = middles_for(at, sought.table.top.outline, sought.stability)
            arrangements.setdefault(sought.settled(middles)[0], (side, end))
        except LegsError:
            continue
    return _tried(sought, arrangements)


def _tried(sought: Sought, arrangements: dict[Places, tuple[float, float]]) -> list[_Tried]:
    """Return how good arrangements are; those in a row are none."""
    wish, force = sought.wish, sought.stability.force
    spread = [m for m in arrangements if len(m) < 3 or narrowest_strip(array_of(m)) >= IN_A_ROW]
    return [
        _Tried(
            arrangements[middles],
            middles,
            apart(middles, wish.foot) and sought.bears(middles),
            min(force(middles), wish.pressed),
            score,
        )
        for middles, score in zip(spread, sought.scores(spread), strict=True)
    ]


class _Tried(NamedTuple):
    """An arrangement, the insets it came from, and what counts between arrangements, in turn."""

    insets: tuple[float, float]
    middles: Places
    bears: bool
    """Whether its feet stand apart and on sound wood."""
    held: float
    """The force that tips it, N, as far as it stays below the load asked for."""
    score: float


def _best(tried: Sequence[_Tried]) -> _Tried:
    """Return the best arrangement, of arrangements alike the first."""
    tolerance = (0.0, ALIKE_FORCE, _alike(t.score for t in tried))
    return first_of_best(tried, lambda t: t[2:], tolerance=tolerance)


def _alike(scores: Iterable[float]) -> float:
    """Return how far what a goal counts may differ and still be alike."""
    return ALIKE * max((abs(score) for score in scores if math.isfinite(score)), default=0.0)


def polished(middles: Places, foot: Foot, room: Region, force: Callable[[Places], float]) -> Places:
    """Return a stance that is no less firm, its feet moved in their room until no move helps."""
    if room.is_empty:
        return middles
    edges = room.edges

    def held(place: Point) -> Point:
        """Return a place, or the nearest one in the room: whoever would leave it slides along."""
        inside = room.holds_point(place)
        return place if inside else Point.of(nearest_on(edges, array_of([place]))[0])

    best, found, images = middles, force(middles), _images(middles)
    extent = max(one.distance_to(other) for one, other in combinations(middles, 2))
    step = max(extent, 2 * _LAST) * _FIRST
    while step >= _LAST:
        moved = [m for group in images for m in _moves(best, group, step, held) if apart(m, foot)]
        tried = [(found, best), *((force(stance), stance) for stance in moved)]
        most, stance = first_of_best(tried, lambda t: t[0], tolerance=ALIKE_FORCE)
        if stance is best:
            step /= 2
        best, found = stance, most
    return best


def _images(middles: Places) -> list[dict[int, Flip]]:
    """Return groups of feet that are mirror images: which ones, and how each is mirrored."""
    groups: list[dict[int, Flip]] = []
    left = set(range(len(middles)))
    mirrors = [m for m in _MIRRORS if all(_at(middles, _flip(p, m)) is not None for p in middles)]
    for k, middle in enumerate(middles):
        if k in left:
            group: dict[int, Flip] = {}
            for mirror in mirrors:
                image = _at(middles, _flip(middle, mirror))
                if image is not None:
                    group.setdefault(image, mirror)
            groups.append(group)
            left -= set(group)
    return groups


def _flip(point: Point, mirror: Flip) -> Point:
    return Point(point.x * mirror[0], point.y * mirror[1])


def _at(middles: Places, place: Point) -> int | None:
    near = (k for k, middle in enumerate(middles) if middle.distance_to(place) <= SAME_PLACE)
    return next(near, None)


def _moves(
    middles: Places, group: dict[int, Flip], step: float, held: Callable[[Point], Point]
) -> Iterator[Places]:
    """Yield the stance with a group of feet moved each way, as far as their room allows."""
    first, own = next(iter(group.items()))
    for way in _WAYS:
        place = _flip(held(middles[first] + way * step), own)
        stance = list(middles)
        for k, mirror in group.items():
            stance[k] = held(_flip(place, mirror))
        yield tuple(stance)
