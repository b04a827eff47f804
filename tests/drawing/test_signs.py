"""Marks can be told apart without a letter."""

from __future__ import annotations

import math
from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.drawing.scene import Mark, Sign, mark_lines
from panelwright.layout.geometry.point import Point

SIGNS = get_args(Sign)


@given(st.sampled_from(SIGNS), st.floats(1.0, 20.0), st.floats(-500, 500))
def test_every_line_of_a_mark_is_within_reach_of_its_arms(sign: Sign, arm: float, x: float) -> None:
    """No figure is larger than the cross, and all lie about the mark's middle."""
    mark = Mark(Point(x, 7.0), arm, arm, sign)
    for path in mark_lines(mark):
        for segment in path.segments:
            assert all(segment.at(k / 8).distance_to(mark.at) <= arm + 1e-6 for k in range(9))
    assert mark_lines(mark)[0].bounds.middle.distance_to(mark.at) < 1e-6


def test_signs_differ_as_figures_do() -> None:
    """A square, a triangle, a diamond: each sign with a figure has its own; others have none."""
    figures = {
        sign: [p for p in mark_lines(Mark(Point(0, 0), sign=sign)) if p.is_closed] for sign in SIGNS
    }
    drawn = {sign: paths[0] for sign, paths in figures.items() if paths}
    assert {sign: len(path.segments) for sign, path in drawn.items()} == {
        "middle": 4,
        "centre": 3,
        "hole": 4,
    }
    for one, other in combinations(drawn.values(), 2):
        corners = [
            {round(math.degrees(s.start.angle)) % 360 for s in p.segments} for p in (one, other)
        ]
        assert corners[0] != corners[1]


@pytest.mark.parametrize("sign", SIGNS)
def test_a_ring_has_the_diameter_of_its_hole(sign: Sign) -> None:
    """Whatever the sign, the ring is the hole's or the nail's own."""
    rings = [
        path
        for path in mark_lines(Mark(Point(0, 0), 5.0, 7.0, sign))
        if path.is_closed and len(path.segments) == 2
    ]
    assert len(rings) == 1
    assert rings[0].bounds.width == pytest.approx(7.0)
