"""The bound on rectangles: real ones, from random panels, try to get out of their boxes."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from panelwright.layout.fit.branch_and_bound import search
from panelwright.layout.fit.convex.wood import Wood
from panelwright.layout.fit.rectangles.boxes import Boxes, Frames, strips
from panelwright.layout.fit.rectangles.contacts import WoodEdges
from panelwright.layout.fit.rectangles.family import RoundedRectangles, Slim
from panelwright.layout.fit.rectangles.gap_bound import Narrowing, narrowed_along
from panelwright.layout.fit.rectangles.local_search import Polisher
from panelwright.layout.fit.rectangles.offset_wood import Ground
from panelwright.layout.fit.rectangles.sampling import Windows, rectangles
from panelwright.layout.fit.rectangles.sizes import CORNER_LOSS, Sizes
from panelwright.layout.fit.rectangles.slim import best_capsule
from panelwright.layout.fit.wish import Goal, Limits, Span, Wish
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import RoundedRectangle
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
SLACK = 1e-6


def random_panel(rng: np.random.Generator) -> Region:
    """Return a panel with a random star for its edge and some random holes, few or many."""
    count = int(rng.integers(5, 14))
    angles = (np.arange(count) + rng.uniform(0, 0.9, count)) * math.tau / count
    reach = rng.uniform(250, 1000, count) * rng.uniform(0.3, 1.0, (2, 1))
    ring = np.stack([reach[0] * np.cos(angles), reach[1] * np.sin(angles)], axis=1)
    holes = Region.empty()
    for _ in range(int(rng.choice([0, 1, 3, 12, 40]))):
        middle = rng.uniform(-500, 500, 2)
        hole = middle + rng.uniform(-60, 60, (3, 2)) * rng.uniform(0.1, 1.0)
        holes = holes.joined(Region.from_rings(hole))
    return Region.from_rings(ring).minus(holes)


def some_rectangles(panel: Region, rng: np.random.Generator) -> list[tuple[float, Array]]:
    """Return turns and corners, (4, 2), of real rectangles in the panel, some of them polished.

    The turn is that of the short sides.
    """
    edges, sizes = panel.edges, Sizes.of(Wish(), 0.0)
    recipe = Ground(panel, Wish(), np.zeros((0, 2))).recipe((0.0, 0.0))
    free = (-math.inf, math.inf)
    polisher = Polisher(WoodEdges.of(panel.edges), sizes, (0.0, 0.0), free)
    low = rng.uniform(0, math.pi)
    windows = Windows.across(low, low + math.pi, edges)
    kept = []
    for held in rectangles(windows, edges, recipe, most=6):
        clear = polisher.fitted(held)
        if clear is not None and rng.uniform() < 0.5:
            held = polisher.polished(clear[1])
        wide, high = held.half - 1e-5
        own = np.array([[-wide, -high], [wide, -high], [wide, high], [-wide, high]])
        corners = turned(own, -held.turn) + held.centre
        quarter = math.pi / 2 if wide > high else 0.0
        if min(wide, high) > 2.5 and panel.holds(Region.from_rings(corners)):
            kept.append((held.turn + quarter, corners))
    return kept


def sides_of(turn: float, corners: Array, pivot: Array) -> tuple[Array, Array]:
    """Return the sides of a rectangle across and along its turn, measured from a pivot."""
    across = np.array([math.cos(turn), math.sin(turn)])
    along = np.array([-math.sin(turn), math.cos(turn)])
    x, y = (corners - pivot) @ across, (corners - pivot) @ along
    return np.array([x.min(), x.max()]), np.array([y.min(), y.max()])


def box_round(turn: float, corners: Array, rng: np.random.Generator) -> Boxes:
    """Return a random box that holds the rectangle, large or small."""
    scale = 10.0 ** rng.uniform(-3, 0)
    half = scale * rng.uniform(0.1, 0.5)
    pivot = corners.mean(axis=0) + rng.uniform(-1, 1, 2) * scale * rng.choice([200, 2000])
    x, y = sides_of(turn, corners, pivot)
    loose = scale * 300 * rng.uniform(0.01, 1.0, 8) * (rng.uniform(size=8) < 0.5)
    middle = turn + half * rng.choice([-1.0, 1.0, rng.uniform(-1, 1)])
    spread = np.repeat([x, y], 2, axis=1) + (loose * np.tile([-1.0, 1.0], 4)).reshape(2, 4)
    return Boxes(Frames(np.array([middle]), pivot[None]), np.array([half]), spread[None])


def holds(boxes: Boxes, row: int, turn: float, corners: Array) -> bool:
    """Return whether a box holds the rectangle."""
    if abs(math.remainder(turn - boxes.frames.turn[row], math.tau)) > boxes.half[row] + 1e-9:
        return False
    x, y = sides_of(turn, corners, boxes.frames.pivot[row])
    return all(
        sides[i] >= span[2 * i] - SLACK and sides[i] <= span[2 * i + 1] + SLACK
        for sides, span in zip((x, y), boxes.sides[row], strict=True)
        for i in (0, 1)
    )


@pytest.mark.parametrize("seed", [*range(16), 76, 137])
def test_a_real_rectangle_never_leaves_its_box(seed: int) -> None:
    """Whatever box holds a real rectangle, one of the boxes left holds it, with no lower bound."""
    rng = np.random.default_rng(seed)
    panel = random_panel(rng)
    edges = panel.edges
    recipe = Ground(panel, Wish(), np.zeros((0, 2))).recipe((0.0, 0.0))
    for turn, corners in some_rectangles(panel, rng):
        x, y = sides_of(turn, corners, np.zeros(2))
        wide, high = float(np.ptp(x)), float(np.ptp(y))
        sizes = Sizes.of(Wish(), 0.0)
        score = float(sizes.most(np.array(high), np.array(wide)))
        for _ in range(12):
            box = box_round(turn, corners, rng)
            target = score * (1 - 10.0 ** rng.uniform(-4, -0.3))
            for parts in (box, box.halved().halved()):
                left, most = Narrowing(recipe, edges, target).judged(parts)
                bounds = [most[row] for row in range(len(left)) if holds(left, row, turn, corners)]
                assert bounds, f"{score} left its box"
                assert max(bounds) >= score * (1 - 1e-9)


def test_a_rectangle_that_fills_its_panel_never_leaves_its_box() -> None:
    """Wherever the box is measured from, its strip pokes out of no rectangle of the box."""
    rng = np.random.default_rng(8)
    for _ in range(60):
        turn, half = float(rng.uniform(0, math.pi)), 10.0 ** rng.uniform(0.5, 3, 2)
        own = half * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
        corners = turned(own, -turn) + rng.uniform(-500, 500, 2)
        edges = Region.from_rings(corners).edges
        for _ in range(12):
            box = box_round(turn, corners, rng)
            needed = 2 * half[:1] * (1 - 10.0 ** rng.uniform(-4, -0.3))
            left = narrowed_along(box, edges, needed, rng.uniform())
            rows = range(len(left.width))
            widths = [left.width[row] for row in rows if holds(left.boxes, row, turn, corners)]
            assert widths
            assert max(widths) >= 2 * half[0] - SLACK


@pytest.mark.parametrize(
    "seed", [40, 44, *(pytest.param(k, marks=pytest.mark.heavy) for k in range(45, 52))]
)
def test_a_real_slim_top_is_worth_no_more_than_what_its_capsules_allow(seed: int) -> None:
    """Two of its radii wide or hardly more, with or without points at its corners to be held."""
    rng, tried = np.random.default_rng(seed), 0
    panel, radius = random_panel(rng), float(rng.uniform(5, 60))
    for turn, core in some_rectangles(panel.shrunk(radius), rng)[:2]:
        across = np.array([math.cos(turn), math.sin(turn)])
        middle = core.mean(axis=0)
        slimmer = core - np.outer((core - middle) @ across, across)
        slimmer += rng.uniform(0, 0.2) * radius * np.outer([-1, 1, 1, -1], across)
        if np.ptp(core @ across) < np.ptp(slimmer @ across):
            continue
        x, y = sides_of(turn, slimmer, middle)
        if np.ptp(y) < np.ptp(x):
            continue
        way = np.sign(slimmer - slimmer.mean(axis=0)) if np.ptp(x) == 0 else slimmer - middle
        along = np.array([-across[1], across[0]])
        out = np.outer(np.sign(way @ across), across) + np.outer(np.sign(way @ along), along)
        held = [Region.at(Point(*p)) for p in slimmer + out * radius * (1 - 1e-9) / math.sqrt(2)]
        length, width = float(np.ptp(y)) + 2 * radius, float(np.ptp(x)) + 2 * radius
        score = length * width - CORNER_LOSS * radius**2
        least, widest = radius * rng.uniform(0.8, 1.0), width * rng.uniform(1.0, 1.1)
        over = CORNER_LOSS * ((widest / 2) ** 2 - least**2)
        share = 1 - 10 ** rng.uniform(-4, -0.5)
        for points in ((), held):
            wood, widths = Wood(SoundWood.exact(panel), points), (2 * least, widest)
            found = best_capsule(wood, Wish(()), widths, (score - over) * share, 1e6)
            assert found.bound + over >= score * (1 - 1e-9)
            wish = Wish(("rounded rectangle",), beats=score * share * 0.999)
            radii = least, radius * 1.1
            family = RoundedRectangles(SoundWood.exact(panel), wish, radii, points, sown=False)
            assert family.bound_by_turns(radii, max(widest, 2 * radii[1])) >= score * (1 - 1e-9)
        tried += 1
    assert tried > 0


@pytest.mark.heavy
@pytest.mark.parametrize("hold", [False, True])
def test_a_slim_top_that_fills_its_panel_is_never_lost(hold: bool) -> None:
    """Nor one that holds points where its corners lie farthest off the capsule in it."""
    rng = np.random.default_rng(9)
    for _ in range(30):
        radius, near = float(rng.uniform(20, 60)), 10.0 ** rng.uniform(-3, -0.7, 3)
        width, length = 2 * radius * (1 + near[0]), float(rng.uniform(300, 900))
        top, turn = RoundedRectangle(length, width, (radius,) * 4), float(rng.uniform(0, math.pi))
        panel = Region.from_rings(turned(top.outer(1e-4), turn))
        corner = np.array([length, width]) / 2 - radius * (1 - math.sqrt(0.5)) * (1 + 1e-9)
        ways = turned(corner * [[1, 1], [1, -1], [-1, 1], [-1, -1]], turn)
        points = [Region.at(Point(*way)) for way in ways.tolist()] if hold else []
        score = length * width - CORNER_LOSS * radius**2
        radii, widest = (radius * (1 - near[1]), radius * (1 + near[2])), width * 1.001
        slim = Slim(math.inf, radii, max(widest, 2.001 * radii[1]), 1e6)
        wish = Wish(("rounded rectangle",), beats=score * (1 - near[1] / 9))
        family = RoundedRectangles(SoundWood.exact(panel), wish, radii, points, sown=False)
        bounds = [part.bound for part in family.split(slim)]
        assert max(bounds) >= score * (1 - 1e-6)


@pytest.mark.parametrize("goal", [Goal.AREA, Goal.LENGTH, Goal.NEAREST])
@pytest.mark.parametrize("lipping", [0.0, 15.0])
def test_a_strip_narrower_than_its_corners_may_be_round_is_bounded(
    goal: Goal, lipping: float
) -> None:
    """A sharp top as large as the strip is never ruled out by what it is asked to beat."""
    rng = np.random.default_rng(7)
    long, wide, turn = rng.uniform(800, 1800), rng.uniform(20, 70), rng.uniform(0, math.pi)
    ring = np.array([[0.0, 0.0], [long, 0.0], [long, wide], [0.0, wide]])
    wood = SoundWood.exact(Region.from_rings(turned(ring, turn)))
    length, width = long + 2 * lipping, 0.97 * wide + 2 * lipping
    known = {Goal.AREA: length * width, Goal.LENGTH: length, Goal.NEAREST: 1.0}[goal]
    radii = 0.0, rng.uniform(60, 300)
    ratio = Span(0.9 * length / width, 1.5 * length / width)
    limits = Limits(width=Span(1.0, width), ratio=ratio, corner_radius=Span(*radii))
    wish = Wish(("rounded rectangle",), goal, limits, lipping=lipping, wanted=(length, 0.9 * width))
    for share in (0.5, 0.99):
        asked = replace(wish, beats=share * known)
        family = RoundedRectangles(wood, asked, radii, sown=False)
        found = search(family, gap=wish.gap, most_steps=20, enough=asked.beats)
        assert found.bound >= known * (1 - 1e-9)


@given(
    turn=st.floats(-3.0, 3.0),
    shift=st.floats(-500.0, 500.0),
    share=st.floats(0.05, 0.95),
)
@settings(max_examples=40)
def test_a_strip_across_a_rectangle_has_one_gap_as_wide_as_it(
    turn: float, shift: float, share: float
) -> None:
    """A level strip inside an upright rectangle is free from side to side, at any place."""
    corners = np.array([[0.0, 0.0], [700.0, 0.0], [700.0, 400.0], [0.0, 400.0]])
    cos, sin = math.cos(turn), math.sin(turn)
    ring = corners @ np.array([[cos, sin], [-sin, cos]]) + shift
    edges = Region.from_rings(ring).edges
    frames = Frames(np.array([turn]), np.array([[shift, shift]]))
    cut = strips(frames, np.array([400 * share * 0.5]), np.array([400 * share]), edges)
    gaps = cut.gaps(np.array([-9e3]), np.array([9e3]), np.array([1.0]))
    assert len(gaps.start) == 1
    assert gaps.start[0] == pytest.approx(0.0, abs=1e-8)
    assert gaps.end[0] == pytest.approx(700.0, abs=1e-8)
