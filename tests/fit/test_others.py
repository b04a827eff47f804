"""Second opinions: clearly different, proved inside, none beyond the bound, the same every time."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from held_to_proof import is_proved
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.fit.found import Fit
from panelwright.layout.fit.others import LEAST_SHARE, MOST, others
from panelwright.layout.fit.points import Ground
from panelwright.layout.fit.stand import MOVED, RESIZED, TURNED, Stand, period_of
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
)
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    rectangular_place,
    round_place,
)

SHOWING = frozenset({Spoils.SHOWING})
CUTTING = frozenset({Spoils.CUTTING})

LOBES = [
    (0, 0),
    (860, 0),
    (860, 380),
    (1060, 380),
    (1060, 60),
    (1860, 60),
    (1860, 780),
    (1060, 780),
]
LOBES += [(1060, 440), (860, 440), (860, 800), (0, 800)]
"""A lobe of 860 by 800 and one of 800 by 720, with a neck 60 wide between them."""

SHAPES = ("circle", "oval", "capsule", "rectangle", "rounded rectangle")


def ground(panel: Panel) -> Ground:
    """Return where tops may lie on a panel."""
    return Ground(panel.sound_for(Spoils.SHOWING), tuple(d.reach() for d in panel.islands))


def asked(panel: Panel, wish: Wish) -> tuple[Fit, tuple[Fit, ...]]:
    """Return the best top, and the second opinions on it."""
    held = ground(panel)
    best = best_fits(held.wood, wish, islands=held.islands)[0]
    return best, others(best, wish, wish.shapes[0], held)


def check(panel: Panel, wish: Wish) -> tuple[Fit, tuple[Fit, ...]]:
    """Return them once every promise is held against them."""
    best, found = asked(panel, wish)
    assert best.bound is not None
    assert len(found) <= MOST
    held = ground(panel)
    period = period_of(best.core)
    for fit in found:
        core = Region.from_rings(fit.placement.of(fit.core.outer()))
        assert is_proved(fit, held.wood.inner)
        assert LEAST_SHARE * best.score <= fit.score <= best.bound.value
        assert fit.bound is None
        for part in held.islands:
            assert core.holds(part) or core.meet(part).area == 0
        away = abs(math.remainder(fit.placement.turn - wish.limits.grain, math.pi))
        is_round = period_of(fit.core) == 0
        assert is_round or away <= wish.limits.most_turn + 1e-9
        assert wish.limits.length.holds(fit.outline.length, 0.01)
        assert wish.limits.width.holds(fit.outline.width, 0.01)
    stands = [Stand.of(fit) for fit in (best, *found)]
    for one, other in combinations(stands, 2):
        apart = max(one.difference(other, period), other.difference(one, period))
        assert apart >= 0.999
    return best, found


@pytest.mark.parametrize("shape", SHAPES)
def test_of_two_lobes_the_other_one_is_second(shape: str) -> None:
    """The best top of the smaller lobe comes right after the best of all."""
    panel = Panel(outline_through([Point(x, y) for x, y in LOBES]), 20)
    wish = Wish((shape,))
    best, found = check(panel, wish)
    assert best.placement.centre.x < 860
    assert found[0].placement.centre.x > 1060
    alone = Panel(outline_through([Point(x, y) for x, y in LOBES if x >= 1060]), 20)
    there = best_fits(ground(alone).wood, wish)[0]
    assert found[0].score == pytest.approx(there.score, rel=2e-3)


@pytest.mark.parametrize("shape", SHAPES)
def test_beside_a_defect_there_is_a_choice(shape: str) -> None:
    """Every second opinion keeps what is promised of it, and there is at least one."""
    knot = Defect("knot", round_place(Point(820, 260), 60), SHOWING, clear=10)
    stain = Defect("stain", rectangular_place(Point(100, 80), 160, 120), SHOWING)
    panel = Panel(rectangular_outline(1300, 450), 20, defects=(knot, stain))
    _, found = check(panel, Wish((shape,), limits=Limits(corner_radius=Span(20, 60))))
    assert found


def test_where_limits_make_many_places_equal_they_are_spread() -> None:
    """Circles of 300 on a board of 2400 lie all along it: no gap of more than a third is left."""
    panel = Panel(rectangular_outline(2400, 340), 20)
    wish = Wish(("circle",), limits=Limits(length=Span(0, 300)))
    best, found = check(panel, wish)
    assert len(found) == MOST
    assert all(fit.score == pytest.approx(best.score, rel=1e-3) for fit in found)
    across = sorted(fit.placement.centre.x for fit in (best, *found))
    assert max(np.diff([150, *across, 2250])) < 2400 / 3


def test_a_board_with_one_best_place_offers_turned_ones() -> None:
    """Where every way leads back to the best, tops stop as near to it as is clearly different."""
    panel = Panel(rectangular_outline(2000, 700), 20)
    best, found = check(panel, Wish(("capsule",)))
    assert {round(math.degrees(fit.placement.turn)) for fit in found} == {-5, 5}
    nearest = [Stand.of(fit).difference(Stand.of(best), math.pi) for fit in found]
    assert min(nearest) < 1.1


def test_the_best_made_smaller_is_no_other_place() -> None:
    """A board that a rectangle fills has no other place for one: all lie in the best."""
    panel = Panel(rectangular_outline(2000, 700), 20)
    assert check(panel, Wish(("rectangle",)))[1] == ()


@pytest.mark.parametrize("shape", ["rectangle", "oval"])
def test_of_places_that_are_equally_good_along_a_slide_there_is_a_choice(shape: str) -> None:
    """A top that limits hold small in a long board is offered as large near both of its ends."""
    panel = Panel(rectangular_outline(2000, 300), 20)
    wish = Wish((shape,), limits=Limits(length=Span(0, 500), most_turn_deg=0))
    best, found = check(panel, wish)
    assert all(fit.score == pytest.approx(best.score, rel=1e-3) for fit in found)
    along = [fit.placement.centre.x for fit in (best, *found)]
    assert min(along) < 450
    assert max(along) > 1550


def test_limits_of_turn_and_size_hold_for_all() -> None:
    """A turn within 3° of the grain and a width of at least 300 are kept everywhere."""
    panel = Panel(outline_through([Point(x, y) for x, y in LOBES]), 20)
    limits = Limits(width=Span(300, 600), most_turn_deg=3, grain_deg=6)
    for shape in ("oval", "rectangle"):
        check(panel, Wish((shape,), limits=limits))


@pytest.mark.heavy
def test_no_edge_runs_through_what_spoils_cutting() -> None:
    """The best top holds the nail, and so do the others, or it lies outside all of them."""
    nail = Defect("nail", round_place(Point(500, 200), 10), CUTTING, clear=10)
    panel = Panel(rectangular_outline(1400, 420), 20, defects=(nail,))
    check(panel, Wish(("capsule",)))


def test_an_outline_of_one_size_may_lie_wherever_it_fits() -> None:
    """On a board parted by a saw cut it is offered on both sides, as clear as it says."""
    cut = Defect("cut", rectangular_place(Point(800, 250), 4, 500), SHOWING)
    panel = Panel(rectangular_outline(1400, 500), 20, defects=(cut,))
    corners = [(0, 0), (400, 0), (400, 150), (200, 250), (0, 150)]
    own = Freeform.through(tuple(Point(x, y) for x, y in corners), "own outline")
    best, found = asked(panel, Wish(("own outline",), own=own))
    assert found
    assert {fit.placement.centre.x < 800 for fit in (best, *found)} == {True, False}
    wood = ground(panel).wood.inner
    for fit in found:
        core = Region.from_rings(fit.placement.of(own.outer()))
        assert fit.clearance == fit.score
        assert best.bound is not None
        assert 0 <= fit.score <= best.bound.value
        assert wood.shrunk(max(0.0, fit.score - 0.01), around=True).holds(core)


def test_the_same_question_has_the_same_answer() -> None:
    """Asked again, every second opinion is the same to the last digit."""
    panel = Panel(outline_through([Point(x, y) for x, y in LOBES]), 20)
    for shape in ("oval", "rounded rectangle"):
        assert asked(panel, Wish((shape,))) == asked(panel, Wish((shape,)))


@pytest.mark.heavy
@settings(max_examples=8, deadline=None)
@given(st.floats(150, 1150), st.floats(60, 390), st.floats(20, 160), st.sampled_from(SHAPES))
def test_promises_hold_wherever_a_hole_lies(x: float, y: float, wide: float, shape: str) -> None:
    """Whatever is in the way, they are inside, different and no better than the bound."""
    hole = Defect("hole", round_place(Point(x, y), wide), SHOWING)
    check(Panel(rectangular_outline(1300, 450), 20, defects=(hole,)), Wish((shape,)))


@pytest.mark.parametrize(
    ("outline", "period"),
    [
        (Circle(500), 0.0),
        (Oval(500, 470), 0.0),
        (Oval(500, 300), math.pi),
        (Capsule(500, 300), math.pi),
        (Rectangle(500, 300), math.pi),
        (Rectangle(500, 500), math.pi / 2),
        (RegularPolygon(6, 500), math.pi / 3),
        (RegularPolygon(8, 500), math.pi / 4),
    ],
)
def test_the_turn_after_which_an_outline_looks_the_same(outline: Outline, period: float) -> None:
    """Any for a circle, a quarter for a square, half a turn for most."""
    assert period_of(outline) == pytest.approx(period)


def test_a_difference_is_measured_in_what_changes_most() -> None:
    """By 8 % of the length moved, by 5° turned, or longer by a tenth is 1; smaller is nothing."""
    here = Stand(1.0, Placement(Point(0, 0), 0.2), 1000, 400)
    moved = Stand(1.0, Placement(Point(0, MOVED * 1000), 0.2), 1000, 400)
    turned = Stand(1.0, Placement(Point(0, 0), 0.2 + TURNED - math.pi), 1000, 400)
    longer = Stand(1.0, Placement(Point(0, 0), 0.2), (1 + RESIZED) * 1000, 200)
    smaller = Stand(0.5, Placement(Point(0, 0), 0.2), 700, 300)
    for other in (moved, turned, longer):
        assert other.difference(here, math.pi) == pytest.approx(1)
    assert smaller.difference(here, math.pi) <= 0
    assert turned.difference(here, 0.0) <= 0
