"""No family ends open: 200 random panels of the kinds that come into a workshop, and worse."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from panelwright.layout.fit import Wish
from panelwright.layout.fit.families import answered
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region, union
from panelwright.layout.geometry.tolerance import PROOF_ALLOWANCE
from panelwright.layout.outlines import OWN_OUTLINE, Freeform
from panelwright.layout.panel.sound import SoundWood

pytestmark = pytest.mark.by_hand

PANELS = 200
SHAPES = (
    "circle", "oval", "capsule", "D end", "superellipse", "hexagon", "octagon", "rectangle",
    "rounded rectangle",
)  # fmt: skip
L_TOP = np.array([[0, 0], [10, 0], [10, 4], [4, 4], [4, 7], [0, 7]]) / 10.0
"""An own outline with a dent, 1 long."""

Ring = NDArray[np.float64]


def convex(rng: np.random.Generator) -> Ring:
    """Return the hull of some points."""
    corners = rng.uniform(-0.5, 0.5, (int(rng.integers(4, 13)), 2))
    return Region.hull(corners).exterior


def with_arms(rng: np.random.Generator) -> Ring:
    """Return an L or a U whose arms and corners are uneven."""
    a, b, c = rng.uniform(0.15, 0.6, 3)
    ring = [[0, 0], [1, 0], [1, b], [a, b], [a, 1], [0, 1]]
    if rng.random() < 0.5:
        ring = [
            [0, 0],
            [1, 0],
            [1, c + 0.4],
            [1 - a / 2, 1],
            [1 - a / 2, b],
            [a / 2, b],
            [a / 2, 1],
            [0, 1],
        ]
    return np.array(ring) + rng.uniform(-0.03, 0.03, (len(ring), 2)) * (rng.random() < 0.5)


def sliver(rng: np.random.Generator) -> Ring:
    """Return a long thin four-sided strip."""
    wide = rng.uniform(0.02, 0.1)
    ends = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, wide], [0.0, wide]])
    return ends + rng.uniform(-0.2, 0.2, (4, 2)) * (1.0, wide)


def needle(rng: np.random.Generator) -> Ring:
    """Return a triangle or a lozenge with a sharp corner at least."""
    wide = rng.uniform(0.02, 0.15)
    if rng.random() < 0.5:
        return np.array([[0.0, 0.0], [1.0, rng.uniform(-wide, wide)], [rng.uniform(0, 1), wide]])
    middle = rng.uniform(0.2, 0.8)
    return np.array([[0.0, 0.0], [middle, -wide / 2], [1.0, 0.0], [1 - middle, wide / 2]])


def board(rng: np.random.Generator) -> Ring:
    """Return a plain board."""
    return np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])


KINDS = (convex, with_arms, sliver, needle, board)


def panel_of(number: int) -> Region:
    """Return the panel of a number, 0.3 to 2.6 m long; a board with many holes."""
    rng = np.random.default_rng((14, number))
    long = math.exp(rng.uniform(math.log(300), math.log(2600)))
    kind = KINDS[number % len(KINDS)]
    wide = long if kind in (sliver, needle) else long * rng.uniform(0.3, 1.0)
    panel = Region.hull(kind(rng)) if kind is convex else Region.from_rings(kind(rng))
    placement = Placement(Point(0.0, 0.0), rng.uniform(0.0, math.tau) * (rng.random() < 0.7))
    panel = Region.from_rings(panel.exterior * (long, wide)).placed(placement)
    if kind is board:
        at = placement.of(rng.uniform(0.02, 0.98, (int(rng.integers(10, 41)), 2)) * (long, wide))
        knots = [Region.disk(Point(*p), rng.uniform(2.0, 12.0), around=True) for p in at.tolist()]
        panel = panel.minus(union(knots))
    return max(panel.pieces, key=lambda piece: piece.area)


def own_of(number: int) -> Freeform:
    """Return an own outline that may or may not fit the panel of a number."""
    bounds = panel_of(number).bounds
    size = math.hypot(bounds.width, bounds.height) * np.random.default_rng(number).uniform(0.1, 0.6)
    return Freeform.through(Point(*corner) for corner in (L_TOP * size).tolist())


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("number", range(PANELS))
def test_no_family_ends_open(number: int, shape: str) -> None:
    """The best top is found within the gap and what its proof takes off it, or there is none."""
    answer = answered(SoundWood.exact(panel_of(number)), Wish((shape,)), shape)
    if answer.fit is None:
        assert answer.bound == 0
        return
    outline = answer.fit.outline
    lost = 2 * PROOF_ALLOWANCE * (1 / outline.length + 1 / outline.width)
    assert answer.fit.score >= (1 - 0.001 - lost) * answer.bound


@pytest.mark.parametrize("number", range(PANELS))
def test_no_outline_of_ones_own_ends_open(number: int) -> None:
    """An L at its own size has a place whose clearance is settled, or none at all."""
    own = own_of(number)
    wish = Wish((OWN_OUTLINE,), own=own)
    answer = answered(SoundWood.exact(panel_of(number)), wish, OWN_OUTLINE)
    if answer.fit is None:
        assert answer.bound <= 0
    else:  # a straight place in the middle of its slide may be a little less clear
        gap = max(0.05, 0.001 * own.width / 2)
        assert answer.bound - answer.fit.score <= gap + 0.1
