"""Where along a ring something lies beside it, against what trigonometry says."""

from __future__ import annotations

import math

import numpy as np
import pytest

from panelwright.layout.geometry.beside import Way
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region


@pytest.mark.parametrize("turn", [0.0, 0.9, 2.5, 4.0, 6.2])
def test_a_circle_lies_beside_its_tangent_along_the_chord_of_the_reach(turn: float) -> None:
    """Within d of it over 2 r arccos(1 − d/r), about where it touches, wherever the ring begins."""
    way = Way(circle(Point(0, 0), 300).points(0.001))
    out, along = (
        np.array([math.cos(turn), math.sin(turn)]),
        np.array([-math.sin(turn), math.cos(turn)]),
    )
    line = Region.line(np.array([300 * out - 500 * along, 300 * out + 500 * along]))
    (met,) = way.beside(line, 0.05, way.whole)
    assert met.length == pytest.approx(2 * 300 * math.acos(1 - 0.05 / 300), rel=0.02)
    assert way.at(met.middle).distance_to(Point(*(300 * out))) < 0.2


def test_stretches_nearer_than_the_gap_are_one() -> None:
    """Two bumps beside one side of a square are two places, or one run from first to last."""
    way = Way(np.array([[0.0, 0], [100, 0], [100, 100], [0, 100]]))
    wave = Region.line(np.array([[10.0, -1], [20, 0], [30, -1], [40, 0], [50, -1]]))
    assert len(way.beside(wave, 0.1, way.whole)) == 2
    (run,) = way.beside(wave, 0.1, way.whole, 25)
    assert (run.start, run.end) == pytest.approx((19, 41), abs=0.2)
    assert [part.start > 0 for part in way.beside(wave, 0.1, run)] == [True, True]
