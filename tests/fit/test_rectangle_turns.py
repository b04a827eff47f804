"""The bound on rectangles by turn alone: the best of a hull at some turn tries to be cut off."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import linprog

from panelwright.layout.fit.rectangles.boxes import Boxes, Frames
from panelwright.layout.fit.rectangles.hull_bound import HullSides, cut_by_turn
from panelwright.layout.fit.rectangles.sizes import Sizes
from panelwright.layout.fit.wish import Goal, Limits, Span, Wish
from panelwright.layout.geometry.polygon import convex_hull

Array = NDArray[np.float64]


def random_hull(rng: np.random.Generator) -> Array:
    """Return the edges of a convex panel, stout or a sliver, now and then with parallel sides."""
    corners = rng.uniform(-1000, 1000, (int(rng.integers(3, 15)), 2))
    if rng.random() < 0.3:
        corners = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]) * 1000
    ring = convex_hull(corners * (1.0, 10 ** rng.uniform(-2, 0)))
    turn = rng.uniform(0, math.tau)
    ring = ring @ np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    return np.hstack([ring, np.roll(ring, -1, axis=0)])


def random_wish(rng: np.random.Generator) -> Wish:
    """Return a wish of any goal, with or without limits on the sizes and the ratio."""
    limits = Limits(
        length=Span(rng.uniform(0, 500) * (rng.random() < 0.4), rng.choice([1000.0, math.inf])),
        width=Span(rng.uniform(0, 50) * (rng.random() < 0.4), rng.choice([300.0, math.inf])),
        ratio=Span(*[(1.0, math.inf), (2.0, math.inf), (1.0, 3.0)][int(rng.integers(3))]),
    )
    goal = list(Goal)[int(rng.integers(4))]
    wanted = (900.0, 400.0) if goal is Goal.NEAREST else None
    return Wish((), goal=goal, limits=limits, wanted=wanted)


def best_at(turn: float, hull: Array, sizes: Sizes, rng: np.random.Generator) -> float:
    """Return the score of the best of some rectangles that stand on the hull's sides at a turn."""
    way = hull[:, 2:] - hull[:, :2]
    out = np.stack([way[:, 1], -way[:, 0]], axis=1) / np.hypot(*way.T)[:, None]
    own = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    rows = np.hstack([np.abs(out @ own.T) / 2, out])
    most = (out * hull[:, :2]).sum(axis=1)
    asked = np.array(sizes.least[::-1]) + 1e-6
    least = [(size, None) for size in asked] + [(None, None)] * 2
    way, best = rng.uniform(0, 1, 2), -math.inf
    for _ in range(8):
        found = linprog([-way[0], -way[1], 0, 0], rows, most, bounds=least, method="highs")
        if found.status != 0:
            break
        wide, long = found.x[:2] * (1 - 1e-10)
        best = max(best, float(sizes.most(np.array(long), np.array(wide))))
        middle = rng.uniform(0.2, 1.0) * np.array([wide, long]) + 1e-9
        way = 1 / middle if rng.random() < 0.7 else rng.uniform(0, 1, 2)
    return best


def box_of(middle: float, half: float) -> Boxes:
    """Return a box of one span of turns, with all places."""
    frames = Frames(np.array([middle]), np.zeros((1, 2)))
    return Boxes(frames, np.array([half]), np.tile([-3e3, 3e3, -3e3, 3e3], (1, 2, 1)))


@pytest.mark.parametrize("seed", range(2))
def test_no_turn_is_cut_off_at_which_a_better_top_fits(seed: int) -> None:
    """For any goal and limits; and turns are cut off where none is good enough."""
    rng, cut, met = np.random.default_rng(seed), 0, 0
    for _ in range(25):
        hull, wish = random_hull(rng), random_wish(rng)
        sizes = Sizes.of(wish, 0.0)
        turn = rng.uniform(0, math.pi)
        score = best_at(turn, hull, sizes, rng)
        if score == -math.inf:
            continue
        for _ in range(4):
            half = 10 ** rng.uniform(-4, -0.5)
            middle = turn + half * rng.uniform(-0.999, 0.999)
            box = box_of(middle, half)
            left = cut_by_turn(box, HullSides.of(hull[:, :2]), sizes, 0.0, score * (1 - 1e-6))
            assert (np.abs(left.frames.turn - turn) <= left.half + 1e-12).any()
            assert (np.abs(left.frames.turn - middle) <= half - left.half + 1e-12).all()
            above = cut_by_turn(box, HullSides.of(hull[:, :2]), sizes, 0.0, score * 1.01)
            met, cut = met + 1, cut + (above.half.sum() < half * 0.999)
    assert cut > met / 6 > 8


@pytest.mark.parametrize("share", [0.25, 0.5, 0.75])
def test_a_turn_between_two_that_are_looked_at_is_kept(share: float) -> None:
    """The top of a slim board lies along it, and a hundredth of a radian off it half is lost."""
    own, half = 0.4, 0.32
    cos, sin = math.cos(own), math.sin(own)
    board = np.array([[0.0, 0.0], [20.0, 0.0], [20.0, 1000.0], [0.0, 1000.0]])
    hull = HullSides.of(board @ np.array([[cos, sin], [-sin, cos]]))
    box = box_of(own + (3 + share) * half / 16, half)
    left = cut_by_turn(box, hull, Sizes.of(Wish(()), 0.0), 0.0, 20_000 * (1 - 1e-6))
    assert (np.abs(left.frames.turn - own) <= left.half).any()
    assert left.half.sum() < half / 4
