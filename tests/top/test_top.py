"""A top on its panel: its lines, its weight and its grain."""

from __future__ import annotations

from dataclasses import replace

import pytest
import strategies
from hypothesis import assume, given
from readers import off_path
from tops import PLACE, top_of

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.outlines import Outline, Rectangle
from panelwright.layout.panel import Panel, Spoils, rectangular_outline
from panelwright.layout.top import Top


@given(strategies.every_outline, strategies.placements)
def test_its_core_is_a_lipping_smaller_all_round(outline: Outline, placement: Placement) -> None:
    """Every point of the core line lies the lipping inside the finish line."""
    assume(outline.width > 5.4)
    top = replace(top_of(outline), placement=placement, lipping=2.0)
    off = off_path(top.core.points(1.0), top.finish)
    assert off.min() >= 2.0 - 0.01


def test_a_flattened_top_weighs_what_is_left_of_it() -> None:
    """Mass is area by thickness by density, the thickness that the top is made of."""
    slab = Panel(rectangular_outline(2000, 900), 40, material="beech", flattened=30.0)
    top = Top(slab, Rectangle(1600, 700), Placement(turn=0.1))
    assert top.mass == pytest.approx(1600 * 700 * 30 * 1000 * 0.64 * 1.12e-9)
    assert slab.mass == pytest.approx(2000 * 900 * 40 * 1000 * 0.64 * 1.12e-9)


def test_the_grain_is_told_from_the_length_of_the_top() -> None:
    """A top turned on its panel has its grain turned back."""
    top = replace(top_of(Rectangle(1600, 700), grain=0.3), placement=Placement(PLACE.centre, 0.1))
    assert top.grain == pytest.approx(0.2)


def test_all_of_it_is_cut_where_nothing_is_kept() -> None:
    """A top on edges that stay is broken into runs; any other is cut all round."""
    top = Top(Panel(rectangular_outline(1400, 900), 26), Rectangle(1400, 600), Placement())
    below = top.finish.segments[0]
    kept = replace(top, kept=(type(top.finish)((below,)),))
    assert top.runs.cut == (top.core,)
    assert kept.runs.kept[0].segments == (below,)
    assert len(kept.runs.segments) == 3
    assert top.sound_for(Spoils.BEARING).inner.area == pytest.approx(1400 * 900)
