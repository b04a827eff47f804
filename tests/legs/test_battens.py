"""Battens: where they lie, how long they are, and what keeps them off."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tops import PLACE, ROOM, top_of

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import array_of
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.movement import BESIDE, SHORT, Batten, Held, battens_under, movement_of
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.stance import Sought
from panelwright.layout.legs.table_wish import TableWish
from panelwright.layout.legs.whole import plan_table
from panelwright.layout.legs.wish import LegsWish
from panelwright.layout.outlines import Capsule, Outline, Oval, Rectangle, RoundedRectangle
from panelwright.layout.panel import (
    Defect,
    Kind,
    Panel,
    Spoils,
    round_place,
)


def _under(
    top: Outline,
    material: str = "oak",
    heads: tuple[Path, ...] = (),
    *,
    grain: float = 0.0,
    kind: Kind = Kind.SOLID,
    panel: Panel = ROOM,
) -> tuple[Batten, ...]:
    cut = top_of(top, material, kind=kind, grain=grain, panel=panel)
    movement = movement_of(cut, Held((), Foot.square(60), False, 5.0))
    return battens_under(cut, cut.sound_for(Spoils.BEARING), movement, heads, 5.0)


@pytest.mark.parametrize(
    ("top", "material", "length", "slot"),
    [
        (Capsule(1400, 600), "iroko", 450, 6),
        (RoundedRectangle.with_radius(1700, 700, 80), "elm", 550, 12),
    ],
)
def test_two_battens_lie_as_worked(top: Outline, material: str, length: float, slot: float) -> None:
    """Two of 450 and 550, 75 short of each edge, outer slots 6 and 12 + screw (worked)."""
    found = _under(top, material)
    assert [batten.length for batten in found] == pytest.approx([length, length])
    assert [batten.slot for batten in found] == pytest.approx([slot + 5.0] * 2)
    assert found[0].middle.x == pytest.approx(-found[1].middle.x)
    for batten in found:
        assert batten.screws[0] == batten.middle
        assert batten.screws[1].midpoint(batten.screws[2]).distance_to(batten.middle) < 1e-9


def test_no_batten_crosses_the_rails_of_an_apron() -> None:
    """Rails go from leg to leg: every batten lies clear of them, and shorter than without."""
    table, feet = TableTop(top_of(Rectangle(1500, 800), "oak")), LegsWish(foot=Foot.square(60))
    stance = Sought(feet, table).as_wished()
    free, within = (
        plan_table(TableWish(framed=framed), stance, table).battens for framed in (False, True)
    )
    corners = [leg.on_panel for leg in stance.legs.legs]
    for rail in zip(corners, [*corners[1:], corners[0]], strict=True):
        line = Region.along(array_of(rail), 30.0, around=True)
        assert not any(Region.of(batten.print).touches_or_crosses(line) for batten in within)
    assert len(within) == len(free) == 2
    assert all(one.length < other.length for one, other in zip(within, free, strict=True))


def test_two_slabs_with_an_apron_have_battens_between_them() -> None:
    """Its rails lie at both ends of the slabs, and what is free between the four is no line."""
    table = TableTop(top_of(Rectangle(1400, 700), "oak"))
    slabs = LegsWish(foot=Foot(FootShape.SLAB, 60, 500), count=2)
    stance = Sought(slabs, table).as_wished()
    battens = plan_table(TableWish(framed=True), stance, table).battens
    feet = [Region.of(leg.print) for leg in stance.legs.legs]
    assert len(battens) == 2
    for batten in battens:
        assert batten.length <= 500 - 2 * 60 + 1e-6
        assert not any(Region.of(batten.print).touches_or_crosses(foot) for foot in feet)


@given(st.floats(700, 2400), st.floats(400, 1000), st.floats(0, math.pi))
@settings(max_examples=20)
def test_every_batten_stays_inside_the_edge_and_across_the_grain(
    length: float, width: float, grain: float
) -> None:
    """No corner of a batten comes nearer to the edge, along it, than a batten stops short."""
    top = Oval(max(length, width), min(length, width))
    found = _under(top, grain=grain)
    whole = Region.from_rings(top.path().points(CHORD))
    along = Point.polar(1.0, grain)
    for batten in found:
        ring = batten.print.points(1.0) - np.array(tuple(PLACE.centre))
        for x, y in ring:
            corner = Point(float(x), float(y))
            outwards = (corner - batten.middle).dot(along.left)
            assert abs(outwards) == pytest.approx(batten.length / 2)
            beyond = corner + along.left * math.copysign(SHORT - 1.0, outwards)
            assert whole.holds_point(beyond)


def test_battens_move_aside_for_legs_and_spoilt_wood() -> None:
    """A leg or a split where a batten would lie pushes it along the grain, no farther than need."""
    top = Rectangle(1400, 600)
    free = _under(top)
    heads = tuple(
        Foot.square(80).outside(batten.middle + Point(0, y)) for batten in free for y in (-150, 150)
    )
    moved = _under(top, heads=heads)
    assert len(moved) == 2
    for batten in moved:
        own = Region.from_rings(batten.print.points(1.0))
        for head in heads:
            placed = Region.from_rings(head.placed(PLACE).points(1.0))
            assert own.distance_to(placed) >= BESIDE - 1e-6
    knot = Defect("knot", round_place(PLACE(free[0].middle), 60), frozenset({Spoils.BEARING}))
    aside = _under(top, panel=ROOM.with_defect(knot))
    assert aside[0].middle.x != free[0].middle.x
    assert aside[1].middle == free[1].middle


def test_long_tops_take_more_and_small_ones_none() -> None:
    """One for each 900 mm of the grain, two at least; none where none would be 150 long."""
    assert [len(_under(Rectangle(length, 700))) for length in (800, 1700, 2400)] == [2, 2, 3]
    assert _under(Rectangle(800, 250)) == ()


def test_boards_and_framed_doors_need_none() -> None:
    """What hardly moves stays flat without."""
    top = Rectangle(1400, 600)
    assert _under(top, "particleboard", kind=Kind.PARTICLEBOARD) == ()
    assert _under(top, kind=Kind.FRAMED) == ()
