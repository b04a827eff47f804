"""Moving a rectangle to its true contacts: the local best, to far below what a tape can read.

Each round asks how much room every edge nearby leaves, and how that room bends as the rectangle
moves; takes the step that is best by that account, within a distance that is trusted; pulls the
sides in by whatever is then too little; and keeps the result where it is better. Where five
contacts hold the rectangle this closes in like Newton's method; where fewer do, as in a triangle,
the bends do it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..goal import half_planes
from ..quadratic import best_step, positive_part
from ..wish import Goal
from .contacts import Room, WoodEdges, hold, missed, room, shortfall
from .gaps import Array
from .held import Held
from .sizes import CORNER_LOSS, Sizes

_MOST_ROUNDS = 40
_FIRST_TRUST = 0.05
"""Of the rectangle's size."""
_STRIDE = 10.0
"""How many times what a top is too small by the first step may be that makes it large enough."""
_NOTHING = 1e-7
"""mm: a step or a gain far below 0.01."""
_HOPELESS = 0.9
"""Share of a least size below which a top is not likely to grow into it."""
_DEAR = 1e3
"""How much dearer it is to fall short of the limits than to lose score."""
_ROUGH = 1e-4
"""How well the first step of a round is worked out, which tells only how the contacts pull."""
_TIE = 1e-5
"""How much the size that a goal does not name counts against the one it names."""


@dataclass(frozen=True, slots=True)
class Polisher:
    """Polishes the rectangles of one wish on one piece of wood."""

    edges: WoodEdges
    """Of the inner polygon of the sound wood."""
    sizes: Sizes
    lipping: float
    """mm."""
    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    turns: tuple[float, float]
    """Least and greatest turn of x, radians; infinite where any will do."""
    stays: Callable[[Held], bool] = lambda _: True
    """Whether a top stays where it may."""
    fixed: Array | None = None
    """(2,) array: the one centre it keeps; None where it may move."""

    def clearance(self, radius: float) -> float:
        """Return the corner radius of the core, mm."""
        return max(radius - self.lipping, 0.0)

    def inset(self, radius: float) -> float:
        """Return how far the inner rectangle lies inside the finished top, mm."""
        return max(radius, self.lipping)

    def length(self, held: Held) -> float:
        """Return the length of the finished top, mm."""
        return held.inner_length + 2 * self.inset(held.radius)

    def width(self, held: Held) -> float:
        """Return the width of the finished top, mm."""
        return held.inner_width + 2 * self.inset(held.radius)

    def score(self, held: Held) -> float:
        """Return what the top is worth trimmed to the limits; −inf where it is too small."""
        sizes = replace(self.sizes, radius=held.radius)
        return float(sizes.most(np.array(self.length(held)), np.array(self.width(held))))

    def promise(self, held: Held) -> float:
        """Return what the top is worth trimmed, or would be were it not a little too small."""
        sizes = replace(self.sizes, radius=held.radius)
        length, width = sizes.trimmed(np.array(self.length(held)), np.array(self.width(held)))
        short = float(np.minimum(length / sizes.least_length, width / sizes.least_width))
        return float(sizes.score(length, width)) * (1.0 if short > _HOPELESS else short)

    def pressed(self, held: Held) -> bool:
        """Return whether the top is just as long or just as wide as is asked, and no less."""
        long = self.length(held) <= self.sizes.asked_length + ROUNDING
        wide = self.width(held) <= self.sizes.asked_width + ROUNDING
        return (long or wide) and self.score(held) > -math.inf

    def trimmed(self, held: Held) -> Held:
        """Return the top trimmed to the limits about its middle."""
        length, width = np.array(self.length(held)), np.array(self.width(held))
        long, wide = (float(v) for v in self.sizes.trimmed(length, width))
        if long == length and wide == width:
            return held
        inset = 2 * self.inset(held.radius)
        smaller = held.resized(max(long - inset, 0.0), max(wide - inset, 0.0))
        if self.missed(smaller) <= self.missed(held):
            return smaller
        points = self.edges.seen(held.turn, held.pivot).held
        return held.shrunk_round(points, smaller.inner_length, smaller.inner_width)

    def missed(self, held: Held) -> float:
        """Return by how much the core misses the worst of the points that it must hold, mm."""
        if len(self.edges.held) == 0:
            return 0.0
        points = self.edges.seen(held.turn, held.pivot).held
        return missed(points, held.sides, self.clearance(held.radius))

    def fitted(self, held: Held) -> Held | None:
        """Return the top with its sides drawn in until it is clear; None if none is left or stays.

        A top just two corner radii wide may lose of them what the proof of any top may take.
        """
        if self.fixed is not None:
            held = replace(held.resized(held.inner_length, held.inner_width), pivot=self.fixed)
        seen = self.edges.seen(held.turn, held.pivot)
        by = shortfall(seen, held.sides, self.clearance(held.radius))
        drawn = held.drawn_in(by) if by > 0 else held
        is_left = min(drawn.inner_length, drawn.inner_width) > -PROOF_ALLOWANCE
        return drawn if is_left and self.stays(drawn) else None

    def polished(self, held: Held, last: float = _NOTHING) -> Held:
        """Return the local best near a top that is clear, by steps of more than `last`, mm."""
        held = self.trimmed(held)
        if self._short(held) > 0:
            held = self._climbed(held, last, grow=True)
            if self.score(held) == -math.inf:
                return held
        return self._climbed(held, last, grow=False)

    def _short(self, held: Held) -> float:
        """Return how much the top is too small for what is asked, as a share."""
        long, wide = self._lack(held)
        return long / max(self.length(held), _NOTHING) + wide / max(self.width(held), _NOTHING)

    def _lack(self, held: Held) -> tuple[float, float]:
        """Return how much the top is too short, or misses of what it must hold, and too narrow."""
        long = max(self.sizes.asked_length - self.length(held), 0.0)
        return long + self.missed(held), max(self.sizes.asked_width - self.width(held), 0.0)

    def _worth(self, held: Held, grow: bool) -> float:
        """Return the score; or, while growing into the limits, minus what is still too small.

        What is asked for is not given up for a better score, but for the last trace.
        """
        if grow:
            return -self._short(held)
        return self.score(held) * (1 - _DEAR * self._short(held))

    def _climbed(self, held: Held, last: float, *, grow: bool) -> Held:
        worth = self._worth(held, grow)
        trust = _FIRST_TRUST * max(held.inner_length, held.inner_width, 1.0)
        if grow:  # what is all but large enough stays where it is
            trust = min(trust, _STRIDE * max(self._lack(held)))
        for _ in range(_MOST_ROUNDS):
            if trust < last or (grow and worth >= 0):
                break
            moved, promise = self._stepped(held, trust, grow)
            if promise < _NOTHING:
                break
            better = -math.inf if moved is None else self._worth(moved, grow)
            if moved is None or better <= worth:
                trust /= 5
                continue
            step = float(np.abs(moved.sides - held.sides).max())
            gained = better - worth
            held, worth = moved, better
            if gained < 1e-12 * abs(worth):
                trust /= 5
            elif step > 0.7 * trust:
                trust *= 2
            else:
                trust = max(min(trust, 4 * step), trust / 20)
        return held

    def _stepped(self, held: Held, trust: float, grow: bool) -> tuple[Held | None, float]:
        """Return the top after the best step of at most `trust`, mm, made clear again.

        And what the step promised to gain, in mm of the size that counts most.
        """
        seen = self.edges.seen(held.turn, held.pivot)
        clearance = self.clearance(held.radius)
        contacts = room(seen, held.sides, clearance, 3 * trust)
        arm = max(float(np.abs(held.sides).max()), 1.0)
        scale = np.array([1 / arm, 1.0, 1.0, 1.0, 1.0, 1.0])
        holds = hold(seen.held, held.sides, clearance)
        rows, space = self._limits(held, contacts, trust, arm, grow)
        gain, bend = self._gain(held, grow)
        if len(holds.value):
            grows = np.full((len(holds.value), 1), self._grows(held.radius))
            firm = np.concatenate([holds.slope, grows], axis=1)
            rows = np.vstack([rows, firm])
            space = np.concatenate([space, np.maximum(holds.value, 0.0)])
            if grow:
                gain = gain + firm[holds.value < 0].sum(axis=0) / self.length(held)
        rows, gain, bend = rows * scale, gain * scale, bend * scale * scale[:, None]
        unit = float(np.abs(gain).max()) or 1.0
        gain, bend = gain / unit, bend / unit
        free = np.array([True] * 5 + [self.radii[0] < self.radii[1]])
        step = best_step(gain[free], bend[np.ix_(free, free)], rows[:, free], space, _ROUGH)
        pull = step.pull[: len(contacts.value)]
        curve = np.zeros((6, 6))
        curve[:5, :5] = np.tensordot(pull, contacts.curve, axes=1)
        if len(holds.value):
            curve[:5, :5] += np.tensordot(step.pull[-len(holds.value) :], holds.curve, axes=1)
        curve[:5, :5] *= scale[:5] * scale[:5, None]
        step = best_step(
            gain[free], positive_part(bend - curve)[np.ix_(free, free)], rows[:, free], space
        )
        move = np.zeros(6)
        move[free] = step.move
        promise = float(gain @ move)
        move *= scale
        radius = _settled(held.radius + move[5], *self.radii)
        turn = float(np.clip(held.turn + move[0], *self.turns))
        sides = held.sides + move[1:5]
        return self.fitted(Held(turn, held.pivot, sides, radius)), promise

    def _grows(self, radius: float) -> float:
        """Return how fast inset and clearance grow with the corner radius."""
        return 1.0 if radius >= self.lipping else 0.0

    def _ways(self, held: Held) -> tuple[Array, Array]:
        """Return how length and width change with turn, sides and corner radius."""
        inset = 2 * self._grows(held.radius)
        long = np.array([0.0, 0.0, 0.0, -1.0, 1.0, inset])
        return long, np.array([0.0, -1.0, 1.0, 0.0, 0.0, inset])

    def _limits(
        self, held: Held, contacts: Room, trust: float, arm: float, grow: bool
    ) -> tuple[Array, Array]:
        """Return all that holds a step back as rows·step + space ≥ 0, contacts first."""
        grows = self._grows(held.radius)
        clear = np.concatenate([contacts.slope, np.full((len(contacts.value), 1), -grows)], axis=1)
        (long, wide), corner = self._ways(held), np.eye(6)[5]
        length, width = sizes = self.length(held), self.width(held)
        spans = []
        asked = self.sizes.asked_length, self.sizes.asked_width
        for size, least, most in zip(sizes, asked, self.sizes.greatest, strict=True):
            lacks = not grow and size <= least - ROUNDING  # then the step makes it good
            most = min(most, max(least, size)) if grow else most
            spans.append((least if lacks else min(size, least), most))
        ratio = self.sizes.wish.limits.ratio
        rows = [
            (-a * long - b * wide, most - a * length - b * width)
            for a, b, most in half_planes(spans[0], spans[1], (ratio.least, ratio.greatest))
        ]
        rows += [
            (wide - 2 * corner, width - 2 * held.radius),
            (wide - 2 * grows * corner, held.inner_width),
            (corner, held.radius - self.radii[0]),
            (-corner, self.radii[1] - held.radius),
        ]
        low = max(-trust / arm, min(0.0, self.turns[0] - held.turn))
        high = min(trust / arm, max(0.0, self.turns[1] - held.turn))
        turn, *others = np.eye(6)
        rows += [(turn * arm, -low * arm), (-turn * arm, high * arm)]
        rows += [(sign * unit, trust) for unit in others for sign in (1.0, -1.0)]
        return (
            np.vstack([clear, *(row for row, _ in rows)]),
            np.concatenate([contacts.value, [space for _, space in rows]]),
        )

    def _gain(self, held: Held, grow: bool) -> tuple[Array, Array]:
        """Return slope and downward bend of the logarithm of the goal."""
        long, wide = self._ways(held)
        long, wide = long / self.length(held), wide / self.width(held)
        for_length, for_width = 1.0, 1.0
        if grow:
            for_length = 1.0 if self.length(held) < self.sizes.asked_length else _TIE
            for_width = 1.0 if self.width(held) < self.sizes.asked_width else _TIE
        elif self.sizes.wish.goal is Goal.LENGTH:
            for_width = _TIE
        elif self.sizes.wish.goal is Goal.WIDTH:
            for_length = _TIE
        gain = for_length * long + for_width * wide
        bend = for_length * np.outer(long, long) + for_width * np.outer(wide, wide)
        if self.sizes.wish.goal is Goal.AREA and not grow:
            area = self.length(held) * self.width(held)
            gain[5] -= 2 * CORNER_LOSS * held.radius / area
        return gain, bend


def _settled(value: float, low: float, high: float) -> float:
    """Return the value within the span, at its very end where it is as good as there."""
    if value < low + ROUNDING:
        return low
    return high if value > high - ROUNDING else float(value)
