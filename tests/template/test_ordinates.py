"""Ordinates fix the outline without paper."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import strategies
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.outlines import Oval, RoundedRectangle
from panelwright.layout.sheets.template_cover import ordinate_figure
from panelwright.layout.template.content import ordinates
from panelwright.layout.units import Tape


@given(strategies.ovals, st.booleans())
def test_an_oval_has_the_heights_of_its_equation(oval: Oval, imperial: bool) -> None:
    """At each station x of an oval the offset is b·√(1 − x²/a²), and the other way round."""
    a, b = oval.length / 2, oval.width / 2
    table = ordinates(oval.path(), Tape(imperial=imperial), symmetric_x=True, symmetric_y=True)
    for station in table.along:
        expected = b * math.sqrt(max(0.0, 1 - (station.at / a) ** 2))
        assert station.high == pytest.approx(expected, abs=1e-3 * b)
        assert station.low == pytest.approx(-station.high, abs=1e-3 * b)
    for station in table.across:
        expected = a * math.sqrt(max(0.0, 1 - (station.at / b) ** 2))
        assert station.high == pytest.approx(expected, abs=1e-3 * a)
    assert table.along[0].at == 0.0
    assert table.along[-1].at == pytest.approx(a)


@given(strategies.every_outline)
def test_stations_are_few_and_even(outline: strategies.Outline) -> None:
    """Stations lie at even steps of the rule and at both ends, about a dozen from the middle."""
    table = ordinates(outline.path(), Tape())
    for stations, reach in ((table.along, outline.length / 2), (table.across, outline.width / 2)):
        inner = [station.at for station in stations[1:-1]]
        assert stations[0].at == pytest.approx(-reach, abs=1e-3)
        assert stations[-1].at == pytest.approx(reach, abs=1e-3)
        assert len(stations) <= 2 * 13 + 3
        steps = {round(b - a, 6) for a, b in pairwise(inner)}
        assert len(steps) <= 1


def test_known_heights_of_a_worked_oval() -> None:
    """A 50 × 30 in oval stands 12 in up at 15 along, 9 at 20 and 4.2 at 24 (the 3-4-5 triangle)."""
    table = ordinates(
        Oval(50 * 25.4, 30 * 25.4).path(), Tape(imperial=True), symmetric_x=True, symmetric_y=True
    )
    heights = {round(s.at / 25.4, 3): s.high / 25.4 for s in table.along}
    assert heights[20.0] == pytest.approx(9.0)
    assert heights[24.0] == pytest.approx(4.2)
    assert heights[0.0] == pytest.approx(15.0)
    across = {round(s.at / 25.4, 3): s.high / 25.4 for s in table.across}
    assert across[12.0] == pytest.approx(15.0)


def test_unlike_halves_are_all_given() -> None:
    """A top with unlike corners has stations on both sides, with both offsets."""
    path = RoundedRectangle(1200, 700, (80, 60, 40, 200)).path()
    table = ordinates(path, Tape())
    first, last = table.along[1], table.along[-2]
    assert first.at == pytest.approx(-last.at)
    assert {round(first.high), round(-first.low), round(last.high), round(-last.low)} != {350}


@pytest.mark.parametrize(
    ("length", "words"), [(0.25, "0.5"), (0.75, "1.0"), (2.25, "2.5"), (-0.25, "−0.5")]
)
def test_halves_are_rounded_away_from_nothing(length: float, words: str) -> None:
    """A figure half way between two half millimetres is the larger."""
    assert ordinate_figure(length, Tape()) == words
