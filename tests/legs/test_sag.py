"""Sag of whole tops: by the handbook beam, by the classical supports, and by laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tops import known_as, top_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.plate import Plate, rigidity
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.sag import (
    Loads,
    Sag,
    bearing_points,
    creep_of,
    sag_of,
    waist_of,
    widest_gap,
)
from panelwright.layout.legs.tipping import GRAVITY
from panelwright.layout.outlines import (
    Capsule,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
)
from panelwright.layout.panel import Kind
from panelwright.layout.panel.materials import Stiffness

FOOT = Foot.square(60)
STRIP = Stiffness(12_300.0, 12_300.0, 6_150.0, 0.0, "test")


def _corners(x: float, y: float) -> list[Point]:
    return [Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y)]


def _table(
    outline: Outline, wood: str = "oak", thickness: float = 26.0, kind: Kind = Kind.SOLID
) -> TableTop:
    return TableTop(top_of(outline, wood, thickness, kind=kind))


def _oak(thickness: float = 26.0) -> TableTop:
    return _table(Capsule(1400, 600), thickness=thickness)


def test_a_narrow_strip_bends_as_a_beam(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a strip without sideways contraction the middle sinks w l²(5 l² − 24 a²)/(384 EI)."""
    top = _table(Rectangle(1800, 200), known_as(monkeypatch, "strip", 700.0, STRIP), 25.0)
    sag = sag_of(top, FOOT, [Point(x, y) for x in (-600, 600) for y in (-100, 0, 100)])
    span, overhang, stiff = 1200.0, 300.0, STRIP.along * 200 * 25.0**3 / 12
    load = (700.0 * 25e-9 + 20.0 * 1e-6) * GRAVITY * 200
    beam = load * span**2 * (5 * span**2 - 24 * overhang**2) / (384 * stiff)
    assert sag.first_loaded.down == pytest.approx(beam, rel=0.01)
    assert sag.first_loaded.place.x == pytest.approx(0, abs=1)
    assert sag.highest.down < 0
    assert abs(sag.highest.place.x) == pytest.approx(900)


def test_the_least_sag_of_a_strip_lies_at_the_classical_overhang() -> None:
    """Of all overhangs 0.223 of the length sags least (classical: middle and tips alike)."""
    plate = Plate.cut(Rectangle(2000, 100).path(), rigidity(STRIP, 25.0))

    def worst(overhang: float) -> float:
        x = 1000 - overhang * 2000
        feet = [Point(sx * x, y) for sx in (-1, 1) for y in (-50, 0, 50)]
        return float(plate.on(feet).under_load(1e-4).max())

    tried = [0.20, 0.21, 0.2231, 0.235, 0.245]
    assert min(tried, key=worst) == 0.2231


def test_creep_grows_what_lasts_and_not_the_force() -> None:
    """Solid wood in a heated room sags 1.6 times as much in the end (EN 1995-1-1, table 3.2)."""
    sag = sag_of(_oak(), FOOT, _corners(430, 190))
    crept = sag_of(_oak(), FOOT, _corners(430, 190), Loads(creep=2.0))
    assert sag.after_creep.down == pytest.approx(1.6 * sag.first_loaded.down)
    assert crept.after_creep.down == pytest.approx(2.0 * sag.first_loaded.down)
    assert crept.under_force == sag.under_force


def test_board_creeps_more_than_wood() -> None:
    """k_def of EN 1995-1-1, table 3.2, service class 1: 0.60 solid, 0.80 plywood, 2.25 MDF."""
    assert [creep_of(name) for name in ("oak", "pine", "plywood")] == [1.6, 1.6, 1.8]
    assert [creep_of(name) for name in ("MDF", "particleboard", "OSB")] == [3.25, 3.25, 3.25]


@given(st.floats(18, 40), st.floats(1.05, 2.0))
@settings(max_examples=4)
def test_a_thicker_top_sags_less(thickness: float, factor: float) -> None:
    """Under its own weight sag goes as 1/t², under anything else as 1/t³."""
    thin = sag_of(_oak(thickness), FOOT, _corners(430, 190))
    thick = sag_of(_oak(thickness * factor), FOOT, _corners(430, 190))
    assert thick.own.down == pytest.approx(thin.own.down / factor**2, rel=1e-5)
    assert thick.under_force.down == pytest.approx(thin.under_force.down / factor**3, rel=1e-5)
    assert thick.first_loaded.down < thin.first_loaded.down


def test_more_legs_sag_less() -> None:
    """A third pair in the middle of a long top takes most of its sag away."""
    top = _table(RoundedRectangle.with_radius(2000, 800, 60))
    four = sag_of(top, FOOT, _corners(750, 300))
    six = sag_of(top, FOOT, [*_corners(750, 300), Point(0, 300), Point(0, -300)])
    assert six.first_loaded.down < four.first_loaded.down / 3
    assert six.span == 750
    assert four.span == 1500


def test_the_load_is_own_weight_and_what_is_spread() -> None:
    """Sag grows in step with the load: own weight, and 20 kg/m² more."""
    sag = sag_of(_oak(), FOOT, _corners(430, 190))
    own, spread = 761.6e-9 * 26 * GRAVITY, 20e-6 * GRAVITY
    assert sag.first_loaded.down / sag.own.down == pytest.approx((own + spread) / own)
    bare = sag_of(_oak(), FOOT, _corners(430, 190), Loads(long_term=0.0, point=0.0))
    assert bare.first_loaded == bare.own
    assert bare.under_force.down == 0


def test_the_worst_place_for_a_force_is_an_overhang_or_the_middle_of_a_side() -> None:
    """On an oval on four legs the ends give most, and both ends alike."""
    top = _table(Oval(1400, 800), "MDF", 22.0, kind=Kind.MDF)
    sag = sag_of(top, FOOT, _corners(350, 200))
    assert abs(sag.under_force.place.x) == pytest.approx(700, abs=1)
    assert sag.under_force.place.y == pytest.approx(0, abs=1)


def test_the_limits_are_shares_of_the_span() -> None:
    """Span/300 at first and span/250 in the end, of EN 1995-1-1, table 7.2."""
    sag = sag_of(_oak(), FOOT, _corners(430, 190))
    assert sag.span == 860
    assert sag.first_limit == pytest.approx(860 / 300)
    assert sag.final_limit == pytest.approx(860 / 250)
    assert sag.waist is None


def test_doors_without_one_stiffness_tell_no_sag_whatever_they_are_called() -> None:
    """A framed or hollow door of oak is no oak plate."""
    for kind in (Kind.FRAMED, Kind.HOLLOW):
        assert _table(Capsule(1400, 600), kind=kind).plate is None
    assert _table(Capsule(1400, 600)).plate is not None


def test_a_waist_is_found_where_a_top_is_narrow_between_two_parts() -> None:
    """A bone 100 wide in its middle has a waist; an L, a wedge and a capsule have none."""
    bone = [(-600, -300), (-200, -300), (-200, -50), (200, -50), (200, -300), (600, -300)]
    ring = [Point(*p) for p in bone] + [Point(-x, -y) for x, y in bone]
    assert waist_of(Freeform.through(ring)) == pytest.approx(100, abs=0.1)
    corner = [(0, 0), (1600, 0), (1600, 500), (500, 500), (500, 1200), (0, 1200)]
    wedge = [(0, 0), (1600, 200), (1600, 500), (0, 700)]
    for points in (corner, wedge):
        assert waist_of(Freeform.through([Point(*p) for p in points])) is None
    assert waist_of(Capsule(1400, 600)) is None


def test_a_slab_carries_along_its_length() -> None:
    """A leg 500 wide carries the top at three places, a square one at its middle."""
    slab = Foot(FootShape.SLAB, 40, 500)
    assert bearing_points(slab, Point(9, 0)) == [Point(9, 230), Point(9, 0), Point(9, -230)]
    assert bearing_points(FOOT, Point(9, 0)) == [Point(9, 0)]
    short = Foot(FootShape.SLAB, 40, 120)
    assert len(bearing_points(short, Point(9, 0))) == 3
    two = [Point(-400, 0), Point(400, 0)]
    assert sag_of(_oak(), short, two).first_loaded.down > 0
    sag = sag_of(_oak(), slab, two)
    assert sag.span == 800
    assert 0 < sag.first_loaded.down < 2


def test_the_widest_gap_passes_over_a_foot_in_the_middle() -> None:
    """A fifth foot under the middle leaves the sides as wide as they are."""
    assert widest_gap([*_corners(500, 200), Point(0, 0)]) == 1000
    ring = [Point.polar(400, math.tau * k / 6) for k in range(6)]
    assert widest_gap(ring) == pytest.approx(400)


def test_a_burden_below_nothing_is_refused() -> None:
    """Loads push down, and creep makes no sag smaller."""
    with pytest.raises(LegsError):
        Loads(long_term=-1)
    with pytest.raises(LegsError):
        Loads(creep=0.9)


def test_the_same_top_gives_the_same_sag_to_the_last_digit() -> None:
    """Two runs tell the same places and figures."""
    first: Sag = sag_of(_oak(), FOOT, _corners(430, 190))
    assert sag_of(_oak(), FOOT, _corners(430, 190)) == first
