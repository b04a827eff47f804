"""Legs under a top: what is asked of where they stand, and what a stance of theirs means."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise

import numpy as np

from ..errors import LegsError
from ..geometry import Point, Region, array_of
from ..geometry.distance import nearest
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from .arrangement import apart, middles_for
from .foot import Foot
from .placing import place_legs
from .plan import LegsPlan
from .room import TableTop, room_for, room_of
from .sag import Loads, Sag, borne_at, sag_of
from .seating import PLACE, Seating, knee_room, seating_at
from .tipping import Stability
from .wish import Goal, LegsWish

EACH_LEG = 0.05
"""Each leg more has to make the table this share better at its goal, or the fewer are taken: it is
work, weight and one more foot to level (our choice)."""

MOST_FORCE = 1e6
"""Nothing presses harder than this, N: firmer stances are alike."""

_CLEAR = 0.1
"""A foot is moved this much farther than it must, mm, so that no rounding puts it back."""

Places = tuple[Point, ...]
"""The middles of the legs' heads, mm from the centre of the top."""


@dataclass(frozen=True, slots=True)
class Stance:
    """Legs of one count where they stand, placed, tipped and seated, and what that means."""

    count: int
    wish: LegsWish
    """With the places found, ready to be planned."""
    legs: LegsPlan
    sag: Sag | None = field(default=None, kw_only=True)
    """None where the stiffness of the top is not known, or nobody asked."""
    seating: Seating
    spread: float = field(metadata={"unit": ""})
    """Area of the polygon of the feet as a share of the top."""
    least_gap: float
    widest_gap: float
    """Clear between neighbouring legs on the rim of the feet, mm."""
    held: float = field(metadata={"unit": "N"})
    """Force that tips it by estimate, N, as far as it stays below the load asked for."""
    score: float = field(metadata={"unit": ""})
    """What the goal counts, higher is better."""

    def sagging(self, table: TableTop, loads: Loads | None = None) -> Stance:
        """Return it with how the top bends on it."""
        foot, at = self.wish.foot, self.wish.at
        return replace(self, sag=sag_of(table, foot, at, loads))

    @property
    def rank(self) -> tuple[float, ...]:
        """What counts between stances: standing, the load, a seat, the goal, and fewer legs."""
        share = (1 - EACH_LEG) ** self.count
        in_the_way = self.wish.seats and not self.seating.seats and self.seating.without_legs > 0
        worth = self.score * share if self.score > 0 else self.score / share
        return self.legs.stands, self.held, not in_the_way, worth, -self.count


@dataclass(frozen=True)
class Sought:
    """Legs sought under a top: their wish, and what makes them good."""

    wish: LegsWish
    table: TableTop
    goal: Goal = Goal.MOST_STABLE
    place: float = PLACE

    @cached_property
    def stability(self) -> Stability:
        """How such legs are held against a force at the edge."""
        top = self.table.top
        return Stability.under(self.wish, top.outline, top.mass, top.thickness)

    @cached_property
    def room(self) -> Region:
        """Where middles of feet may stand: at their insets, and on sound wood; the top's frame."""
        wish, top = self.wish, self.table.top
        sound = self.table.bearing.inner.placed(top.placement.inverse)
        return room_for(wish, top.outline, in_rows=False).meet(room_of(sound, wish.on_top))

    def bears(self, middles: Sequence[Point]) -> bool:
        """Return whether the heads of all legs stand on sound wood."""
        wish, top = self.wish, self.table.top
        heads = (wish.on_top.outside(m).placed(top.placement) for m in middles)
        return all(self.table.bearing.inner.holds(Region.of(head, "outside")) for head in heads)

    def settled(self, middles: Places) -> tuple[Places, tuple[float, ...]]:
        """Return places, each moved by the least that frees it of spoilt wood, and how far.

        One that finds no sound wood in its room, beside the others, stays where it is.
        """
        held, moved = list(middles), [0.0] * len(middles)
        if self.bears(middles):
            return middles, tuple(moved)
        inner = self.room.shrunk(_CLEAR)
        for k, middle in enumerate(middles):
            if inner.is_empty or self.bears([middle]):
                continue
            _, place = nearest(Region.at(middle), inner)
            if apart([place, *held[:k], *held[k + 1 :]], self.wish.foot):
                held[k], moved[k] = place, middle.distance_to(place)
        return tuple(held), tuple(moved)

    def as_wished(self) -> Stance:
        """Return the legs where the wish has them: at its places, unmoved, or by its insets."""
        wish, outline = self.wish, self.table.top.outline
        middles, moved = wish.at, (0.0,) * len(wish.at)
        if not middles:
            middles, moved = self.settled(middles_for(wish, outline, self.stability))
        (score,) = self.scores([middles])
        return self.stance(middles, score, moved)

    def scores(self, arrangements: Sequence[Places]) -> list[float]:
        """Return what the goal counts of each arrangement; higher is better."""
        outline, foot = self.table.top.outline, self.wish.foot
        if self.goal is Goal.MOST_STABLE:
            return [min(self.stability.force(middles), MOST_FORCE) for middles in arrangements]
        if self.goal is Goal.EVEN_OVERHANG:
            return [-_unevenness(foot, outline, middles) for middles in arrangements]
        if self.goal is Goal.KNEE_ROOM:
            return [knee_room(outline, foot, middles) for middles in arrangements]
        plate = self.table.plate
        if plate is None:
            raise LegsError("sag cannot count: the stiffness of this top is not known")
        rested = (plate.on(borne_at(foot, middles)) for middles in arrangements)
        return [-float(np.abs(on.under_load(1e-6)).max()) for on in rested]

    def stance(self, middles: Places, score: float, moved: Sequence[float]) -> Stance:
        """Return the legs at these places, so far off those wished, and what they mean there."""
        foot, outline = self.wish.foot, self.table.top.outline
        legs = place_legs(self.wish, self.table, middles, moved)
        rim = sorted((m for m in middles if m.norm > CHORD), key=lambda m: m.angle)
        gaps = [foot.gap(a, b) for a, b in pairwise([*rim, rim[0]])]
        seating = seating_at(outline, foot, middles, self.place)
        spread = Region.from_rings(array_of(legs.feet)).area / outline.area
        held, wish = min(legs.weakest.force, self.wish.pressed), replace(self.wish, at=middles)
        stands = (len(middles), wish, legs, seating, spread)
        return Stance(*stands, min(gaps), max(gaps), held, score)


def _unevenness(foot: Foot, outline: Outline, middles: Places) -> float:
    """Return how far the overhangs round the rim of the feet differ, mm."""
    rim = [middle for middle in middles if middle.norm > CHORD]
    over = [outline.support(m.angle) - m.norm - foot.reach(m.angle) for m in rim]
    over.append(outline.length / 2 - max(abs(m.x) for m in middles) - foot.reach(0.0))
    over.append(outline.width / 2 - max(abs(m.y) for m in middles) - foot.reach(math.pi / 2))
    return max(over) - min(over)
