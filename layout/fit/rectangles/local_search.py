"""Moving a rectangle to its true contacts: the local best, to far below what a tape can read.

Each step (see `fit/local_search.py`) asks how much room every edge nearby leaves, and how that
changes as the rectangle moves. The goal bends along the trade of length for width, so it stands in
there as several figures that touch it along that trade. The sides are pulled in by whatever is then
too little.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...geometry.turned_box import half_turn
from ...panel.sound import SoundWood
from ..found import Fit
from ..local_search import Steps, climbed
from ..proof import Drawn, until_proved
from ..wish import Goal
from ..wood.edges import turned
from .contacts import WoodEdges, hold, missed, room, shortfall
from .gaps import Array
from .inner import Inner, outline
from .sizes import CORNER_LOSS, Sizes

_FIRST_TRUST = 0.05
"""Of the rectangle's size."""
_STRIDE = 10.0
"""How many times what a top is too small by the first step may be that makes it large enough."""
_NOTHING = 1e-7
"""mm: a step or a gain far below 0.01."""
_DEAR = 1e3
"""How much dearer it is to fall short of the limits than to lose score."""
_FIRM = 2 * ROUNDING
"""mm: so far within its edge a step keeps what must be held, since a proof draws that in."""
_TIE = 1e-5
"""How much the size that a goal does not name counts against the one it names."""
_TRADES = np.array([0.0, *(sign * 2.0**-k for k in range(6) for sign in (1, -1))])
"""Where on that trade figures touch the goal, of as far as a step may go."""


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

    def begun(self, place: Placement, length: float, width: float, radius: float) -> Inner:
        """Return the top, turned as it may be, whose core lies there and has those sizes, mm."""
        half = np.array([width, length]) / 2 + self.lipping - self.inset(radius)
        turn, (low, high) = place.turn - math.pi / 2, self.turns
        if math.isfinite(low):
            middle = (low + high) / 2
            turn = middle + math.remainder(turn - middle, math.pi)
        return Inner(turn, np.array([*place.centre]), np.maximum(half, 0.0), radius)

    def eased(self) -> Polisher:
        """Return the same, asking for less by what may be taken off a found top for its proof."""
        least = max(self.radii[0] - PROOF_ALLOWANCE / 2, min(self.radii[0], self.lipping))
        return replace(self, sizes=self.sizes.eased(), radii=(least, self.radii[1]))

    def of_size(self, top: Inner) -> tuple[float, float]:
        """Return length and width of the finished top, mm."""
        width, length = 2 * (top.half + self.inset(top.radius))
        return float(length), float(width)

    def score(self, top: Inner) -> float:
        """Return what the top is worth trimmed to the limits; −inf where it is too small."""
        length, width = self.of_size(top)
        sizes = replace(self.sizes, radius=top.radius)
        return float(sizes.most(np.array(length), np.array(width)))

    def promise(self, top: Inner) -> float:
        """Return what the top is worth trimmed, or would be were it not a little too small."""
        length, width = self.of_size(top)
        sizes = replace(self.sizes, radius=top.radius)
        return float(sizes.promise(np.array(length), np.array(width)))

    def pressed(self, top: Inner) -> bool:
        """Return whether the top is just as long or just as wide as is asked, and no less."""
        length, width = self.of_size(top)
        long = length <= self.sizes.asked_length + ROUNDING
        wide = width <= self.sizes.asked_width + ROUNDING
        return (long or wide) and self.score(top) > -math.inf

    def trimmed(self, top: Inner) -> Inner:
        """Return the top trimmed to the limits about its middle."""
        length, width = self.sizes.trimmed(*(np.array(size) for size in self.of_size(top)))
        most = np.array([width, length]) / 2 - self.inset(top.radius)
        return replace(top, half=np.minimum(top.half, np.maximum(most, 0.0)))

    def missed(self, top: Inner) -> float:
        """Return by how much the core misses the worst of the points that it must hold, mm."""
        points = self.edges.seen(top.turn, top.centre).held
        return missed(points, top.half, self.clearance(top.radius))

    def fitted(self, top: Inner) -> tuple[float, Inner] | None:
        """Return the top with its sides drawn in until it is clear, if any is left, and its worth.

        A top just two corner radii wide may lose of them what the proof of any top may take: its
        ends are round still, and drawn in with the sides.
        """
        seen = self.edges.seen(top.turn, top.centre)
        drawn = top.drawn_in(shortfall(seen, top.half, self.clearance(top.radius)))
        lack = -float(drawn.half.min())
        if 2 * lack > PROOF_ALLOWANCE:
            return None
        if 0 < lack < self.clearance(top.radius):
            drawn = drawn.with_radius(top.radius - lack)
            over = shortfall(seen, drawn.half, self.clearance(drawn.radius))
            drawn = replace(drawn, radius=drawn.radius - over)
        return self._worth(drawn), drawn

    def polished(self, top: Inner) -> Inner:
        """Return the local best near a top that is clear.

        What is too small for what is asked grows into it first.
        """
        top = self.trimmed(top)
        lack = max(self._lack(top))
        trust = _FIRST_TRUST * max(2 * float(top.half.max()), 1.0)
        if lack > 0:  # what is all but large enough stays where it is
            trust = min(trust, _STRIDE * lack)
        steps = trust, _NOTHING
        return climbed(self, (self._worth(top), top), steps, nothing=_NOTHING)[1]

    def finished(self, wood: SoundWood, top: Inner, parts: Sequence[Region] = ()) -> Fit | None:
        """Return the top proved inside and round the parts it must hold, or None."""
        top = top.with_radius(max(top.radius, self.radii[0]))
        placement = Placement(Point.of(top.centre), half_turn(top.turn + math.pi / 2))
        rims = (0.0, top.radius), (2 * self.lipping, self.clearance(top.radius))

        def drawn_in(by: float) -> Drawn | None:
            smaller = self.trimmed(top.drawn_in(by))
            score, (length, width) = self.score(smaller), self.of_size(smaller)
            if score == -math.inf:
                return None
            whole, core = (outline(length - rim, width - rim, radius) for rim, radius in rims)
            return Drawn(whole, core, placement, score)

        fixed = self.sizes.wish.limits.fixes_a_size
        return until_proved(drawn_in, wood, parts, spare=not fixed)

    def _lack(self, top: Inner) -> tuple[float, float]:
        """Return how much the top is too short, or misses of what it must hold, and too narrow."""
        length, width = self.of_size(top)
        long = max(self.sizes.asked_length - length, 0.0)
        return long + self.missed(top), max(self.sizes.asked_width - width, 0.0)

    def _worth(self, top: Inner) -> float:
        """Return the score; or, of a top that is too small, minus what is lacking as a share.

        What is asked for is not given up for a better score, but for the last trace.
        """
        sizes = self.of_size(top)
        short = sum(b / max(a, _NOTHING) for a, b in zip(sizes, self._lack(top), strict=True))
        score = self.score(top)
        return -short if score == -math.inf else score * (1 - _DEAR * short)

    def steps(self, top: Inner, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm.

        The unknowns are the middle along x and y, the turn, counted at a corner, half the sizes,
        the corner radius and what the goal gains.
        """
        seen, clearance = self.edges.seen(top.turn, top.centre), self.clearance(top.radius)
        contacts, holds = (
            room(seen, top.half, clearance, 3 * trust),
            hold(seen.held, top.half, clearance),
        )
        arm, grows = _arm(top), float(top.radius >= self.lipping)
        touching = -np.vstack([contacts.slope, holds.slope])
        touching[:, 2] /= arm
        growth = np.repeat([grows, -grows], [len(contacts.value), len(holds.value)])
        gain, planes, spaces = self._sized(top, trust)
        sized = planes @ np.array([[0, 2, 2 * grows, 0], [2, 0, 2 * grows, 0], [0, 0, 0, 1.0]])
        rows = np.vstack(
            [
                np.column_stack([touching, growth, np.zeros(len(growth))]),
                np.column_stack([np.zeros((len(sized), 3)), sized]),
            ]
        )
        limits = np.concatenate([contacts.value, holds.value - _FIRM, spaces])
        low, high = np.full(7, -trust), np.full(7, trust)
        low[2], high[2] = np.clip([(turn - top.turn) * arm for turn in self.turns], -trust, trust)
        low[3:5] = np.maximum(-trust, -np.maximum(top.half, 0.0))
        low[5:] = max(-trust, self.radii[0] - top.radius), -9 * trust
        high[5:] = min(trust, self.radii[1] - top.radius), 9 * trust
        return Steps(gain, rows, limits, low, high)

    def moved(self, top: Inner, step: Array) -> Inner:
        """Return the top after a step."""
        return Inner(
            float(np.clip(top.turn + step[2] / _arm(top), *self.turns)),
            top.centre + turned(step[:2], -top.turn),
            top.half + step[3:5],
            _settled(top.radius + step[5], *self.radii),
        )

    def _sized(self, top: Inner, trust: float) -> tuple[Array, Array, Array]:
        """Return what counts of the unknowns, and what limits and goal leave of sizes and gain.

        As rows by length, width and the gain of the goal, and the most of each.
        """
        length, width = (max(size, 1.0) for size in self.of_size(top))
        sizes = self.sizes
        asked = [
            least if size <= least - ROUNDING else min(size, least)
            for size, least in ((length, sizes.asked_length), (width, sizes.asked_width))
        ]
        planes = sizes.half_planes(*asked)
        rows = [((a, b, 0.0), most - a * length - b * width) for a, b, most in planes]
        trades = np.exp(_TRADES * min(2 * trust / width, 1.0))
        aims = [aim for by in trades if (aim := sizes.aim(length * by, width / by)) is not None]
        if (here := sizes.aim(length, width)) is None:
            return np.zeros(7), np.array([row for row, _ in rows]), np.array([s for _, s in rows])
        unit, now = max(here.length, here.width), here.figure(length, width)
        rows += [
            ((-aim.length / unit, -aim.width / unit, 1.0), (aim.figure(length, width) - now) / unit)
            for aim in aims
        ]
        gain = np.array([0.0, 0.0, 0.0, _TIE, _TIE, 0.0, 1.0])
        if sizes.wish.goal is Goal.AREA:
            gain[5] = -2 * CORNER_LOSS * top.radius / (length * width * unit)
        return gain, np.array([row for row, _ in rows]), np.array([space for _, space in rows])


def _arm(top: Inner) -> float:
    """Return how far from its middle a turn of a top is counted, mm."""
    return max(float(top.half.max()), 1.0)


def _settled(value: float, low: float, high: float) -> float:
    """Return the value within the span, at its very end where it is as good as there."""
    if value < low + ROUNDING:
        return low
    return high if value > high - ROUNDING else float(value)
