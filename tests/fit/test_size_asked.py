"""Whether a size fits: what the search for the largest says of the same wood, and no less."""

from __future__ import annotations

import math

import numpy as np
import pytest
from box_attack import star

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits, fits
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Capsule, Circle, Freeform, Outline, Rectangle
from panelwright.layout.panel.sound import SoundWood

BOARD = Region.from_rings(Rectangle(1400.0, 700.0).outer())
SHAPES = ("circle", "capsule", "oval", "superellipse", "hexagon", "rectangle", "rounded rectangle")


def _scaled(fit: Fit, share: float) -> Outline:
    return fit.core.resized(share * fit.core.length, share * fit.core.width)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_best_fits_and_what_beats_its_bound_does_not(shape: str) -> None:
    """On random panels the best top itself and a smaller one fit; one above the bound does not."""
    rng = np.random.default_rng(SHAPES.index(shape))
    for _ in range(2):
        wood = SoundWood.exact(star(rng))
        best = best_fits(wood, Wish((shape,), limits=Limits(corner_radius=Span(20.0, 20.0))))[0]
        for share in (0.7, 0.97, 1.0):
            asked = _scaled(best, share)
            found = fits(wood, asked)
            assert found.fits and found.lacking == 0.0 and found.placement is not None
            drawn_in = Region.from_rings(found.placement.of(asked.outer())).shrunk(0.006)
            assert wood.inner.holds(drawn_in)
            room = wood.inner.edge_distance(Region.from_rings(found.placement.of(asked.inner())))
            assert found.clearance <= room
        assert best.gap is not None
        larger = _scaled(best, 1.001 + best.gap)  # by more of its area than the gap is
        refused = fits(wood, larger)
        assert not refused.fits and refused.proved and refused.lacking > 0


def test_what_is_lacking_is_enough() -> None:
    """A circle 10 mm too large lacks 10 mm, and so does a capsule whose straight fits."""
    wood = SoundWood.exact(BOARD)
    for asked in (Circle(710.0), Capsule(1000.0, 710.0)):
        refused = fits(wood, asked)
        assert not refused.fits and refused.proved
        assert refused.lacking == pytest.approx(10.0, abs=0.02)
    assert fits(wood, Capsule(1400.0, 700.0)).fits  # touches all round
    assert not fits(wood, Capsule(1400.02, 700.0)).fits


def test_a_turn_that_is_not_allowed_is_not_taken() -> None:
    """Across the board a rectangle fits only where it may be turned so far."""
    wood, asked = SoundWood.exact(BOARD), Rectangle(690.0, 400.0)
    along = fits(wood, asked, limits=Limits(most_turn_deg=0))
    assert along.fits and along.placement is not None
    assert math.remainder(along.placement.turn, math.pi) == pytest.approx(0.0, abs=1e-9)
    long = Rectangle(1100.0, 650.0)
    assert fits(wood, long).fits
    assert not fits(wood, long, limits=Limits(grain_deg=90, most_turn_deg=5)).fits


@pytest.mark.parametrize("asked", [Circle(300.0), Rectangle(500.0, 300.0)])
def test_points_and_islands_are_minded(asked: Outline) -> None:
    """What must be covered is, and no edge runs through an island."""
    wood, corner = SoundWood.exact(BOARD), Point(560.0, 230.0)
    covering = fits(wood, asked, covers=(corner,))
    assert covering.fits and covering.placement is not None
    around = Region.from_rings(covering.placement.of(asked.outer()))
    assert around.distance_to(Region.at(corner)) <= 0.01
    assert not fits(wood, asked, covers=(Point(695.0, 345.0),), avoids=(Point(560.0, 200.0),)).fits
    island = Region.disk(Point(0.0, 0.0), 140.0, around=True)
    clear = fits(wood, asked, islands=(island,))
    assert clear.fits and clear.placement is not None
    edge = Region.from_rings(clear.placement.of(asked.inner()))
    assert edge.holds(island) or edge.meet(island).area < 1.0


def test_an_outline_with_a_dent_is_asked_as_it_is() -> None:
    """An L fits in a board that its arms fit in, and oversteps a narrower one by what it lacks."""
    ring = np.array([[0, 0], [900, 0], [900, 300], [300, 300], [300, 600], [0, 600]], dtype=float)
    asked = Freeform.through(Point(*corner) for corner in ring.tolist())
    assert fits(SoundWood.exact(BOARD), asked).fits
    narrow = Region.from_rings(Rectangle(1400.0, 560.0).outer())
    refused = fits(SoundWood.exact(narrow), asked)
    assert not refused.fits and refused.proved
    assert 0 < refused.lacking < 40.0
