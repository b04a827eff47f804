"""The bound on rectangles: real ones, from random panels, try to get out of their boxes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from panelwright.layout.fit.rectangles.boxes import Boxes
from panelwright.layout.fit.rectangles.contacts import WoodEdges
from panelwright.layout.fit.rectangles.gaps import Frames, strips
from panelwright.layout.fit.rectangles.hull_bound import HullSides, relaxed_bound
from panelwright.layout.fit.rectangles.local_search import Polisher
from panelwright.layout.fit.rectangles.narrowing import Narrowing
from panelwright.layout.fit.rectangles.offset_wood import CORNER_LEFT
from panelwright.layout.fit.rectangles.sampling import Windows, rectangles
from panelwright.layout.fit.rectangles.sizes import Sizes
from panelwright.layout.fit.wish import Limits, Span, Wish
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.polygon import Region

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
    edges, sizes = panel.edges.reshape(-1, 4), Sizes.of(Wish(), 0.0)
    free = (-math.inf, math.inf)
    polisher = Polisher(WoodEdges.of(panel.edges), sizes, 0.0, (0.0, 0.0), free)
    low = rng.uniform(0, math.pi)
    windows = Windows.across(low, low + math.pi, edges)
    kept = []
    for held in rectangles(windows, edges, sizes, 0.0, most=6):
        clear = polisher.fitted(held)
        if clear is not None and rng.uniform() < 0.5:
            held = polisher.polished(clear[1])
        wide, high = held.drawn_in(1e-5).half
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
    pivot = corners.mean(axis=0) + rng.uniform(-200, 200, 2) * scale
    x, y = sides_of(turn, corners, pivot)
    loose = scale * 300 * rng.uniform(0.01, 1.0, 8) * (rng.uniform(size=8) < 0.5)
    middle = turn + half * rng.choice([-1.0, 1.0, rng.uniform(-1, 1)])
    return Boxes(
        np.array([middle]),
        np.array([half]),
        pivot[None],
        np.array([[x[0] - loose[0], x[0] + loose[1], x[1] - loose[2], x[1] + loose[3]]]),
        np.array([[y[0] - loose[4], y[0] + loose[5], y[1] - loose[6], y[1] + loose[7]]]),
    )


def asking(length: float, width: float) -> Sizes:
    """Return the sizes of a wish for tops at least so long and wide as one is."""
    wish = Wish((), limits=Limits(length=Span(length), width=Span(width)))
    return Sizes.of(wish, 0.0)


def holds(boxes: Boxes, row: int, turn: float, corners: Array) -> bool:
    """Return whether a box holds the rectangle."""
    if abs(math.remainder(turn - boxes.turn[row], math.tau)) > boxes.half[row] + 1e-9:
        return False
    x, y = sides_of(turn, corners, boxes.pivot[row])
    return all(
        sides[i] >= span[2 * i] - SLACK and sides[i] <= span[2 * i + 1] + SLACK
        for sides, span in ((x, boxes.x[row]), (y, boxes.y[row]))
        for i in (0, 1)
    )


@pytest.mark.parametrize("seed", [*range(16), 76, 137])
def test_a_real_rectangle_never_leaves_its_box(seed: int) -> None:
    """Whatever box holds a real rectangle, one of the boxes left holds it, with no lower bound."""
    rng = np.random.default_rng(seed)
    panel = random_panel(rng)
    edges = panel.edges.reshape(-1, 4)
    hull = HullSides.of(panel.corners)
    for turn, corners in some_rectangles(panel, rng):
        x, y = sides_of(turn, corners, np.zeros(2))
        wide, high = float(np.ptp(x)), float(np.ptp(y))
        sizes = Sizes.of(Wish(), 0.0)
        score = float(sizes.most(np.array(high), np.array(wide)))
        tight = asking(high, wide)
        for _ in range(12):
            box = box_round(turn, corners, rng)
            target = score * (1 - 10.0 ** rng.uniform(-4, -0.3))
            for parts in (box, box.halved().halved()):
                left, most = Narrowing(edges, sizes, 0.0, target).judged(parts)
                bounds = [most[row] for row in range(len(left)) if holds(left, row, turn, corners)]
                assert bounds, f"{score} left its box"
                assert max(bounds) >= score * (1 - 1e-9)
                for row in range(len(left)):
                    if holds(left, row, turn, corners):
                        one = left.take(np.array([row]))
                        for each in (sizes, tight):
                            assert relaxed_bound(one, hull, each, 0.0) >= score * (1 - 1e-9)
            assert relaxed_bound(box, hull, tight, 0.0) >= score * (1 - 1e-9)
            assert relaxed_bound(box, hull, sizes, 0.0) >= score * (1 - 1e-9)


@pytest.mark.parametrize(
    "seed", [40, 41, 42, 43, *(pytest.param(k, marks=pytest.mark.heavy) for k in range(44, 56))]
)
def test_a_real_rounded_rectangle_never_leaves_its_box(seed: int) -> None:
    """As it is bounded by its full width between round corners, also where it is all but a line."""
    rng = np.random.default_rng(seed)
    panel, radius = random_panel(rng), float(rng.uniform(5, 60))
    edges, inner = panel.edges.reshape(-1, 4), panel.shrunk(radius)
    hull, inset, tried = HullSides.of(panel.corners), CORNER_LEFT * radius, 0
    for turn, core in some_rectangles(inner, rng) if not inner.is_empty else []:
        across = np.array([math.cos(turn), math.sin(turn)])
        middle = core.mean(axis=0)
        if rng.uniform() < 0.5:  # as narrow as its corners let it be
            core = core - np.outer((core - middle) @ across, across) * rng.uniform(0.99, 1.0)
        x, y = sides_of(turn, core, np.zeros(2))
        if np.ptp(x) > np.ptp(y):
            continue
        tried += 1
        spread = 1 + 2 * (radius - inset) / np.maximum([np.ptp(x), np.ptp(y)], 1e-9)
        way = core - middle
        along = np.array([-across[1], across[0]])
        corners = middle + np.outer(way @ across * spread[0], across)
        corners = corners + np.outer(way @ along * spread[1], along)
        sizes = Sizes.of(Wish(), 0.0)
        full = np.array([np.ptp(y), np.ptp(x)]) + 2 * radius
        score = float(sizes.most(full[0], full[1]))
        tight = asking(float(full[0]), float(full[1]))
        for _ in range(12):
            box = box_round(turn, corners, rng)
            target = score * (1 - 10.0 ** rng.uniform(-4, -0.3))
            for parts in (box, box.halved().halved()):
                left, most = Narrowing(edges, sizes, inset, target, left=radius).judged(parts)
                rows = [i for i in range(len(left)) if holds(left, i, turn, corners)]
                assert rows, f"{score} left its box"
                assert most[rows].max() >= score * (1 - 1e-9)
                for i in rows:
                    one = left.take(np.array([i]))
                    for each in (sizes, tight):
                        assert relaxed_bound(one, hull, each, inset) >= score * (1 - 1e-9)
    assert tried > 0 or inner.is_empty or len(some_rectangles(inner, rng)) == 0


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
    edges = Region.from_rings(ring).edges.reshape(-1, 4)
    frames = Frames(np.array([turn]), np.array([[shift, shift]]))
    cut = strips(frames, np.array([400 * share * 0.5]), np.array([400 * share]), edges)
    gaps = cut.gaps(np.array([-9e3]), np.array([9e3]), np.array([1.0]))
    assert len(gaps.start) == 1
    assert gaps.start[0] == pytest.approx(0.0, abs=1e-8)
    assert gaps.end[0] == pytest.approx(700.0, abs=1e-8)
