"""A proved top stands: a far finer search ends at the same sizes."""

from __future__ import annotations

from random import Random

import pytest

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood


def _board(number: int) -> SoundWood:
    """Return a board 1500 × 700 with twenty knots."""
    draw = Random(number)
    board = Region.of(Path.round_box(Bounds(0.0, 0.0, 1500.0, 700.0)))
    for _ in range(20):
        place = Point(draw.uniform(0, 1500), draw.uniform(0, 700))
        board = board.minus(Region.disk(place, draw.uniform(4, 15), around=True))
    return SoundWood.exact(board)


@pytest.mark.parametrize("shape", ["oval", "rounded rectangle"])
@pytest.mark.parametrize("number", [0, 1])
def test_among_twenty_knots_a_top_is_what_a_finer_proof_ends_at(number: int, shape: str) -> None:
    """At the usual gap sizes and area are those of a search fifty times as fine."""
    wood, limits = _board(number), Limits(corner_radius=Span(60.0, 60.0))
    usual = best_fits(wood, Wish((shape,), limits=limits))[0]
    fine = best_fits(wood, Wish((shape,), limits=limits, gap=2e-5))[0]
    assert usual.outline.area >= 0.99999 * fine.outline.area
    assert usual.outline.length == pytest.approx(fine.outline.length, abs=0.001)
    assert usual.outline.width == pytest.approx(fine.outline.width, abs=0.001)
