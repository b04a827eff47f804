"""The bounds of single boxes, attacked by tops that the panel hugs at a corner of the box."""

from __future__ import annotations

import numpy as np
import pytest
from box_attack import HAIR, KINDS, hugged_box

pytestmark = pytest.mark.heavy


@pytest.mark.parametrize("shape", KINDS)
@pytest.mark.parametrize("only_turn", [True, False], ids=["turns alone", "all unknowns"])
@pytest.mark.parametrize("hold", [False, True], ids=["free", "holding points"])
def test_a_top_that_the_panel_hugs_is_within_the_bound_of_its_box(
    shape: str, only_turn: bool, hold: bool
) -> None:
    """Touched all round, at an end of turns, shapes and places, it keeps bound and rows."""
    rng = np.random.default_rng(5)
    for _ in range(120):
        attacked = hugged_box(KINDS[shape], shape, rng, only_turn=only_turn, hold=hold)
        assert attacked.best > 0
        assert attacked.best <= attacked.bound * (1 + HAIR)
        assert attacked.beyond <= 1e-6


@pytest.mark.parametrize("shape", ["oval", "superellipse"])
def test_a_point_as_an_edge_is_as_far_as_it_lies(shape: str) -> None:
    """An edge without length touches a top at the radius of a top through that point."""
    kind, point = KINDS[shape], np.array([30.0, -40.0])
    edge, centre = np.array([[point, point]]), np.zeros((1, 2))
    touched = kind.distances(0.3, 0.5, edge, centre)[0, 0]
    assert touched == pytest.approx(kind.holding(0.3, 0.5, point[None], centre)[0])
