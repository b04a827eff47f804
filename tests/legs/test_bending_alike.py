"""What is alike bends alike: mirrored places, hollow tops as finer cells have them, wavy ones."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tops import top_of

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.symmetry import is_symmetric
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.plate import CELLS, Plate, rigidity
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.sag import ALIKE, Loads, sag_of
from panelwright.layout.legs.tipping import GRAVITY
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


@pytest.mark.parametrize("outline", TOPS, ids=lambda top: f"{top.name}-{top.width:.0f}")
def test_mirrored_places_bend_alike(outline: Outline) -> None:
    """On mirrored legs a place and its image give and sag the same, far within what is alike."""
    x, y = outline.length * 0.3, outline.width * 0.28
    plate = Plate.cut(outline.path(), rigidity(OAK, 25.0))
    rested = plate.on([Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)])
    for figures in (rested.give, rested.under_load(1e-4)):
        places = np.round(plate.places[: len(figures)], 6) + 0.0
        at = {tuple(place): k for k, place in enumerate(places.tolist())}
        for axis in (k for k, name in enumerate("xy") if is_symmetric(outline.path(), name)):
            images = [at[tuple(place)] for place in (places * _flip(axis) + 0.0).tolist()]
            off = np.abs(figures - figures[images]).max()
            assert off <= ALIKE / 5 * np.abs(figures).max()


@pytest.mark.parametrize("outline", TOPS[:4], ids=lambda top: f"{top.name}-{top.width:.0f}")
def test_of_mirrored_worst_places_the_first_is_named(outline: Outline) -> None:
    """The place that is told is the one along, then up: it has no image before it."""
    x, y = outline.length * 0.3, outline.width * 0.28
    feet = [Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)]
    sag = sag_of(TableTop(top_of(outline, thickness=25.0)), Foot.round(40.0), feet)
    for told in (sag.own, sag.highest, sag.under_force):
        assert told.place.x <= 0
        assert told.place.x < 0 or told.place.y <= 0


HOLLOW = {
    "bone": [(-500, -200), (0, -100), (500, -200), (500, 200), (0, 100), (-500, 200)],
    "horseshoe": [(-500, -300), (500, -300), (500, 300), (150, 300), (150, -100), (-150, -100),
                  (-150, 300), (-500, 300)],
    "L": [(-800, -600), (800, -600), (800, -100), (-300, -100), (-300, 600), (-800, 600)],
    "dart": [(-500, -300), (500, -300), (0, -250), (480, 300), (-500, 300)],
    "notched": [(-600, -300), (600, -300), (600, 300), (10, 300), (10, 280), (-10, 280), (-10, 300),
                (-600, 300)],
}  # fmt: skip


def _closed(name: str) -> Path:
    return Path.through([Point(*p) for p in HOLLOW[name]], closed=True)


@pytest.mark.parametrize("name", HOLLOW)
def test_a_hollow_top_is_read_on_itself(name: str) -> None:
    """It is read nowhere in the air, and weighs what its area does."""
    plate = Plate.cut(_closed(name), rigidity(OAK, 25.0))
    assert Region.of(_closed(name)).grown(1e-6).holds_points(plate.places).all()
    assert plate.load.sum() == pytest.approx(_closed(name).area, rel=1e-9)


@pytest.mark.parametrize("waist", [0.25, 0.35, 0.45])
@pytest.mark.parametrize("count", [24, 40, 72])
def test_a_waisted_top_bends_the_same_at_both_ends(waist: float, count: int) -> None:
    """A peanut on two legs at each end gives alike at both."""
    turns = [math.tau * k / count for k in range(count)]
    reach = [600 * (1 + waist * math.cos(2 * turn)) for turn in turns]
    peanut = Freeform.through(Point.polar(r, t) for r, t in zip(reach, turns, strict=True))
    rested = Plate.cut(peanut.path(), rigidity(OAK, 25.0)).on(
        [Point(x, y) for x in (-500, 500) for y in (-150, 150)]
    )
    left, right = (rested.give[side * rested.plate.places[:, 0] > 0].max() for side in (-1, 1))
    assert left == pytest.approx(right, rel=1e-6)


@pytest.mark.heavy
def test_an_l_shaped_desk_sags_as_finer_cells_say() -> None:
    """25.5 mm under 300 N at the tip that has no leg, where its hull would tell 10.9 (computed)."""
    path = _closed("L")
    feet = [Point(x, y) for x, y in ((-715, -515), (715, -515), (715, -185), (-715, 515))]
    mdf = MATERIALS["MDF"].stiffness
    assert mdf is not None
    usual, fine = (Plate.cut(path, rigidity(mdf, 22.0), count).on(feet) for count in (CELLS, 1600))
    assert 300 * usual.give.max() == pytest.approx(25.48, rel=0.006)
    assert usual.give.max() == pytest.approx(fine.give.max(), rel=0.005)
    down = usual.under_load(1e-4)
    assert float(down.max()) == pytest.approx(float(fine.under_load(1e-4).max()), rel=0.003)
    assert Region.of(path).grown(1e-6).holds_points(usual.plate.places).all()


def test_a_wavy_slab_bends_as_a_beam_of_its_width() -> None:
    """On two trestles a live-edge piece is as stiff as the board that it is: 0.19 mm by the beam.

    On the hull of its edge, cut into slivers, it was told ten times as soft.
    """
    ring = [(0, -60), (315, -50.5), (629.5, -67.5), (944.5, -68.5), (1259, -64.5), (1574, -65.5),
            (1574, 582.5), (1259, 596.5), (944.5, 572.5), (629.5, 572), (315, 586.5),
            (0, 596.5)]  # fmt: skip
    top = TableTop(top_of(Freeform.through([Point(*p) for p in ring]), "ash", thickness=53.0))
    slab = Foot(FootShape.SLAB, 45.0, 290.0)
    sag = sag_of(top, slab, [Point(-614.5, 0.0), Point(614.5, 0.0)], Loads(long_term=50.0))
    load = (672.0 * 53e-9 + 50e-6) * GRAVITY
    beam = 5 / 384 * load * 1229.0**4 / (12_000.0 * 53.0**3 / 12)
    assert sag.first_loaded.down == pytest.approx(beam, rel=0.35)


def test_a_rough_edge_bends_as_a_straight_one() -> None:
    """Of five thousand points half a millimetre off their line nothing is left in the sag."""
    count, feet = 2500, [Point(x, y) for x in (-700, 700) for y in (-200, 200)]
    rough = np.random.default_rng(1).uniform(-0.5, 0.5, (2, count + 1))
    xs = np.linspace(-1000, 1000, count + 1)
    ring = [*zip(xs, rough[0] - 300, strict=True), *zip(-xs, 300 - rough[1], strict=True)]
    rough_one = Path.through([Point(float(x), float(y)) for x, y in ring], closed=True)
    one, other = (
        Plate.cut(path, rigidity(OAK, 40.0)).on(feet).under_load(1e-4)
        for path in (rough_one, Rectangle(2000, 600).path())
    )
    assert float(one.max()) == pytest.approx(float(other.max()), rel=0.005)
