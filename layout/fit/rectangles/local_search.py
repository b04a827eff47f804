"""Moving a rectangle to its true contacts: the local best, to far below what a tape can read.

Each step asks how much room every edge nearby leaves, and how that changes as the rectangle moves;
takes the step that is best by that account, within a distance that is trusted; and pulls the sides
in by whatever is then too little.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..goal import wanted
from ..linear_program import maximised
from ..local_search import climbed
from ..wish import Goal
from .contacts import WoodEdges, room, shortfall
from .gaps import Array
from .held import Held
from .holding import hold, missed
from .sizes import CORNER_LOSS, ENDLESS, Sizes

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
        """Return the top with its sides drawn in until it is clear; None if nothing is left.

        A top just two corner radii wide may lose of them what the proof of any top may take.
        """
        seen = self.edges.seen(held.turn, held.pivot)
        by = shortfall(seen, held.sides, self.clearance(held.radius))
        drawn = held.drawn_in(by) if by > 0 else held
        return drawn if min(drawn.inner_length, drawn.inner_width) > -PROOF_ALLOWANCE else None

    def polished(self, held: Held) -> Held:
        """Return the local best near a top that is clear."""
        held = self.trimmed(held)
        if self._short(held) > 0:
            held = self._climbed(held, grow=True)
            if self.score(held) == -math.inf:
                return held
        return self._climbed(held, grow=False)

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

    def _climbed(self, held: Held, *, grow: bool) -> Held:
        trust = _FIRST_TRUST * max(held.inner_length, held.inner_width, 1.0)
        if grow:  # what is all but large enough stays where it is
            trust = min(trust, _STRIDE * max(self._lack(held)))
        score = self._worth(held, grow)
        return climbed(held, score, lambda top, by: self._stepped(top, by, grow), trust, _NOTHING)[
            1
        ]

    def _stepped(self, held: Held, trust: float, grow: bool) -> tuple[float, Held] | None:
        """Return the top after the best step of at most `trust`, mm, made clear again.

        With what it is worth; None where no step promises to gain anything. The unknowns are the
        turn, counted at the end of the top, the four sides and the corner radius.
        """
        if grow and self._short(held) <= 0:
            return None
        seen, clearance = self.edges.seen(held.turn, held.pivot), self.clearance(held.radius)
        contacts = room(seen, held.sides, clearance, 3 * trust)
        holds = hold(seen.held, held.sides, clearance)
        grows = self._grows(held.radius)
        arm = max(float(np.abs(held.sides).max()), 1.0)
        scale = np.array([1 / arm, 1.0, 1.0, 1.0, 1.0, 1.0])
        long = np.array([0.0, 0.0, 0.0, -1.0, 1.0, 2 * grows])
        wide = np.array([0.0, -1.0, 1.0, 0.0, 0.0, 2 * grows])
        sized, space = self._limits(held, np.stack([long, wide]), grow)
        firm = np.column_stack([holds.slope, np.full(len(holds.value), grows)])
        clear = np.column_stack([contacts.slope, np.full(len(contacts.value), -grows)])
        for_length, for_width, for_radius = self._gain(held, grow)
        gain = for_length * long + for_width * wide
        gain[5] += for_radius
        if grow:
            gain += firm[holds.value < 0].sum(axis=0) / self.length(held)
        gain *= scale
        gain /= float(np.abs(gain).max()) or 1.0
        low, high = np.full(6, -trust), np.full(6, trust)
        for at, value, span in ((0, held.turn, self.turns), (5, held.radius, self.radii)):
            low[at] = max(-trust, min(0.0, (span[0] - value) / scale[at]))
            high[at] = min(trust, max(0.0, (span[1] - value) / scale[at]))
        rows = -np.vstack([clear, firm, sized]) * scale
        limits = np.concatenate([contacts.value, np.maximum(holds.value, 0.0), space])
        best = maximised(gain, rows, limits, low, high)
        if best.value < _NOTHING:
            return None
        move = best.step * scale
        turn = float(np.clip(held.turn + move[0], *self.turns))
        radius = _settled(held.radius + move[5], *self.radii)
        moved = self.fitted(Held(turn, held.pivot, held.sides + move[1:5], radius))
        return (-math.inf, held) if moved is None else (self._worth(moved, grow), moved)

    def _grows(self, radius: float) -> float:
        """Return how fast inset and clearance grow with the corner radius."""
        return 1.0 if radius >= self.lipping else 0.0

    def _limits(self, held: Held, sides: Array, grow: bool) -> tuple[Array, Array]:
        """Return what limits on sizes hold a step back by, as rows·step + space ≥ 0.

        Parameters
        ----------
        sides : (2, 6) array
            How length and width change with the unknowns.
        """
        (long, wide), length, width = sides, self.length(held), self.width(held)
        corner = np.array([0.0, 0.0, 0.0, 0.0, 0.0, 2.0])
        rows = [
            (wide - corner, width - 2 * held.radius),
            (wide - wide[5] / 2 * corner, held.inner_width),
        ]
        asked = self.sizes.asked_length, max(self.sizes.asked_width, self.sizes.least_width)
        for a, b, most in self.sizes.half_planes(*asked):
            space = most - a * length - b * width
            lost = grow or space > -ROUNDING
            rows.append((-a * long - b * wide, max(space, 0.0) if lost else space))
        return np.stack([row for row, _ in rows]), np.array([space for _, space in rows])

    def _gain(self, held: Held, grow: bool) -> tuple[float, float, float]:
        """Return how the logarithm of the goal changes with length, width and corner radius."""
        length, width, sizes = self.length(held), self.width(held), self.sizes
        for_length, for_width, for_radius = 1.0, 1.0, 0.0
        if grow:
            for_length = 1.0 if length < sizes.asked_length else _TIE
            for_width = 1.0 if width < sizes.asked_width else _TIE
        elif sizes.wish.goal is Goal.LENGTH:
            for_width = _TIE
        elif sizes.wish.goal is Goal.WIDTH:
            for_length = _TIE
        elif sizes.wish.goal is Goal.NEAREST:
            long, wide = (min(size, ENDLESS) for size in wanted(sizes.wish))
            for_length = max(length * (long - length), 0.0) + _TIE
            for_width = max(width * (wide - width), 0.0) + _TIE
        else:
            for_radius = -2 * CORNER_LOSS * held.radius / (length * width)
        return for_length / length, for_width / width, for_radius


def _settled(value: float, low: float, high: float) -> float:
    """Return the value within the span, at its very end where it is as good as there."""
    if value < low + ROUNDING:
        return low
    return high if value > high - ROUNDING else float(value)
