"""Best hexagons, octagons and scaled outlines of the maker's own, and their bounds attacked."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest
from box_attack import HAIR, attacked_box, best_climbed, family_of, star
from held_to_proof import is_proved
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.errors import LayoutError
from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.branch_and_bound import search
from panelwright.layout.fit.convex.boxes import Box, Patch, patch_of
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.kind import Kind
from panelwright.layout.fit.convex.lift import Edges
from panelwright.layout.fit.convex.oval import OvalKind
from panelwright.layout.fit.convex.polygon import ConvexKind
from panelwright.layout.fit.convex.superellipse import SuperellipseKind
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.outlines import OWN_OUTLINE, Capsule, Freeform, Outline, RegularPolygon
from panelwright.layout.panel.sound import SoundWood

CASES = json.loads((Path(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8"))
SQUARE = np.array([[0.0, 0.0], [1000.0, 0.0], [1000.0, 1000.0], [0.0, 1000.0]])
BOARD = SQUARE * np.array([1.4, 0.6])
HOUSE = ((0.0, 0.0), (900.0, 0.0), (1000.0, 400.0), (450.0, 620.0), (0.0, 400.0))
KINDS = {
    "hexagon": ConvexKind(RegularPolygon(6, 2.0)),
    "octagon": ConvexKind(RegularPolygon(8, 2.0)),
}


def own(*corners: tuple[float, float]) -> Freeform:
    """Return an outline of the maker's own."""
    return Freeform.through([Point(x, y) for x, y in corners], OWN_OUTLINE)


def triangle(base: float, height: float) -> Freeform:
    """Return a triangle with a level base and its tip above the middle of it."""
    return own((0.0, 0.0), (base, 0.0), (base / 2, height))


def best(
    region: Region, shape: str = OWN_OUTLINE, outline: Outline | None = None, **wished: object
) -> Fit:
    """Return the best top of a shape, and hold it to its proof: it lies within the wood."""
    wish = Wish((shape,), own=outline, scaled=outline is not None, **wished)  # type: ignore[arg-type]
    fit = best_fits(SoundWood.exact(region), wish)[0]
    assert is_proved(fit, region)
    assert fit.bound is not None and fit.score <= fit.bound.value
    assert fit.gap is not None and fit.gap <= 0.001
    return fit


def bound_of(fit: Fit) -> float:
    """Return what no top of the family can beat."""
    assert fit.bound is not None
    return fit.bound.value


def ring(points: tuple[Point, ...]) -> Points:
    """Return corners as an array."""
    return np.array([(p.x, p.y) for p in points])


@pytest.mark.parametrize("degrees", [0.0, 23.0, -40.0])
def test_the_largest_hexagon_in_a_square_is_turned_by_fifteen_degrees(degrees: float) -> None:
    """Turned so it reaches 2 R cos 15° both ways, and less in no other turn: R = side/(2 cos 15°).

    Derived: its reach along x is 2 R times the greatest |cos| of its corners' directions, along y
    likewise with |sin|; the greater of both is least where 0° and 90° lie 15° from a corner each.
    """
    place = Placement(turn=math.radians(degrees))
    fit = best(Region.from_rings(place.of(SQUARE)), "hexagon")
    assert fit.outline.length == pytest.approx(1000 / math.cos(math.radians(15)), abs=0.02)
    off = math.degrees(math.remainder(fit.placement.turn - place.turn, math.pi / 3))
    assert abs(abs(off) - 15) < 0.05


def test_the_largest_octagon_on_a_board_is_as_wide_as_the_board() -> None:
    """Across its flats an octagon is narrowest, so its flats lie on both long edges."""
    fit = best(Region.from_rings(BOARD), "octagon")
    assert fit.outline.width == pytest.approx(600, abs=0.01)
    assert abs(math.remainder(fit.placement.turn, math.pi / 4)) < 1e-3


def test_the_largest_equilateral_triangle_in_a_square() -> None:
    """Its side is 1/cos 15° of the square's, its area 2√3 − 3 (Weisstein, MathWorld, "Square")."""
    fit = best(Region.from_rings(SQUARE), outline=triangle(100.0, 50 * math.sqrt(3)))
    assert fit.outline.area == pytest.approx((2 * math.sqrt(3) - 3) * 1e6, rel=2e-5)


@pytest.mark.parametrize("degrees", [0.0, 77.0, 160.0, -110.0])
@pytest.mark.parametrize("corners", [((0, 0), (1200, 0), (0, 500)), HOUSE])
def test_an_outline_fills_a_panel_of_its_own_form(
    corners: tuple[tuple[float, float], ...], degrees: float
) -> None:
    """Whichever way the panel lies, even head down, the outline is found turned with it."""
    place = Placement(Point(80.0, 20.0), math.radians(degrees))
    panel = Region.from_rings(place.of(np.array(corners, float) * 1.7))
    fit = best(panel, outline=own(*corners))
    assert fit.outline.area == pytest.approx(panel.area, rel=5e-5)


def test_a_mirrored_outline_is_another_outline() -> None:
    """A top has a show face, so it is not turned over: in its own mirror image it must be less."""
    corners = np.array(HOUSE) * np.array([-1.0, 1.0])
    assert best(Region.from_rings(corners), outline=own(*HOUSE)).outline.area < (
        0.99 * Region.from_rings(corners).area
    )


def test_a_hollow_outline_is_not_scaled() -> None:
    """The search for the largest copy takes convex outlines; the message says what to do."""
    arrow = own((0, 0), (900, 300), (0, 600), (300, 300))
    wish = Wish((OWN_OUTLINE,), own=arrow, scaled=True)
    with pytest.raises(LayoutError, match=r"hollow|convex"):
        best_fits(SoundWood.exact(Region.from_rings(BOARD)), wish)


def test_a_lipping_widens_a_hexagon_all_round() -> None:
    """The core lies on the board; the finished top is wider by both strips."""
    bare = best(Region.from_rings(BOARD), "hexagon")
    lipped = best(Region.from_rings(BOARD), "hexagon", lipping=6.0)
    assert lipped.outline.width == pytest.approx(bare.outline.width + 12, abs=0.02)
    assert lipped.core.width == pytest.approx(bare.core.width, abs=0.02)


@pytest.mark.parametrize("shape", ["hexagon", "octagon"])
def test_goals_and_limits_are_kept(shape: str) -> None:
    """The longest and the widest are the largest too; a greatest size is met exactly."""
    board = Region.from_rings(BOARD)
    free = best(board, shape)
    for goal in (Goal.LENGTH, Goal.WIDTH):
        assert best(board, shape, goal=goal).outline.area >= free.outline.area * 0.997
    held = best(board, shape, limits=Limits(width=Span(0, 300)))
    assert held.outline.width == pytest.approx(300, abs=0.01)
    straight = best(board, shape, limits=Limits(most_turn_deg=2))
    assert abs(math.remainder(straight.placement.turn, math.pi)) <= math.radians(2) + 1e-9


@settings(max_examples=6)
@given(star_rings(), st.floats(0, 3), st.sampled_from(["hexagon", "octagon", OWN_OUTLINE]))
def test_a_turned_and_scaled_panel_gives_the_same_top(
    corners: tuple[Point, ...], turn: float, shape: str
) -> None:
    """Areas agree within the gap, whichever way the panel lies and however large it is."""
    outline = own(*HOUSE) if shape == OWN_OUTLINE else None
    first = best(Region.from_rings(ring(corners)), shape, outline)
    moved = Placement(Point(300.0, 90.0), turn).of(ring(corners)) * 2.0
    second = best(Region.from_rings(moved), shape, outline)
    assert second.score <= 4 * bound_of(first) * (1 + HAIR)
    assert first.score * 4 <= bound_of(second) * (1 + HAIR)


@settings(max_examples=6)
@given(star_rings(), st.floats(-150, 150), st.sampled_from(["hexagon", "octagon"]))
def test_a_defect_never_makes_it_better(corners: tuple[Point, ...], x: float, shape: str) -> None:
    """What is found with a defect does not beat the bound without it."""
    region = Region.from_rings(ring(corners))
    spoilt = region.minus(Region.disk(Point(x, 40.0), 40.0, around=True))
    assert best(spoilt, shape).score <= bound_of(best(region, shape))


@pytest.mark.parametrize("name", ["trapezoid", "L_shape", "star5", "T_notch2"])
def test_a_regular_top_lies_between_its_circles(name: str) -> None:
    """It holds its inscribed circle and lies in the circle through its corners."""
    case = CASES["cases"][name]
    region = Region.from_rings(np.array(case["exterior"]), [np.array(h) for h in case["holes"]])
    circle = best(region, "circle")
    for shape, sides in (("hexagon", 6), ("octagon", 8)):
        top = best(region, shape)
        inscribed = sides / math.pi * math.tan(math.pi / sides)
        through = sides / math.tau * math.sin(math.tau / sides)
        assert top.score <= bound_of(circle) * inscribed
        assert circle.score * through <= bound_of(top)


@pytest.mark.parametrize("kind", [*KINDS.values(), ConvexKind(own(*HOUSE))])
def test_no_top_of_a_box_beats_its_bound(kind: ConvexKind) -> None:
    """Thousands of tops at random in random boxes on random panels, half at the boxes' corners."""
    rng, tried = np.random.default_rng(31), 0
    for _ in range(60):
        family = family_of(kind, star(rng), "hexagon")
        for _ in range(2):
            attacked = attacked_box(family, rng, 40)
            if attacked is not None and attacked.best > 0:
                tried += 1
                assert attacked.best <= attacked.bound * (1 + HAIR)
    assert tried > 40


@pytest.mark.heavy
@pytest.mark.parametrize("shape", ["hexagon", "octagon"])
def test_no_climbed_top_beats_the_end_of_a_search(shape: str) -> None:
    """Tops polished from random places never pass what the search says that none can beat."""
    rng = np.random.default_rng(5)
    for _ in range(10):
        family = family_of(KINDS[shape], star(rng), shape)
        outcome = search(family, gap=0.001, most_steps=3000)
        assert best_climbed(family, rng, 25) <= outcome.bound * (1 + HAIR)


@pytest.mark.parametrize("kind", [*KINDS.values(), ConvexKind(Capsule(500.0, 200.0))])
def test_tops_obey_the_half_planes_of_what_they_hold(kind: ConvexKind) -> None:
    """Points on the edge of tops of random boxes never lie beyond a half-plane of those tops."""
    rng, body, none = np.random.default_rng(17), kind.body, np.zeros(0, dtype=np.intp)
    closest = 1.0
    for _ in range(200):
        box = Box(0.0, 10 ** rng.uniform(-4, -0.5), 0.0, 0.0, SQUARE, 0.0, (1.0, 1.0), none, none)
        box.most = rng.uniform(50, 500)
        patch = Patch(np.zeros(2), (10 ** rng.uniform(-2, 1.5), 10 ** rng.uniform(-2, 1.5)))
        radius, lean = box.most * rng.uniform(0.5, 1), rng.uniform(-1, 1) * box.half_turn
        centre = rng.uniform(-1, 1, 2) * patch.sides
        way = rng.normal(size=(1, 2))
        edge = radius * way / body.gauge(way)[:, None]
        held = Placement(Point(*centre), lean).of(edge)
        rows, limits = kind.lift(box, patch).held(held)
        off = limits - rows @ np.array([*centre, radius * math.cos(lean), radius * math.sin(lean)])
        assert off.min() >= -1e-9 * radius
        closest = min(closest, off.min() / radius)
    assert closest < 1e-6


@pytest.mark.parametrize("shape", KINDS)
def test_a_covered_point_is_held_with_a_bound_as_sharp(shape: str) -> None:
    """A point far towards a corner costs size, and few boxes settle by how much.

    It comes to lie on the edge of the top, within what a proof may cost.
    """
    region, point = Region.from_rings(BOARD), Point(1330.0, 60.0)
    free, asked = best(region, shape), best(region, shape, covers=(point,))
    top = Region.from_rings(asked.placement.of(asked.outline.outer(CHORD)))
    assert top.grown(0.005).holds_point(point)
    assert asked.score < free.score and asked.steps < 150


def test_a_convex_outline_of_another_name_is_scaled_as_well() -> None:
    """A capsule of fixed form takes no help meant for capsules of any: knots and points too."""
    board = Region.from_rings(BOARD).minus(Region.disk(Point(700.0, 300.0), 12.0, around=True))
    top = best(board, OWN_OUTLINE, Capsule(600.0, 300.0), covers=(Point(300.0, 400.0),))
    assert top.outline.length == pytest.approx(2 * top.outline.width)


@pytest.mark.parametrize("kind", [CapsuleKind(), OvalKind(), SuperellipseKind(3.0)])
def test_an_edge_shrunk_to_a_point_bounds_as_a_point(kind: Kind) -> None:
    """It has no line that could bound anything, on the hull or not, only its place."""
    points = np.repeat(np.array([[300.0, -400.0], [20.0, 200.0]])[:, None], 2, axis=1)
    middle, one = np.zeros((1, 2)), np.zeros(1, dtype=bool)
    box = Box(0.0, 0.01, 1.0, 1.1, middle, 0.0, (5.0, 5.0), one, np.arange(2))
    lift = kind.lift(box, patch_of(box))
    seen = (Edges(points[:, 0], points, np.full(2, on)) for on in (True, False))
    rows, other = (lift.contacts(edges, 100.0) for edges in seen)
    assert len(rows.limits) and np.array_equal(rows.rows, other.rows)
    assert np.array_equal(rows.limits, other.limits) and (rows.limits > 0).all()
