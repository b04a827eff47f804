"""Where legs stand best: for each count one stance, placed, tipped and seated.

The insets at the sides and at the ends are tried over a grid, then in ever smaller steps round the
best; where firmness counts the feet are moved freely from there: each eight ways, and the feet that
are its mirror images with it, in steps that are halved when no move helps.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations, product
from typing import NamedTuple

import numpy as np

from ..errors import LegsError
from ..geometry import Point, Region, array_of, first_of_best, ranked
from ..geometry.tolerance import SAME_PLACE
from .arrangement import ALIKE_FORCE, apart, in_a_row, middles_for
from .foot import Foot
from .placing import place_legs
from .room import TableTop, insets_for, nearest_on
from .sag import ALIKE
from .seating import PLACE
from .stance import Places, Sought, Stance
from .wish import COUNTS, Goal, LegsWish

_SIDES, _ENDS, _FARTHEST = 3, 5, (0.25, 0.3)
"""Insets tried at sides and ends, and the farthest of them, shares of width and length."""

_HALVINGS = 4
"""How often the steps round the best insets are halved: down to a sixteenth of the grid's."""

CROWDED = 100.0
"""More than four legs with less than this clear between two, mm, are not proposed unless their
number is asked for (our choice): not even a broom passes between them."""

_FIRST, _LAST = 1 / 16, 0.5
"""The first step of free moves as a share of the stance's extent, and the last one, mm."""

_WAYS = tuple(Point.polar(1.0, math.tau * k / 8) for k in range(8))

_MIRRORS = ((1, 1), (-1, 1), (1, -1), (-1, -1))
"""By what x and y are multiplied."""


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
    legs go first unless more are better by `EACH_LEG` each. Places that the wish itself gives are
    tried too, unless a leg cannot stay there. A `LegsError` tells why none finds room.
    """
    found: list[Stance] = []
    trouble = LegsError("no count of legs is given to compare")
    for count in counts:
        sought = Sought(replace(wish, count=count, at=()), table, goal, place)
        try:
            stance = best_stance(sought, wish.at if len(wish.at) == count else ())
        except LegsError as error:
            trouble = error
            continue
        gaps = (wish.foot.gap(*pair) for pair in combinations(stance.wish.at, 2))
        if count <= 4 or tuple(counts) != COUNTS or min(gaps) >= CROWDED:
            found.append(stance)
    if not found:
        raise trouble
    tolerance = (0.0, ALIKE_FORCE, 0.0, _alike(p.score for p in found), 0.0)
    return tuple(ranked(found, lambda stance: stance.rank, tolerance=tolerance))


def best_stance(sought: Sought, given: Places = ()) -> Stance:
    """Return the best stance of so many legs, or the given one where none is better."""
    wish, outline, foot = sought.wish, sought.table.top.outline, sought.wish.foot
    usual = insets_for(wish, outline)
    least = usual.round_about
    sides = np.linspace(least, outline.width * _FARTHEST[0], _SIDES).tolist()
    ends = np.linspace(least, outline.length * _FARTHEST[1], _ENDS).tolist()
    tried = _at_insets(sought, [(usual.side, usual.end), *product(sides, ends)])
    if not tried:
        sought.as_wished()  # says why there is no room
        raise LegsError("no foot finds room under this top at any inset")
    best, by_side, by_end = _best(tried), sides[1] - sides[0], ends[1] - ends[0]
    for _ in range(_HALVINGS):
        by_side, by_end = by_side / 2, by_end / 2
        side, end = best.insets
        around = [
            (side + i * by_side, end + j * by_end) for i in (-1, 0, 1) for j in (-1, 0, 1) if i or j
        ]
        best = _best([best, *_at_insets(sought, [pair for pair in around if min(pair) >= least])])
    more = []
    if sought.goal is Goal.MOST_STABLE and wish.inset_side is None and wish.inset_end is None:
        roughly = polished(best.middles, foot, sought.room, sought.stability.evenness)
        more.append(polished(roughly, foot, sought.room, sought.stability.force))
    if given and place_legs(wish, sought.table, given, [0.0] * len(given)).stands:
        more.append(given)
    found = _best([best, *_tried(sought, dict.fromkeys(more, best.insets))])
    return sought.stance(found.middles, found.score, [0.0] * len(found.middles))


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
    spread = [m for m in arrangements if len(m) < 3 or not in_a_row(m)]
    bears = [apart(middles, wish.foot) and sought.bears(middles) for middles in spread]
    held = [min(force(middles), wish.pressed) for middles in spread]
    insets = [arrangements[middles] for middles in spread]
    rows = zip(insets, spread, bears, held, sought.scores(spread), strict=True)
    return [_Tried(*row) for row in rows]


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
    edges, images = room.edges, _images(middles)

    def held(place: Point) -> Point:
        """Return a place, or the nearest one in the room: whoever would leave it slides along."""
        inside = room.holds_point(place)
        return place if inside else Point.of(nearest_on(edges, array_of([place]))[0])

    def moves() -> Iterator[Places]:
        """Yield the stance with a foot and its images moved each way, as far as room allows."""
        for k, group in images:
            for way in _WAYS:
                place, stance = held(best[k] + way * step), list(best)
                for image, mirror in group.items():
                    stance[image] = held(_flip(place, mirror))
                if apart(stance, foot):
                    yield tuple(stance)

    best, found = middles, force(middles)
    extent = max(one.distance_to(other) for one, other in combinations(middles, 2))
    step = max(extent, 2 * _LAST) * _FIRST
    while step >= _LAST:
        tried = [(found, best), *((force(stance), stance) for stance in moves())]
        found, stance = first_of_best(tried, lambda t: t[0], tolerance=ALIKE_FORCE)
        if stance is best:
            step /= 2
        best = stance
    return best


_Mirror = tuple[int, int]


def _flip(point: Point, mirror: _Mirror) -> Point:
    return Point(point.x * mirror[0], point.y * mirror[1])


def _images(middles: Places) -> list[tuple[int, dict[int, _Mirror]]]:
    """Return one foot of each group of mirror images, and how each of the group mirrors it."""

    def image(middle: Point, mirror: _Mirror) -> int | None:
        place = _flip(middle, mirror)
        near = (k for k, one in enumerate(middles) if one.distance_to(place) <= SAME_PLACE)
        return next(near, None)

    mirrors = [m for m in _MIRRORS if all(image(p, m) is not None for p in middles)]
    groups: list[tuple[int, dict[int, _Mirror]]] = []
    for k, middle in enumerate(middles):
        if not any(k in group for _, group in groups):
            found = ((image(middle, mirror), mirror) for mirror in reversed(mirrors))
            groups.append((k, {other: mirror for other, mirror in found if other is not None}))
    return groups
