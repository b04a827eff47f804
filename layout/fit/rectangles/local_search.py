"""Moving a rectangle to its true contacts: the local best, to far below what a tape can read.

The goal bends along the trade of length for width, so it stands in the linear programs of steps
(see `fit/local_search.py`) as several figures that touch it along that trade.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...geometry.turned_box import half_turn
from ...panel.sound import SoundWood
from ..found import Fit
from ..goal import half_planes
from ..local_search import Steps, climbed
from ..proof import Drawn, until_proved
from ..stand import Stand
from ..wish import Goal
from ..wood.edges import Array, turned
from .contacts import Inner, WoodEdges, hold, missed, outline, room, shortfall
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
    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    turns: tuple[float, float]
    """Least and greatest turn of x, radians; infinite where any will do."""

    def clearance(self, radius: float) -> float:
        """Return the corner radius of the core, mm."""
        return max(radius - self.sizes.wish.lipping, 0.0)

    def inset(self, radius: float) -> float:
        """Return how far the inner rectangle lies inside the finished top, mm."""
        return max(radius, self.sizes.wish.lipping)

    def begun(self, start: Stand, radius: float) -> Inner:
        """Return the top, turned as it may be, whose core stands there; its radius in mm."""
        half = np.array([start.width, start.length]) / 2 - self.clearance(radius)
        turn, (low, high) = start.placement.turn - math.pi / 2, self.turns
        if math.isfinite(low):
            middle = (low + high) / 2
            turn = middle + math.remainder(turn - middle, math.pi)
        return Inner(turn, np.array([*start.placement.centre]), np.maximum(half, 0.0), radius)

    def eased(self) -> Polisher:
        """Return the same, asking for less by what may be taken off a found top for its proof."""
        least = max(
            self.radii[0] - PROOF_ALLOWANCE / 2, min(self.radii[0], self.sizes.wish.lipping)
        )
        return replace(self, sizes=self.sizes.eased(), radii=(least, self.radii[1]))

    def of_size(self, top: Inner) -> Array:
        """Return length and width of the finished top, (2,) mm."""
        size: Array = 2 * (top.half[::-1] + self.inset(top.radius))
        return size

    def score(self, top: Inner, *, hoped: bool = False) -> float:
        """Return what the top is worth trimmed to the limits; −inf where it is too small.

        Or, `hoped` for, what it would be were it not a little too small.
        """
        sizes = replace(self.sizes, radius=top.radius)
        return float((sizes.promise if hoped else sizes.most)(*self.of_size(top)))

    def pressed(self, top: Inner) -> bool:
        """Return whether the top is just as long or just as wide as is asked, and no less."""
        just = self.of_size(top) <= np.array(self.sizes.asked) + ROUNDING
        return bool(just.any()) and self.score(top) > -math.inf

    def trimmed(self, top: Inner) -> Inner:
        """Return the top trimmed to the limits about its middle."""
        most = np.array(self.sizes.trimmed(*self.of_size(top)))[::-1] / 2 - self.inset(top.radius)
        return replace(top, half=np.minimum(top.half, np.maximum(most, 0.0)))

    def missed(self, top: Inner) -> float:
        """Return by how much the core misses the worst of the points that it must hold, mm."""
        points = turned(self.edges.held - top.centre, top.turn)
        return missed(points, top.half, self.clearance(top.radius))

    def fitted(self, top: Inner) -> tuple[float, Inner] | None:
        """Return the top with its sides drawn in until it is clear, if any is left, and its worth.

        A top just two corner radii wide may lose of them what the proof of any top may take: its
        ends are round still, and drawn in with the sides.
        """
        seen = self.edges.seen(top)
        by = shortfall(seen, top.half, self.clearance(top.radius))
        drawn = replace(top, half=top.half - by)
        lack = -float(drawn.half.min())
        if 2 * lack > PROOF_ALLOWANCE:
            return None
        if 0 < lack < self.clearance(top.radius):
            half, clearance = drawn.half + lack, self.clearance(top.radius - lack)
            over = lack + shortfall(seen, half, clearance)
            drawn = replace(drawn, half=half, radius=top.radius - over)
        return self._worth(drawn), drawn

    def polished(self, top: Inner) -> Inner:
        """Return the local best near a top that is clear.

        What is too small for what is asked grows into it first.
        """
        top = self.trimmed(top)
        lack = float(self._lack(top).max())
        trust = _FIRST_TRUST * max(2 * float(top.half.max()), 1.0)
        if lack > 0:  # what is all but large enough stays where it is
            trust = min(trust, _STRIDE * lack)
        steps = trust, _NOTHING
        return climbed(self, (self._worth(top), top), steps, nothing=_NOTHING)[1]

    def finished(self, wood: SoundWood, top: Inner, parts: Sequence[Region] = ()) -> Fit | None:
        """Return the top proved inside and round the parts it must hold, or None."""
        radius = max(top.radius, self.radii[0])
        top = replace(top, half=top.half + top.radius - radius, radius=radius)
        placement = replace(top.placement, turn=half_turn(top.placement.turn))
        rims = (0.0, top.radius), (2 * self.sizes.wish.lipping, self.clearance(top.radius))

        def drawn_in(by: float) -> Drawn | None:
            smaller = self.trimmed(replace(top, half=top.half - by))
            score, (length, width) = self.score(smaller), self.of_size(smaller).tolist()
            if score == -math.inf:
                return None
            whole, core = (outline(length - rim, width - rim, radius) for rim, radius in rims)
            return Drawn(whole, core, placement, score)

        fixed = self.sizes.wish.limits.fixes_a_size
        return until_proved(drawn_in, wood, parts, spare=not fixed)

    def _lack(self, top: Inner) -> Array:
        """Return how much the top is too short, or misses of what it must hold, and too narrow."""
        lack: Array = np.maximum(np.array(self.sizes.asked) - self.of_size(top), 0.0)
        lack[0] += self.missed(top)
        return lack

    def _worth(self, top: Inner) -> float:
        """Return the score; or, of a top that is too small, minus what is lacking as a share.

        What is asked for is not given up for a better score, but for the last trace.
        """
        short = float((self._lack(top) / np.maximum(self.of_size(top), _NOTHING)).sum())
        score = self.score(top)
        return -short if score == -math.inf else score * (1 - _DEAR * short)

    def steps(self, top: Inner, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm.

        The unknowns are the middle along x and y, the turn, counted at a corner, half the sizes,
        the corner radius and what the goal gains.
        """
        seen, clearance = self.edges.seen(top), self.clearance(top.radius)
        contacts = room(seen, top.half, clearance, 3 * trust)
        holds = hold(seen.held, top.half, clearance)
        arm, grows = _arm(top), float(top.radius >= self.sizes.wish.lipping)
        touching = -np.vstack([contacts.slope, holds.slope])
        touching[:, 2] /= arm
        growth = np.repeat([grows, -grows], [len(contacts.value), len(holds.value)])
        gain, sized, spaces = self._sized(top, trust)
        sized = sized @ np.array([[0, 2, 2 * grows, 0], [2, 0, 2 * grows, 0], [0, 0, 0, 1.0]])
        rows = np.zeros((len(touching) + len(sized), 7))
        rows[: len(touching), :6] = np.column_stack([touching, growth])
        rows[len(touching) :, 3:] = sized
        limits = np.concatenate([contacts.value, holds.value - _FIRM, spaces])
        low, high = np.full(7, -trust), np.full(7, trust)
        low[2], high[2] = np.clip([(turn - top.turn) * arm for turn in self.turns], -trust, trust)
        low[3:5] = np.maximum(-trust, -np.maximum(top.half, 0.0))
        low[5:] = max(-trust, self.radii[0] - top.radius), -9 * trust
        high[5:] = min(trust, self.radii[1] - top.radius), 9 * trust
        return Steps(gain, rows, limits, low, high)

    def moved(self, top: Inner, step: Array) -> Inner:
        """Return the top after a step."""
        radius = float(np.clip(top.radius + step[5], *self.radii))
        return Inner(
            float(np.clip(top.turn + step[2] / _arm(top), *self.turns)),
            top.centre + turned(step[:2], -top.turn),
            top.half + step[3:5],
            # at the very end of its span where it is as good as there
            next((end for end in self.radii if abs(radius - end) < ROUNDING), radius),
        )

    def _sized(self, top: Inner, trust: float) -> tuple[Array, Array, Array]:
        """Return what counts of the unknowns, and what limits and goal leave of sizes and gain.

        The latter as rows by length, width and the gain of the goal, and the most of each.
        """
        size, sizes = np.maximum(self.of_size(top), 1.0), self.sizes
        asked = np.array(sizes.asked)
        asked = np.where(size <= asked - ROUNDING, asked, np.minimum(size, asked))
        ratio, (long, wide) = sizes.wish.limits.ratio, sizes.greatest
        ends = (asked[0], long), (asked[1], wide), (ratio.least, ratio.greatest)
        planes = np.array(half_planes(*ends))
        rows, spaces = planes * [1.0, 1.0, 0.0], planes[:, 2] - planes[:, :2] @ size
        gain = np.zeros(7)
        if (here := sizes.aim(*size)) is not None:
            trades = np.exp(_TRADES * min(2 * trust / size[1], 1.0))
            near = (sizes.aim(*(size * [by, 1 / by])) for by in trades)
            figures = np.array([aim for aim in near if aim is not None])
            unit = max(here[:2])
            over = figures[:, :2] @ size + figures[:, 2] - (here[:2] @ size + here[2])
            figures = np.column_stack([-figures[:, :2] / unit, np.ones(len(figures))])
            rows, spaces = np.vstack([rows, figures]), np.concatenate([spaces, over / unit])
            gain[3:] = _TIE, _TIE, 0.0, 1.0
            if sizes.wish.goal is Goal.AREA:
                gain[5] = -2 * CORNER_LOSS * top.radius / (size.prod() * unit)
        return gain, rows, spaces


def _arm(top: Inner) -> float:
    """Return how far from its middle a turn of a top is counted, mm."""
    return max(float(top.half.max()), 1.0)
