"""Closing in on a local best: the steps that it is made of, and that it ends at rest."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import nnls

from panelwright.layout.fit import Wish
from panelwright.layout.fit.convex.boxes import Pose
from panelwright.layout.fit.convex.closing import closed_in
from panelwright.layout.fit.convex.d_end import DEndKind
from panelwright.layout.fit.convex.family import TwoSizes
from panelwright.layout.fit.convex.sizing import Sizing
from panelwright.layout.fit.convex.wood import Wood
from panelwright.layout.fit.quadratic_program import balanced
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import DEnd
from panelwright.layout.panel.sound import SoundWood

RING = np.array([
    [372.08, 2.09], [470.97, 306.43], [273.47, 607.84], [-93.11, 622.72], [-493.82, 563.46],
    [-688.35, 197.92], [-719.32, -215.62], [-140.5, -164.0], [-63.22, -458.01],
    [206.46, -445.44], [201.86, -128.13],
])  # fmt: skip


@pytest.mark.parametrize("share", [0.6, 1.5, 3.0])
def test_a_top_that_creeps_along_an_edge_gets_to_its_end(share: float) -> None:
    """From 1 to 5 mm off, with both ends of its flat side by one edge, it is the same best."""
    sizing = Sizing(DEndKind(), Wish(("D end",)), DEnd.of_size(2.0, 1.0))
    family = TwoSizes(Wood(SoundWood.exact(Region.from_rings(RING))), sizing)
    best = Pose(107.0413, 144.1266, 0.088939, 444.8705, 377.9829)
    off = Pose(107.8849, 145.6664, 0.092217, 444.6091, 377.9835)
    start = family.fitted(Pose(*(np.array(best) + share * np.subtract(off, best))))
    assert start is not None
    end = closed_in(family, start[1])
    assert family.sizing.score(end.half_length, end.half_width) > 611_293.0


def test_of_hundreds_of_limits_alike_but_for_a_hair_the_step_balances_those_that_press() -> None:
    """No limit is crossed, and what the step leaves of the slope those that it touches take up."""
    rng = np.random.default_rng(1)
    for _ in range(30):
        rows = rng.normal(size=(400, 5))
        rows[200:] = rows[:200] + rng.normal(size=(200, 5)) * 1e-6
        room = np.abs(rng.normal(size=400)) * 10 ** rng.uniform(-6, 0, size=400)
        rows, room = np.vstack([rows, -np.eye(5), np.eye(5)]), np.append(room, np.full(10, 3.0))
        across = rng.normal(size=(3, 5))
        gain, bend = np.array([0.0, 0.0, 0.0, 1.0, 0.9]), across.T @ across / 300 + 1e-8 * np.eye(5)
        step = balanced(gain, bend, rows, room)
        clear = rows @ step + room
        assert clear.min() > -1e-9
        _, rest = nnls(rows[clear < 1e-6].T, bend @ step - gain)
        assert rest < 1e-6
