"""Of equally good tops, the one that a maker would choose."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

LONG, WIDE = 2000.0, 800.0
CORNERS = np.array([[0.0, 0.0], [LONG, 0.0], [LONG, WIDE], [0.0, WIDE]])
BOARD = Region.from_rings(CORNERS)

SLACK = [
    ("circle", Limits(length=Span(600, 600))),
    ("circle", Limits()),
    ("capsule", Limits(length=Span(1400, 1400), width=Span(600, 600))),
    ("capsule", Limits(ratio=Span(1, 1.5))),
    ("oval", Limits(length=Span(1400, 1400), width=Span(600, 600))),
    ("oval", Limits(ratio=Span(1, 1.5))),
    ("rectangle", Limits(length=Span(1400, 1400), width=Span(600, 600))),
    ("rounded rectangle", Limits(ratio=Span(1, 1.5))),
    ("rounded rectangle", Limits(length=Span(0, 900))),
]


@pytest.mark.parametrize(("shape", "limits"), SLACK)
@pytest.mark.parametrize("turn", [0.0, 0.3, -1.1])
def test_a_top_with_room_to_spare_lies_square_in_the_middle(
    shape: str, limits: Limits, turn: float
) -> None:
    """On a plain board, however it lies, the top runs along its grain and is centred."""
    way = Placement(Point(300, -150), turn)
    wish = Wish((shape,), limits=replace(limits, grain_deg=math.degrees(turn)))
    fit = best_fits(SoundWood.exact(BOARD.placed(way)), wish)[0]
    middle = way(Point(LONG / 2, WIDE / 2))
    assert fit.placement.centre.distance_to(middle) < 0.02
    off = math.remainder(fit.placement.turn - turn, math.pi)
    assert shape == "circle" or abs(off) < 1e-4


def test_a_top_moves_clear_of_a_hole_that_it_need_not_touch() -> None:
    """Where the middle is taken, the least distance to an edge is as great as it can be.

    A circle of 300 beside a hole of radius 200 in the middle of the board: on either side there are
    800 mm between the hole and the end of the board, and 800 across; so the middle of one of these
    squares, 250 mm clear of its three edges and of the hole.
    """
    hole = Region.disk(Point(LONG / 2, WIDE / 2), 200.0, around=True)
    wish = Wish(("circle",), limits=Limits(length=Span(300, 300)))
    fit = best_fits(SoundWood.exact(BOARD.minus(hole)), wish)[0]
    x = min(fit.placement.centre.x, LONG - fit.placement.centre.x)
    assert (x, fit.placement.centre.y) == (pytest.approx(400, abs=1), pytest.approx(400, abs=1))
