"""Of equally good tops, the one that a maker would choose."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
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


def test_a_nearly_round_top_keeps_to_the_grain() -> None:
    """An oval 1000 by 975 looks much the same turned, but its length still runs along the grain."""
    limits = Limits(grain_deg=90, most_turn_deg=10)
    wish = Wish(("oval",), goal=Goal.NEAREST, wanted=(1000, 975), limits=limits)
    wood = SoundWood.exact(
        Region.from_rings(np.array([[0, 0], [2000, 0], [2000, 1500], [0, 1500.0]]))
    )
    fit = best_fits(wood, wish)[0]
    assert abs(math.degrees(limits.off_grain(fit.placement.turn))) <= 10 + 1e-9


@pytest.mark.parametrize(("shape", "width"), [("oval", 900), ("oval", 970), ("rectangle", 970)])
def test_a_nearly_square_top_lies_in_the_middle(shape: str, width: float) -> None:
    """In a strip 980 wide a top 1000 long runs along it, in the middle both ways."""
    ring = [(300, 0), (680, 0), (980, 900), (980, 3000), (0, 3000), (0, 900.0)]
    wish = Wish((shape,), limits=Limits(Span(0, 1000), Span(width, width)))
    place = best_fits(SoundWood.exact(Region.from_rings(np.array(ring))), wish)[0].placement
    assert (place.centre.x, place.centre.y) == pytest.approx((490, 1500), abs=0.01)
    assert abs(math.remainder(place.turn - math.pi / 2, math.pi)) < 1e-6


def test_a_top_that_slides_stops_at_what_is_in_its_way() -> None:
    """In a long strip a circle rests in the middle of the way from the end to a small hole."""
    hole = np.array([[2995, 295], [2995, 305], [3005, 305], [3005, 295.0]])
    ring = np.array([[0, 0], [6000, 0], [6000, 600], [0, 600.0]])
    fit = best_fits(SoundWood.exact(Region.from_rings(ring, [hole])), Wish(("circle",)))[0]
    ends = (300, 2995 - math.sqrt(300**2 - 5**2))  # touching the end, and the hole's two corners
    assert min(fit.placement.centre.x, 6000 - fit.placement.centre.x) == pytest.approx(
        sum(ends) / 2, abs=0.5
    )
