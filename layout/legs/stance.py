"""Where legs stand best: for each count one stance, placed, tipped and seated.

The insets at the sides and at the ends are tried over a grid, then in ever smaller steps round the
best; where firmness counts the feet are moved freely from there. Feet that would bear on spoilt
wood are moved off it by the least that frees them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from ..errors import LegsError
from ..geometry import Point, first_of_best, ranked
from .arrangement import ALIKE_FORCE, middles_for
from .free_room import apart, least_gap
from .goals import values_of
from .people import PLACE, Seating, seating_at
from .plan import LegsPlan
from .polish import polished
from .room import insets_for
from .sag import ALIKE
from .stability import IN_A_ROW, row_width
from .table import TableTop
from .wish import COUNTS, Goal, LegsWish

_SIDES, _ENDS = 3, 5
"""Insets tried at the sides and at the ends, besides the usual ones."""

_HALVINGS = 4
"""How often the steps round the best insets are halved: down to a sixteenth of the grid's."""

EACH_LEG = 0.05
"""Each leg more has to make the table this share better at its goal, or the fewer are taken: it is
work, weight and one more foot to level (our choice)."""

CROWDED = 100.0
"""More than four legs with less than this clear between two, mm, are not proposed unless their
number is asked for (our choice): not even a broom passes between them."""

_FARTHEST = (0.25, 0.3)
"""Farthest in that feet are tried, as shares of width and length."""


@dataclass(frozen=True, slots=True)
class Stance:
    """Legs of one count where they stand best, placed, tipped and seated."""

    wish: LegsWish
    """With the places found."""
    legs: LegsPlan
    seating: Seating
    held: float = field(metadata={"unit": "N"})
    """Force that tips it by estimate, N, as far as it stays below the load asked for."""
    score: float = field(metadata={"unit": ""})
    """What the goal counts, higher is better."""


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

    Parameters
    ----------
    place : float
        Edge that a diner takes, mm.

    Raises
    ------
    LegsError
        If none finds room.
    """
    found: list[Stance] = []
    trouble: LegsError | None = None
    for count in counts:
        given = len(wish.at) == count and table.standing_at(wish, wish.at).stands
        own = [wish.at] if given else []
        try:
            stance = best_stance(replace(wish, count=count, at=()), table, goal, place, own)
        except LegsError as error:
            trouble = error
            continue
        crowded = least_gap(stance.wish.at, wish.foot) < CROWDED
        if not (crowded and count > 4 and tuple(counts) == COUNTS):
            found.append(stance)
    if not found:
        raise trouble or LegsError("no count of legs is given to compare")
    tolerance = (0.0, ALIKE_FORCE, 0.0, _alike(p.score for p in found), 0.0)
    return tuple(ranked(found, _rank, tolerance=tolerance))


def _rank(stance: Stance) -> tuple[float, ...]:
    score, count = stance.score, len(stance.wish.at)
    seating, share = stance.seating, (1 - EACH_LEG) ** count
    in_the_way = stance.wish.seats and not seating.seats and seating.without_legs > 0
    worth = score * share if score > 0 else score / share
    return stance.legs.stands, stance.held, not in_the_way, worth, -count


def as_wished(
    wish: LegsWish, table: TableTop, goal: Goal = Goal.MOST_STABLE, place: float = PLACE
) -> Stance:
    """Return the legs where the wish itself puts them: at its places or by its insets.

    Raises
    ------
    LegsError
        If no foot finds room, or sag counts and the stiffness is not known.
    """
    middles, moved = table.places(wish)
    (score,) = values_of(goal, wish, table, [middles])
    return _stood(wish, table, middles, moved, score, place)


def best_stance(
    wish: LegsWish,
    table: TableTop,
    goal: Goal,
    place: float,
    others: Sequence[tuple[Point, ...]] = (),
) -> Stance:
    """Return the best stance of the wished number of legs, or one of some others.

    Raises
    ------
    LegsError
        If no foot finds room at any inset, or sag counts and the stiffness is not known.
    """
    outline, usual = table.top.outline, insets_for(wish, table.top.outline)
    sides = np.linspace(usual.round_about, outline.width * _FARTHEST[0], _SIDES)
    ends = np.linspace(usual.round_about, outline.length * _FARTHEST[1], _ENDS)
    grid = [(usual.side, usual.end), *((float(s), float(e)) for s in sides for e in ends)]
    tried = _at_insets(goal, wish, table, grid)
    if not tried:
        table.on(wish)  # says why there is no room
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
        best = _best([best, *_at_insets(goal, wish, table, near)])
    free = wish.inset_side is None and wish.inset_end is None
    moved = []
    if goal is Goal.MOST_STABLE and free:
        stability, room = table.stability(wish), table.room(wish)
        roughly = polished(best.middles, wish.foot, room, stability.evenness)
        moved = [polished(roughly, wish.foot, room, stability.force)]
    more = _tried(goal, wish, table, dict.fromkeys([*moved, *others], best.insets))
    found = _best([best, *more])
    return _stood(wish, table, found.middles, (), found.score, place)


def _stood(
    wish: LegsWish,
    table: TableTop,
    middles: tuple[Point, ...],
    moved: Sequence[float],
    score: float,
    place: float,
) -> Stance:
    legs = table.standing_at(wish, middles, moved)
    return Stance(
        replace(wish, at=middles),
        legs,
        seating_at(table.top.outline, wish.foot, middles, place),
        min(legs.weakest.force, wish.pressed),
        score,
    )


@dataclass(frozen=True, slots=True)
class _Tried:
    """An arrangement, the insets it came from, and how good it is.

    `held` is the force that tips it, N, as far as it stays below the load asked for.
    """

    insets: tuple[float, float]
    middles: tuple[Point, ...]
    bears: bool
    held: float
    score: float

    @property
    def rank(self) -> tuple[float, ...]:
        """Feet apart and on sound wood first, then one that holds the load, then the goal."""
        return self.bears, self.held, self.score


def _best(tried: Sequence[_Tried]) -> _Tried:
    """Return the best arrangement, of arrangements alike the first."""
    tolerance = (0.0, ALIKE_FORCE, _alike(t.score for t in tried))
    return first_of_best(tried, lambda t: t.rank, tolerance=tolerance)


def _alike(scores: Iterable[float]) -> float:
    """Return how far what a goal counts may differ and still be alike."""
    return ALIKE * max((abs(score) for score in scores if math.isfinite(score)), default=0.0)


def _at_insets(
    goal: Goal, wish: LegsWish, table: TableTop, insets: Sequence[tuple[float, float]]
) -> list[_Tried]:
    """Return the arrangements at these insets, where a foot finds room; wished insets stay."""
    arrangements: dict[tuple[Point, ...], tuple[float, float]] = {}
    stability = table.stability(wish)
    for side, end in insets:
        at = replace(
            wish,
            inset_side=side if wish.inset_side is None else wish.inset_side,
            inset_end=end if wish.inset_end is None else wish.inset_end,
        )
        try:
            middles = middles_for(at, table.top.outline, stability)
            arrangements.setdefault(table.settled(wish, middles)[0], (side, end))
        except LegsError:
            continue
    return _tried(goal, wish, table, arrangements)


def _tried(
    goal: Goal,
    wish: LegsWish,
    table: TableTop,
    arrangements: dict[tuple[Point, ...], tuple[float, float]],
) -> list[_Tried]:
    """Return how good arrangements are; those in a row are none."""
    held = {
        middles: insets
        for middles, insets in arrangements.items()
        if len(middles) < 3 or row_width(middles) >= IN_A_ROW
    }
    scores = values_of(goal, wish, table, list(held))
    force = table.stability(wish).force
    return [
        _Tried(
            pair,
            middles,
            apart(middles, wish.foot) and table.bears(wish, middles),
            min(force(middles), wish.pressed),
            score,
        )
        for (middles, pair), score in zip(held.items(), scores, strict=True)
    ]
