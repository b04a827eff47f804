"""D ends: what they touch, what bounds them, and the largest on boards where it is known."""

from __future__ import annotations

import math

import numpy as np
import pytest
from box_attack import HAIR, star, unknowns

from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.convex.boxes import Box, patch_of
from panelwright.layout.fit.convex.d_end import DEndKind
from panelwright.layout.fit.convex.family import TwoSizes
from panelwright.layout.fit.convex.lift import Edges
from panelwright.layout.fit.convex.sizing import Sizing
from panelwright.layout.fit.convex.wood import Wood
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.outlines import DEnd, Rectangle
from panelwright.layout.panel.sound import SoundWood

KIND = DEndKind()


def _ring(p: float, radius: float, turn: float = 0.0, x: float = 0.0, y: float = 0.0) -> Region:
    top = DEnd.of_size(2 * (p + radius), 2 * radius)
    return Region.from_rings(Placement(Point(x, y), turn).of(top.outer(1e-4)))


def test_a_d_end_touches_an_edge_at_the_radius_told() -> None:
    """A hair smaller it is clear of the edge, a hair larger it is not, wherever the edge lies."""
    rng = np.random.default_rng(3)
    for _ in range(60):
        p, turn = float(rng.uniform(0, 300)), float(rng.uniform(-4, 4))
        ends = rng.uniform(-900, 900, (1, 2, 2))
        radius = float(KIND.distances(turn, p, ends, np.zeros((1, 2)))[0, 0])
        edge = Region.line(ends[0])
        if radius > 1.0:
            assert _ring(p, radius - 0.01, turn).distance_to(edge) > 0
        assert _ring(p, radius + 0.01, turn).distance_to(edge) == 0


def test_a_turned_d_end_holds_the_one_that_stands_for_its_box() -> None:
    """By factor and addend: shorter ones of a smaller radius lie in it at every turn of the box."""
    rng = np.random.default_rng(4)
    for _ in range(60):
        low, more, half = rng.uniform(0, 400), rng.uniform(0, 100), 10 ** rng.uniform(-3, -0.3)
        anchor, factor, addend, _ = KIND.growth(low, low + more, half)
        radius = addend + rng.uniform(5, 300)
        inner = _ring(anchor, (radius - addend) / factor - 0.01)
        outer = _ring(low + more * rng.uniform(), radius, half * rng.choice([-1.0, 1.0]))
        assert outer.holds(inner)


def test_no_d_end_of_a_box_beats_its_bound() -> None:
    """Many tops, half of them at corners of the box, on random panels."""
    rng, tried = np.random.default_rng(6), 0
    for _ in range(40):
        sizing = Sizing(KIND, Wish(("D end",)), DEnd.of_size(2.0, 1.0))
        family = TwoSizes(Wood(SoundWood.exact(star(rng))), sizing)
        piece = family.wood.pieces[0]
        low, turn = float(rng.uniform(0, 300)), float(rng.uniform(0, math.tau))
        high, half = low + 10 ** rng.uniform(-2, 2), 10 ** rng.uniform(-4, -0.7)
        spots = rng.uniform(piece.corners.min(axis=0), piece.corners.max(axis=0), (30, 2))
        found = [top for c in spots if (top := family.placed(c, turn, (low + high) / 2))]
        if not found:
            continue
        start = max(found, key=lambda top: top[0])
        middle, size, tried = np.array(start[1][:2]), 10 ** rng.uniform(-1, 2), tried + 1
        clear, half_sides = np.zeros(1, dtype=bool), (size, size)
        box = Box(turn, half, low, high, middle[None], turn, half_sides, clear, piece.edges)
        bound = family.bound(box, rng.uniform(0.5, 1.0) * start[0])
        for i in range(40):
            off = rng.uniform(-1, 1, 4)
            off = np.sign(off) if i % 2 else off
            centre = middle + turned(off[None, :2] * size, -turn)[0]
            shape = low + (off[3] + 1) / 2 * (high - low)
            top = family.placed(centre, turn + off[2] * half, shape)
            assert top is None or top[0] <= bound * (1 + HAIR)
    assert tried > 20


@pytest.mark.parametrize("turn", [0.0, 0.4])
def test_on_a_board_it_is_as_long_and_wide_as_the_board(turn: float) -> None:
    """Nothing is longer or wider than the board, and the D end is both."""
    board = Region.from_rings(Placement(Point(0, 0), turn).of(Rectangle(1400.0, 600.0).outer()))
    fit = best_fits(SoundWood.exact(board), Wish(("D end",)))[0]
    sizes = fit.outline.length, fit.outline.width
    assert sizes == pytest.approx((1400.0, 600.0), abs=0.01)
    assert fit.gap is not None and fit.gap <= 0.001
    limits = Limits(length=Span(0, 900), grain_deg=math.degrees(turn), most_turn_deg=5)
    short = best_fits(SoundWood.exact(board), Wish(("D end",), limits=limits))[0]
    assert short.outline.length == pytest.approx(900.0, abs=0.01)
    lipped = best_fits(SoundWood.exact(board), Wish(("D end",), lipping=3.0))[0]
    assert lipped.outline.length == pytest.approx(1406.0, abs=0.02)


def test_a_job_may_ask_for_one() -> None:
    """By its name in a job file."""
    panel = "[panel]\noutline = { length = 1400, width = 700 }\nthickness = 25\n"
    job = read_job(f'{panel}[top]\nshape = "D end"\n')
    assert job.wish.shapes == ("D end",)


def test_the_longest_thin_d_end_of_a_plain_board_is_found() -> None:
    """Its bound falls to the gap soon, for the disks along it tell where it cannot lie."""
    ring = [(307, 36), (450, 36), (450, 228), (307, 228), (307, 307), (0, 307), (0, 0), (307, 0)]
    wood = SoundWood.exact(Region.from_rings(np.array(ring, dtype=float)))
    fit = best_fits(wood, Wish(("D end",), goal=Goal.LENGTH, limits=Limits(width=Span(11.5))))[0]
    assert fit.bound is not None
    assert fit.score >= (1 - 1e-3) * fit.bound.value
    assert fit.steps < 200


@pytest.mark.heavy
def test_a_line_past_a_corner_counts_only_where_no_way_leads_round_its_end() -> None:
    """A top of the box that an edge's end touches near a corner keeps the rows of its box."""
    rng, rows_met, clear = np.random.default_rng(8), 0, np.zeros(1, dtype=bool)
    nothing = np.zeros(0, dtype=np.intp)
    for _ in range(3000):
        half_turn, size = 10 ** rng.uniform(-3, -0.5), 10 ** rng.uniform(-1, 1.5)
        low, turn = float(rng.uniform(0, 300)), float(rng.uniform(0, math.tau))
        high = low + float(10 ** rng.uniform(-2, 1.7))
        off = rng.choice([-1.0, 1.0, rng.uniform(-1, 1)], 4)
        lean, p = float(off[2]) * half_turn, (low + high) / 2 + float(off[3]) * (high - low) / 2
        radius = float(rng.uniform(20, 200))
        corner = np.array([-p - radius, radius * rng.choice([-1, 1])])
        inwards = np.array([1.0, -np.sign(corner[1])])
        touched = corner + inwards * rng.permutation([0.0, 10 ** rng.uniform(-1, 2)])
        edge = touched + np.array(
            [[0, 0], 10 ** rng.uniform(0, 3) * -inwards * rng.uniform(0, 1, 2)]
        )
        centre = turned(off[None, :2] * size, -turn)
        box = Box(turn, half_turn, low, high, np.zeros((1, 2)), turn, (size, size), clear, nothing)
        box.most, patch = radius * (1 + 10 ** rng.uniform(-6, 0.3)), patch_of(box)
        box.least = radius * float(rng.choice([0.0, 0.5, 0.9, 1 - 1e-9]))
        lift = KIND.lift(box, patch)
        ends = turned(turned(edge, -turn - lean) + centre - patch.middle, turn)[None]
        for lines in (ends, ends[:, ::-1]):
            local = Edges(lines[:, 0], lines, np.zeros(1, dtype=bool))
            rows, limits = lift.contacts(local, box.most)
            rows_met += len(rows)
            own = unknowns(lift, p, lean, radius, KIND.sizes(p, radius))
            x = np.append(turned(centre - patch.middle, turn)[0], own)
            assert (rows @ x <= limits + 1e-6).all()
    assert rows_met > 3000
