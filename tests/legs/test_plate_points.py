"""The triangles of a plate: those of a symmetric top are their own mirror image, and bend so."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from strategies import symmetrical_outlines
from tops import top_of

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.symmetry import is_symmetric
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.plate import Plate, rigidity
from panelwright.layout.legs.plate_points import cut_up, mirror_axes
from panelwright.layout.legs.sag import ALIKE, sag_of
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel.materials import MATERIALS

OAK = MATERIALS["oak"].stiffness
assert OAK is not None
HOUSE = Freeform.through([Point(-500, -300), Point(500, -300), Point(350, 300), Point(-350, 300)])

TOPS: list[Outline] = [
    Circle(900),
    Rectangle(1200, 700),
    Rectangle(2000, 100),
    RoundedRectangle(1400, 600, (60, 60, 60, 60)),
    RoundedRectangle(1400, 600, (5, 5, 5, 5)),
    RoundedRectangle(1400, 600, (40, 40, 90, 90)),
    Capsule(1800, 720),
    Oval(1270, 762),
    Superellipse(1500, 800, 2.5),
    Superellipse(1500, 800, 20),
    RegularPolygon(6, 900),
    RegularPolygon(8, 900),
    HOUSE,
]


def _flip(axis: int) -> np.ndarray:
    return np.array([-1.0, 1.0] if axis == 0 else [1.0, -1.0])


@settings(max_examples=25, deadline=None)
@given(symmetrical_outlines)
def test_the_triangles_of_a_symmetric_top_are_their_own_mirror_image(outline: Outline) -> None:
    """Each point has its image in the same digits, and each triangle is the image of one."""
    path = outline.path()
    axes = mirror_axes(path)
    assert axes == tuple(k for k, name in enumerate("xy") if is_symmetric(path, name))
    _, mesh, corners = cut_up(path, outline.width / 4, 1e-9)
    triangles = {frozenset(map(tuple, (mesh[three] + 0.0).tolist())) for three in corners}
    for axis in axes:
        flipped = mesh * _flip(axis) + 0.0
        assert {frozenset(map(tuple, flipped[three].tolist())) for three in corners} == triangles


@pytest.mark.parametrize("outline", TOPS, ids=lambda top: f"{top.name}-{top.width:.0f}")
def test_the_triangles_fill_the_top(outline: Outline) -> None:
    """They overlap nowhere and leave nothing out: their areas add up to the plate's."""
    _, mesh, corners = cut_up(outline.path(), outline.width / 4, 1e-9)
    a, b, c = (mesh[corners[:, k]] for k in range(3))
    doubled = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    assert np.abs(doubled).sum() / 2 == pytest.approx(outline.area, rel=0.005)


@pytest.mark.parametrize("outline", TOPS, ids=lambda top: f"{top.name}-{top.width:.0f}")
def test_mirrored_places_bend_alike(outline: Outline) -> None:
    """On mirrored legs a place and its image give and sag the same, far within what is alike."""
    x, y = outline.length * 0.3, outline.width * 0.28
    plate = Plate.cut(outline.path(), rigidity(OAK, 25.0))
    rested = plate.on([Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)])
    for figures in (rested.give, rested.under_load(1e-4)):
        places = np.round(plate.places[: len(figures)], 6) + 0.0
        at = {tuple(place): k for k, place in enumerate(places.tolist())}
        for axis in mirror_axes(outline.path()):
            images = [at[tuple(place)] for place in (places * _flip(axis) + 0.0).tolist()]
            off = np.abs(figures - figures[images]).max()
            assert off <= ALIKE / 5 * np.abs(figures).max()


@pytest.mark.parametrize("outline", TOPS[:4], ids=lambda top: f"{top.name}-{top.width:.0f}")
def test_of_mirrored_worst_places_the_first_is_named(outline: Outline) -> None:
    """The place that is told is the one along, then up: it has no image before it."""
    x, y = outline.length * 0.3, outline.width * 0.28
    feet = [Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)]
    sag = sag_of(top_of(outline, thickness=25.0), Foot.round(40.0), feet)
    for told in (sag.own, sag.highest, sag.under_force):
        assert told.place.x <= 0
        assert told.place.x < 0 or told.place.y <= 0


def test_a_hollow_top_is_not_mirrored() -> None:
    """The quarter of a hollow plate does not fill a convex part, so it is cut as a whole."""
    ring = [(-500, -200), (0, -100), (500, -200), (500, 200), (0, 100), (-500, 200)]
    assert mirror_axes(Path.through([Point(*p) for p in ring], closed=True)) == ()
