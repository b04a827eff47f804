"""Parts that a top must hold: the bound stands against every top that holds them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from box_attack import unknowns
from numpy.typing import NDArray

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.fit.convex.boxes import Box, patch_of
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.d_end import DEndKind
from panelwright.layout.fit.convex.oval import OvalKind
from panelwright.layout.fit.convex.superellipse import SuperellipseKind
from panelwright.layout.fit.families import answered
from panelwright.layout.fit.rectangles.boxes import Boxes, Frames, Points
from panelwright.layout.fit.rectangles.contacts import Inner, WoodEdges, hold, missed, shortfall
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.fit.wood.round_holes import Disks
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
SHAPES = ("circle", "oval", "capsule", "rectangle", "rounded rectangle")
PANEL = Region.from_rings(
    np.array([[0.0, 0.0], [1600.0, 0.0], [1500.0, 900.0], [300.0, 1000.0], [0.0, 500.0]])
)


def square(x: float, y: float, side: float) -> Region:
    """Return an upright square about a place."""
    half = side / 2
    corners = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    return Region.from_rings(corners + np.array([x, y]))


@pytest.mark.parametrize("shape", SHAPES)
def test_a_top_goes_round_a_plug_in_the_middle_of_the_panel(shape: str) -> None:
    """An island in the middle lies in the best top, which is as good as were it not there."""
    wood, island = SoundWood.exact(PANEL), square(800.0, 450.0, 120.0)
    free = best_fits(wood, Wish((shape,)))[0]
    fit = best_fits(wood, Wish((shape,)), islands=(island,))[0]
    assert Region.from_rings(fit.points()).holds(island)
    assert fit.score == pytest.approx(free.score, rel=1e-3)


@pytest.mark.parametrize("shape", SHAPES)
def test_what_must_be_held_is_bounded_as_tightly_as_what_need_not(shape: str) -> None:
    """A part near a corner that must be held costs something, and the gap is still reached."""
    part = square(380.0, 860.0, 60.0)
    answer = answered(SoundWood.exact(PANEL), Wish((shape,), gap=0.002), shape, (part,))
    free = answered(SoundWood.exact(PANEL), Wish((shape,), gap=0.002), shape)
    assert answer.fit is not None and free.fit is not None and answer.fit.gap is not None
    assert Region.from_rings(answer.fit.points()).holds(part)
    assert answer.fit.gap <= 0.002
    assert answer.fit.score <= free.bound


def reached(fit: Fit, wood: Region, part: Region, rng: np.random.Generator) -> float:
    """Return the best area of random rectangles that hold a part, grown until they touch."""
    best, edges = 0.0, WoodEdges.of(wood.edges)
    corners = part.corners
    for _ in range(400):
        turn = fit.placement.turn + rng.normal() * 0.3
        own = turned(corners - corners.mean(axis=0), turn)
        low, high = own.min(axis=0), own.max(axis=0)
        sides = np.array([low[0], high[0], low[1], high[1]])
        top = Inner.between(turn, corners.mean(axis=0), sides.reshape(2, 2), 0.0)
        if shortfall(edges.seen(top), top.half, 0.0) > 0:
            continue
        step = 200.0
        while step > 0.01:
            for side in rng.permutation(4):
                tried = sides.copy()
                tried[side] += step * (1 if side % 2 else -1)
                if _clear(wood, turn, corners.mean(axis=0), tried):
                    sides = tried
            step /= 2
        best = max(best, float((sides[1] - sides[0]) * (sides[3] - sides[2])))
    return best


def _clear(wood: Region, turn: float, pivot: Array, sides: Array) -> bool:
    left, right, bottom, top = sides
    own = np.array([[left, bottom], [right, bottom], [right, top], [left, top]])
    return wood.holds(Region.from_rings(turned(own, -turn) + pivot))


@pytest.mark.parametrize("seed", range(3))
def test_no_random_rectangle_round_a_part_beats_the_bound(seed: int) -> None:
    """Rectangles grown from a part until they touch the wood stay below the bound."""
    rng = np.random.default_rng(seed)
    part = square(*rng.uniform([450, 150], [1350, 750]), 40.0)
    answer = answered(SoundWood.exact(PANEL), Wish(("rectangle",)), "rectangle", (part,))
    assert answer.fit is not None
    area = reached(answer.fit, PANEL, part, rng)
    assert 0.3 * answer.bound < area <= answer.bound * (1 + 1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_a_rectangle_that_holds_its_points_stays_in_its_box(seed: int) -> None:
    """Boxes narrowed by points keep every rectangle that holds them."""
    rng = np.random.default_rng(seed)
    for _ in range(200):
        turn, pivot = rng.uniform(-2, 2), rng.uniform(-100, 100, 2)
        sides = np.array([*sorted(rng.uniform(-500, 500, 2)), *sorted(rng.uniform(-500, 500, 2))])
        radius, out = rng.uniform(0, 80), rng.uniform(-10, 40)
        centres = sides + out * np.array([-1.0, 1.0, -1.0, 1.0])
        if centres[1] <= centres[0] or centres[3] <= centres[2]:
            continue
        angle = rng.uniform(0, math.tau, 3)
        own = np.stack([rng.choice(centres[:2], 3), rng.choice(centres[2:], 3)], axis=1)
        own += radius * np.stack([np.cos(angle), np.sin(angle)], axis=1)
        ends = centres.reshape(2, 2)
        middle, long = ends.mean(axis=1), (ends[:, 1] - ends[:, 0]) / 2
        assert missed(own - middle, long, radius) < 1e-9
        places = turned(own, -turn) + pivot
        half = 10.0 ** rng.uniform(-4, -0.7)
        loose = rng.uniform(0, 300, 8) * 10.0 ** rng.uniform(-3, 0)
        spread = np.repeat(sides, 2).reshape(2, 4) + (loose * np.tile([-1.0, 1.0], 4)).reshape(2, 4)
        frames = Frames(np.array([turn + half * rng.uniform(-1, 1)]), pivot[None])
        box = Boxes(frames, np.array([half]), spread[None])
        points = Points(places, out, radius)
        left = points.narrowed(box)
        assert np.all(left.sides[0, :, ::2] <= sides.reshape(2, 2) + 1e-6)
        assert np.all(left.sides[0, :, 1::2] >= sides.reshape(2, 2) - 1e-6)


def test_how_firmly_points_are_held_changes_as_told() -> None:
    """Slopes of the hold of points agree with differences."""
    rng = np.random.default_rng(1)
    half, clearance = np.array([275.0, 390.0]), 60.0
    points = np.array([[100.0, 50.0], [315.0, 420.0], [-305.0, -410.0], [305.0, -10.0]])
    held = hold(points, half, clearance)
    for _ in range(5):
        step = rng.normal(size=5) * np.array([0.3, 0.3, 1e-3, 0.3, 0.3]) * 1e-3
        moved = hold(turned(points - step[:2], step[2]), half + step[3:], clearance)
        assert moved.value - held.value == pytest.approx(held.slope @ step, abs=1e-6)


@pytest.mark.parametrize("kind", [CapsuleKind(), DEndKind(), OvalKind(), SuperellipseKind(3.0)])
def test_a_round_top_that_holds_its_points_obeys_the_bounds_of_its_box(
    kind: CapsuleKind | OvalKind,
) -> None:
    """Radii needed in cells, and half-planes, admit every top that holds points, if only just."""
    rng = np.random.default_rng(7)
    capsule = isinstance(kind, CapsuleKind)
    for _ in range(300):
        high = rng.uniform(0, 500) if capsule else rng.uniform(0, 2.5)
        low = high * rng.uniform(0, 1)
        half_turn = 10.0 ** rng.uniform(-4, 0)
        turn = rng.uniform(-2, 2)
        half = tuple(10.0 ** rng.uniform(-2, 2, 2))
        box = Box(
            turn, half_turn, low, high, rng.uniform(-200, 200, (1, 2)), turn, (half[0], half[1]),
            np.array([False]), np.zeros(0, dtype=np.intp), Disks.none(),
        )  # fmt: skip
        p, lean = rng.uniform(low, high), half_turn * rng.uniform(-1, 1)
        shift = rng.uniform(-1, 1, 2) * np.array(half)
        centre = box.centres[0] + turned(shift[None], -turn)[0]
        way = rng.normal(size=(4, 2)) * 200
        far = kind.holding(0.0, p, way, np.zeros((1, 2)))[0]
        radius = far * (1 + 10 ** rng.uniform(-6, 0))
        points = turned(way, -(turn + lean)) + centre
        reach = float(kind.lengths(np.array([half]), kind.growth(low, high, half_turn).anchor)[0])
        needed = kind.held_radii(box, points, reach)
        assert needed[0] <= radius + 1e-6
        patch = patch_of(box)
        lift = kind.lift(box, patch)
        planes = lift.held(turned(points - patch.middle, box.turn))
        own = turned((centre - patch.middle)[None], turn)[0]
        shape = unknowns(lift, p, lean, radius, kind.sizes(p, radius))
        told = np.array([*own, *shape])[: planes.rows.shape[1]]  # r sin φ says nothing of that
        assert np.all(planes.rows @ told <= planes.limits + 1e-6)


@pytest.mark.parametrize("shape", ["oval", "superellipse", "capsule", "D end", "hexagon"])
def test_what_is_too_broad_to_be_held_is_ruled_out(shape: str) -> None:
    """A triangle 795 wide where it is least is held by no top that is at most 650 wide anywhere."""
    held = (Point(60, 20), Point(60, 860), Point(1300, 440))
    wood = SoundWood.exact(
        Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 880.0], [0.0, 880.0]]))
    )
    wish = Wish((shape,), limits=Limits(width=Span(0.0, 650.0)), covers=held)
    assert answered(wood, wish, shape).steps == 0


@pytest.mark.parametrize("shape", ["oval", "superellipse"])
def test_needles_are_not_searched_for_what_is_broad(shape: str) -> None:
    """No top with round ends reaches three such corners of a board; that is soon known."""
    held = (Point(60, 660), Point(60, 40), Point(1990, 350))
    wood = SoundWood.exact(
        Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 700.0], [0.0, 700.0]]))
    )
    answer = answered(wood, Wish((shape,), covers=held), shape)
    assert answer.fit is None and answer.bound == 0 and answer.steps < 200


def test_a_trimmed_top_keeps_its_point() -> None:
    """A rectangle cut short by a greatest length lies where it still covers a far point."""
    wood = SoundWood.exact(
        Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 500.0], [0.0, 500.0]]))
    )
    limits = Limits(length=Span(0.0, 800.0), ratio=Span(1.2))
    point = Point(1950.0, 250.0)
    for shape in ("rectangle", "rounded rectangle"):
        fit = best_fits(wood, Wish((shape,), limits=limits, covers=(point,)))[0]
        assert fit.outline.length == pytest.approx(800.0, abs=0.01)
        assert fit.outline.width == pytest.approx(500.0, abs=0.01)
        assert Region.from_rings(fit.points()).holds_point(point)
