"""Movement: by the handbook's worked example, by worked tops, and by laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tops import make_known, top_of

from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.movement import (
    Held,
    MovementPlan,
    movement_of,
    slot_for,
)
from panelwright.layout.outlines import Capsule, Rectangle, RoundedRectangle
from panelwright.layout.panel import Kind
from panelwright.layout.panel.materials import MATERIALS, Material
from panelwright.layout.top import Top

FOUR = tuple(Point(x, y) for x, y in ((-400, -200), (400, -200), (400, 200), (-400, 200)))


FOOT = Foot.square(60)


def _moved(
    top: Top, fixings: tuple[Point, ...] = FOUR, foot: Foot = FOOT, *, glued: bool = False
) -> MovementPlan:
    return movement_of(top, Held((fixings,), foot, glued, 5.0))


@pytest.mark.parametrize(
    ("name", "radial", "tangential"),
    [
        ("white ash", 4.9, 7.8),
        ("beech", 5.5, 11.9),
        ("yellow birch", 7.3, 9.5),
        ("black cherry", 3.7, 7.1),
        ("walnut", 5.5, 7.8),
        ("douglas fir", 4.8, 7.6),
        ("yellow-poplar", 4.6, 8.2),
        ("red maple", 4.0, 8.2),
        ("longleaf pine", 5.1, 7.5),
    ],
)
def test_a_wood_moves_by_its_own_coefficients(name: str, radial: float, tangential: float) -> None:
    """C = (S/30)/(100 − 20·S/30) links Tables 4-3 and 13-5 of the *Wood Handbook*.

    Shrinkages S read, but those of red maple and longleaf pine from memory.
    """
    movement = MATERIALS[name].movement
    assert movement is not None
    for coefficient, shrinkage in ((movement.radial, radial), (movement.tangential, tangential)):
        share = shrinkage / 30
        assert coefficient == pytest.approx(share / (100 - 20 * share), abs=6e-6)


def test_every_wood_moves_more_along_its_rings_than_across() -> None:
    """Flat-sawn boards move more than quarter-sawn ones, in every species."""
    moving = [m.movement for m in MATERIALS.values() if m.movement is not None]
    assert len(moving) > 20
    for movement in moving:
        assert 0 < movement.radial < movement.tangential < 0.006


def test_a_board_bends_by_the_middle_of_its_range() -> None:
    """Of the ranges of the *Wood Handbook*, Table 12-1, N/mm² (read)."""
    ranges = {"plywood": (6960, 8550), "particleboard": (2760, 4140), "hardboard": (3100, 5520)}
    for name, (least, greatest) in ranges.items():
        stiffness = MATERIALS[name].stiffness
        assert stiffness is not None
        assert stiffness.along == pytest.approx((least + greatest) / 2, rel=1e-3)


def test_the_iroko_top_moves_as_worked() -> None:
    """600 × 0.00186 × 4 % = 4.5 mm, slots 6 + screw (worked)."""
    plan = _moved(top_of(Capsule(1400, 600), "iroko"))
    assert plan.change == pytest.approx(4.5, abs=0.05)
    assert slot_for(plan.change, 5.0) == 5.0 + 6


def test_the_elm_top_moves_as_worked() -> None:
    """700 × 0.00338 × 4 % = 9.5, slots 12 + screw (worked)."""
    top = top_of(RoundedRectangle.with_radius(1700, 700, 80), "elm")
    plan = _moved(top)
    assert plan.change == pytest.approx(9.5, abs=0.05)
    assert slot_for(plan.change, 5.0) - 5.0 == 12


def test_one_row_of_fixings_stays_fast() -> None:
    """Fixings on one side of the grain's middle are fixed, the others slot for the whole way."""
    plan = _moved(top_of(Rectangle(1400, 600)))
    assert [slot.fixed for slot in plan.slots] == [True, True, False, False]
    travel = 2 * 400 * 0.00365 * 4
    assert plan.slots[2].length == slot_for(travel, 5.0) >= 5.0 + travel
    middle = (*FOUR, Point(0, 0))
    plan = _moved(top_of(Rectangle(1400, 600)), middle)
    assert [slot.fixed for slot in plan.slots] == [False] * 4 + [True]


def test_each_plate_slots_for_itself_where_nothing_joins_the_legs() -> None:
    """Two plates 70 between their rows slot for 70, not for the width of the top."""
    plates = tuple(
        tuple(Point(x, y + row) for row in (-35, 35)) for x, y in ((-400, -200), (400, 200))
    )
    apart = movement_of(top_of(Rectangle(1400, 600)), Held(plates, FOOT, False, 5.0))
    joined = movement_of(
        top_of(Rectangle(1400, 600)), Held((plates[0] + plates[1],), FOOT, False, 5.0)
    )
    assert [slot.fixed for slot in apart.slots] == [False, True, True, False]
    assert apart.slots[0].length == slot_for(2 * 70 * 0.00365 * 4, 5.0)
    assert max(s.length for s in joined.slots) > 2 * max(s.length for s in apart.slots) - 5.0


@given(st.floats(0, math.pi), st.floats(0, 10))
def test_movement_goes_across_the_grain_and_with_the_swing(grain: float, swing: float) -> None:
    """The change is the width across the grain times coefficient times swing."""
    top = top_of(Rectangle(1400, 600), "beech", grain=grain)
    plan = movement_of(top, Held(((),), FOOT, False, 5.0), swing=swing)
    width = 600 * abs(math.cos(grain)) + 1400 * abs(math.sin(grain))
    assert plan.width == pytest.approx(width)
    assert plan.change == pytest.approx(width * 0.00431 * swing)
    assert plan.slots == ()


def test_quarter_sawn_wood_moves_less() -> None:
    """The radial figure counts where the boards are sawn on the quarter."""
    top, held = top_of(Rectangle(1400, 600)), Held((FOUR,), FOOT, False, 5.0)
    one, other = (movement_of(top, held, quartered=q).change for q in (False, True))
    assert other / one == pytest.approx(0.00180 / 0.00365)


def test_board_needs_no_slots_but_a_little_play() -> None:
    """A worktop 560 wide may swell by 0.3 %, about 2 mm, and has no slots (worked)."""
    plan = _moved(
        top_of(Rectangle(1450, 560), "particleboard", kind=Kind.PARTICLEBOARD), glued=True
    )
    assert plan.change == pytest.approx(1.7, abs=0.05)
    assert plan.slots == ()
    assert not plan.solid
    assert not plan.glue_fights


def test_rigid_glue_on_a_wide_leg_fights_the_wood() -> None:
    """A slab glued across the grain holds the top fast until one of both breaks."""
    top, across = top_of(Rectangle(1400, 600)), Foot.square(500)
    glued = _moved(top, foot=across, glued=True)
    assert glued.joint == pytest.approx(500 * 0.00365 * 4)
    assert glued.glue_fights
    assert not _moved(top, foot=across).glue_fights
    assert not _moved(top, glued=True).glue_fights


def test_a_wood_without_a_figure_counts_as_oak(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nobody has read a coefficient, one on the safe side of most species is taken."""
    make_known(monkeypatch, Material("larch", 590.0, "invented"))
    plan = _moved(top_of(Rectangle(1400, 600), "larch"), ())
    assert plan.coefficient == 0.00365
    assert "as oak" in plan.source
