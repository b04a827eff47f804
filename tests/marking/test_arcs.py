"""Large arcs: published figures, and each way to draw one held against the circle."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.marking.arcs import ArchTrammel, LargeArc, SprungLath

chords = st.floats(100.0, 5000.0)
flats = st.floats(0.01, 0.5)


@pytest.mark.parametrize(("rise", "radius"), [(12.0, 102.0), (24.0, 60.0)])
def test_radius_of_a_96_inch_span(rise: float, radius: float) -> None:
    """A span of 96 in that rises 12 has a radius of 102 in, one that rises 24 of 60 (read)."""
    assert LargeArc.from_chord_and_rise(96.0, rise).radius == pytest.approx(radius)


def test_versed_sine() -> None:
    """A chord of 120 ft with a radius of 75 ft rises 30 ft (Hatfield, art. 518)."""
    assert LargeArc.from_chord_and_radius(120.0, 75.0).rise == pytest.approx(30.0)


def test_ordinates() -> None:
    """Chord 96, rise 12, at 0, 8, … 48 (Hatfield's rule, art. 520; computed)."""
    expected = [12, 11.68579, 10.73728, 9.13627, 6.85040, 3.82963, 0]
    found = LargeArc.from_chord_and_rise(96.0, 12.0).ordinates(6)
    assert [o.out for o in found] == [0, 8, 16, 24, 32, 40, 48]
    assert [o.up for o in found] == pytest.approx(expected, abs=5e-6)


@given(chords, flats)
def test_radius_is_that_of_the_arc_through_three_points(chord: float, flat: float) -> None:
    """Radius, length and every ordinate are those of the arc through both ends and the crown."""
    arc = LargeArc.from_chord_and_rise(chord, flat * chord)
    true = Arc.from_chord_and_rise(Point(-chord / 2, 0), Point(chord / 2, 0), -flat * chord)
    assert arc.radius == pytest.approx(true.radius)
    assert arc.length == pytest.approx(true.length)
    for ordinate in arc.ordinates(5):
        at = Point(ordinate.out, ordinate.up)
        assert at.distance_to(true.centre) == pytest.approx(true.radius)


@given(chords, flats, st.floats(0.02, 0.98))
def test_the_arch_trammel_draws_the_arc(chord: float, flat: float, share: float) -> None:
    """At every point of the arc the laths lie at the angle at which they were joined."""
    arc = LargeArc.from_chord_and_rise(chord, flat * chord)
    trammel = ArchTrammel.for_arc(arc)
    start, end = Point(-chord / 2, 0), Point(chord / 2, 0)
    pencil = Arc.from_chord_and_rise(start, end, -arc.rise).at(share)
    one, other = start - pencil, end - pencil
    angle = math.acos(one.dot(other) / (one.norm * other.norm))
    assert angle == pytest.approx(trammel.angle, abs=1e-6)
    assert max(one.norm, other.norm) <= trammel.least_lath * (1 + 1e-12)


def test_a_lath_reaches_its_nail_from_anywhere_on_the_arc() -> None:
    """Over more than half a circle the farthest place is a diameter away: 937.5 over 900 by 600."""
    high = LargeArc.from_chord_and_rise(900.0, 600.0)
    assert ArchTrammel.for_arc(high).least_lath == pytest.approx(937.5)
    drawn = Arc.from_chord_and_rise(Point(-450, 0), Point(450, 0), -600.0)
    farthest = max(drawn.at(i / 500).distance_to(Point(-450, 0)) for i in range(501))
    assert farthest == pytest.approx(937.5, abs=0.01)
    assert ArchTrammel.for_arc(LargeArc.from_chord_and_rise(900.0, 300.0)).least_lath == 900.0


def test_any_two_of_chord_rise_and_radius_give_the_arc() -> None:
    """900 by 600 has radius 468.75 = c²/8h + h/2; rise and radius give the chord again."""
    again = LargeArc.from_rise_and_radius(600.0, 468.75)
    assert again.chord == pytest.approx(900.0)
    assert again.radius == pytest.approx(468.75)


def test_a_lath_held_in_three_places() -> None:
    """Held at both ends and pushed at the crown, a flat lath lies 2/27 of the rise off the arc.

    A beam pushed in its middle bends to h(3u − 4u³); a flat arc is the parabola 4u(1 − u)h, and
    they lie farthest apart at u = 1/6 (textbook beam theory).
    """
    arc = LargeArc.from_chord_and_rise(1000.0, 1.0)
    assert SprungLath.for_arc(arc, 1).farthest == pytest.approx(2 / 27, rel=1e-3)


@given(chords, st.floats(0.01, 0.2))
def test_more_nails_bring_a_lath_nearer(chord: float, flat: float) -> None:
    """A lath held at more stations lies nearer to the arc, and passes through all of them."""
    arc = LargeArc.from_chord_and_rise(chord, flat * chord)
    errors = [SprungLath.for_arc(arc, stations).farthest for stations in (1, 2, 4, 8)]
    assert errors == sorted(errors, reverse=True)


@pytest.mark.parametrize(("chord", "rise"), [(0.0, 10.0), (100.0, 0.0), (-5.0, 3.0)])
def test_an_arc_needs_chord_and_rise(chord: float, rise: float) -> None:
    """An arc without a chord or a rise is refused."""
    with pytest.raises(OutlineError, match="above 0"):
        LargeArc.from_chord_and_rise(chord, rise)


def test_no_ordinates_beyond_half_a_circle() -> None:
    """More than half a circle has no ordinates from its chord."""
    with pytest.raises(OutlineError, match="half a circle"):
        LargeArc.from_chord_and_rise(100.0, 80.0).ordinates()
    with pytest.raises(OutlineError, match="rise < 2 × radius"):
        LargeArc.from_rise_and_radius(100.0, 50.0)
    with pytest.raises(OutlineError, match="2 × radius"):
        LargeArc.from_chord_and_radius(100.0, 40.0)


@given(st.integers(1, 4000))
def test_half_a_circle_by_its_radius_is_half_a_circle(sixteenths: int) -> None:
    """Chord twice the radius, or rise as great as it: ordinates, and the chord itself as a lath."""
    radius = sixteenths * 25.4 / 16
    by_chord = LargeArc.from_chord_and_radius(2 * radius, radius)
    by_rise = LargeArc.from_rise_and_radius(radius, radius)
    for arc in (by_chord, by_rise):
        assert arc.rise == pytest.approx(radius)
        assert len(arc.ordinates(4)) == 5
        assert ArchTrammel.for_arc(arc).least_lath == pytest.approx(2 * radius)


def test_a_very_flat_arc_keeps_its_radius() -> None:
    """Over a chord of 1 m with a radius of ten thousand kilometres too."""
    arc = LargeArc.from_chord_and_radius(1000.0, 1e10)
    assert arc.radius == pytest.approx(1e10, rel=1e-9)
