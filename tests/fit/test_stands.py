"""A proved top stands: a far finer search ends at the same sizes."""

from __future__ import annotations

import json
import math
from pathlib import Path as FilePath
from random import Random
from typing import Any

import numpy as np
import pytest

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import ORIGIN, Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

pytestmark = pytest.mark.heavy

CASES: dict[str, Any] = json.loads(
    (FilePath(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8")
)["cases"]


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


@pytest.mark.parametrize("name", CASES)
def test_on_known_panels_a_rounded_rectangle_is_as_large_as_any_known(name: str) -> None:
    """At least 0.99999 of the best area that long runs of general optimisers came to."""
    case = CASES[name]
    rings = [np.array(ring, dtype=np.float64) for ring in (case["exterior"], *case["holes"])]
    radius = case["corner_radius"]
    wish = Wish(("rounded rectangle",), limits=Limits(corner_radius=Span(radius, radius)))
    fit = best_fits(SoundWood.exact(Region.from_rings(rings[0], rings[1:])), wish)[0]
    assert fit.outline.area >= 0.99999 * case["best_known"]["rrect"]


@pytest.mark.parametrize("turn", [5.0, 15.0])
@pytest.mark.parametrize(("start", "end"), [(121, 123), (130, 130), (150, 150), (200, 200)])
def test_a_strip_that_lies_out_of_the_allowed_turn_is_settled(
    start: float, end: float, turn: float
) -> None:
    """Along it a top can slide, so places tell nothing; its widths do, turn by turn."""
    strip = np.array([[0, 0], [2000, 0], [2000, end], [0, start]], dtype=np.float64)
    wood = SoundWood.exact(Region.from_rings(Placement(ORIGIN, math.radians(20.0)).of(strip)))
    limits = Limits(corner_radius=Span(60.0, 60.0), most_turn_deg=turn)
    fit = best_fits(wood, Wish(("rounded rectangle",), limits=limits))[0]
    assert fit.gap is not None
    assert fit.gap <= 0.001
    if start == end:
        assert fit.outline.area == pytest.approx(
            _in_strip(end, math.radians(20.0 - turn)),
            rel=3e-4,  # 5 µm narrower is 20 µm longer
        )


def _in_strip(width: float, lean: float) -> float:
    """Return the area of the best top of radius 60 at a lean in an endless strip, by trying all."""
    room = width - 120.0
    along = np.linspace(0.0, room / math.sin(lean), 20_001)
    across = (room - along * math.sin(lean)) / math.cos(lean)
    return float(((along + 120) * (across + 120)).max()) - (4 - math.pi) * 3600
