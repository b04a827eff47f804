"""Hard woods: a hundred holes, thousands of corners, cuts, needles, ties and plateaus."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from panelwright.layout.fit import Limits, Span, Wish, best_fits
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.d_end import DEndKind
from panelwright.layout.fit.convex.kind import Kind
from panelwright.layout.fit.convex.oval import OvalKind
from panelwright.layout.fit.convex.superellipse import SuperellipseKind
from panelwright.layout.fit.convex.wood import Wood
from panelwright.layout.fit.wood.round_holes import Disks
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region, union
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel.sound import SoundWood
from panelwright.layout.plan.fitting import fits_of, ground_of

Array = NDArray[np.float64]
GAP = 0.001
SHAPES = ("circle", "oval", "capsule", "rectangle", "rounded rectangle")


def hole(x: float, y: float, radius: float = 4.0, corners: int = 24) -> Array:
    """Return the ring of a drilled hole."""
    angle = np.arange(corners) * math.tau / corners
    return np.stack([x + radius * np.cos(angle), y + radius * np.sin(angle)], axis=1)


def board(length: float, width: float, *holes: Array) -> SoundWood:
    """Return a rectangular board with holes."""
    ring = np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]])
    return SoundWood.exact(Region.from_rings(ring, holes))


def drilled() -> SoundWood:
    """Return a board with a hundred screw holes along its edges and in two rows."""
    rows = [hole(30 + 60 * i, y) for i in range(33) for y in (40.0, 960.0)]
    rows += [hole(x, 70 + 54 * i) for i in range(17) for x in (90.0, 1910.0)]
    return board(2000.0, 1000.0, *rows)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_hundred_screw_holes_keep_the_gap(shape: str) -> None:
    """A board with a hundred holes is settled to the gap within some hundred boxes."""
    wood = drilled()
    assert len(wood.outer.holes) == 100
    fit = best_fits(wood, Wish((shape,), most_steps=900))[0]
    assert fit.gap is not None and fit.gap <= GAP
    assert wood.inner.holds(Region.from_rings(fit.points()))


@pytest.mark.heavy
@pytest.mark.parametrize("shape", SHAPES)
def test_two_thousand_corners_keep_the_gap(shape: str) -> None:
    """An outline of two thousand corners is settled like any other."""
    angle = np.arange(2000) * math.tau / 2000
    ripple = 25 * np.cos(5 * angle + 0.3) + 10 * np.sin(11 * angle)
    ring = np.stack([(900 + ripple) * np.cos(angle), (550 + ripple) * np.sin(angle)], axis=1)
    fit = best_fits(SoundWood.exact(Region.from_rings(ring)), Wish((shape,), most_steps=900))[0]
    assert fit.gap is not None and fit.gap <= GAP


KINDS = [CapsuleKind(), DEndKind(), OvalKind(), SuperellipseKind(2.7)]


@pytest.mark.parametrize("kind", KINDS)
def test_a_disk_is_touched_no_sooner_than_its_hole(kind: Kind) -> None:
    """Radii at which tops touch the disk in a hole are those of its edges, or a hair more."""
    rng = np.random.default_rng(4)
    wood = board(400.0, 400.0, hole(150.0, 220.0), hole(300.0, 90.0, 12.0, 90))
    edges = wood.outer.edges
    disks = Disks.of(wood.outer)
    assert disks.radii == pytest.approx([4 * math.cos(math.pi / 24), 12 * math.cos(math.pi / 90)])
    centres = rng.uniform(0, 400, (200, 2))
    for turn, share in zip(rng.uniform(-2, 2, 6), rng.uniform(0, 1, 6), strict=True):
        p = share * (200.0 if kind.name in ("capsule", "D end") else 2.0)
        exact = kind.distances(turn, p, edges[disks.edges], centres).min(axis=1)
        coarse = kind.disk_radii(p, *disks.ways(turn, centres), disks.radii).min(axis=1)
        clear = wood.outer.holds_points(centres) & (exact > 20)
        assert np.all(coarse[clear] >= exact[clear] - 1e-9)
        assert np.all(coarse[clear] <= exact[clear] * 1.1 + 0.2)


@pytest.mark.parametrize("seed", [2, 15, 37])
def test_slim_ovals_among_holes_wider_than_their_ends_are_settled(seed: int) -> None:
    """The point of a hole that an oval meets first is not the one towards its middle."""
    rng, holes = np.random.default_rng(seed), list[list[float]]()
    for x, y, radius in rng.uniform([20, 20, 9], [620, 180, 13], (14, 3)).tolist():
        if all(math.hypot(x - a, y - b) > radius + r + 2 for a, b, r in holes):
            holes.append([x, y, radius])
    wood = board(640.0, 200.0, *(hole(*row, 90) for row in holes))
    fit = best_fits(wood, Wish(("oval",), most_steps=400))[0]
    assert fit.gap is not None and fit.gap <= GAP


def test_only_round_holes_are_taken_as_disks() -> None:
    """The outline itself, a square hole and a notched one keep their edges."""
    notched = hole(300.0, 300.0, 30.0, 40)
    notched[3] = 300.0
    square = np.array([[80.0, 80.0], [120.0, 80.0], [120.0, 120.0], [80.0, 120.0]])
    wood = board(400.0, 400.0, square, notched)
    assert len(Disks.of(wood.outer).radii) == 0
    disk = Region.from_rings(hole(0.0, 0.0, 500.0, 64))
    assert len(Disks.of(disk).radii) == 0


def test_notches_and_holes_that_meet_are_taken_as_disks() -> None:
    """The disks of all three are free of wood, but one that wood stands in is none."""
    cut = [hole(*place, 12.0, 40) for place in ((200, 200), (212, 205), (0, 90), (300, 300))]
    wood = board(400.0, 400.0).outer.minus(*(Region.from_rings(ring) for ring in cut))
    tongue = np.array([[290.0, 280.0], [300.0, 280.0], [300.0, 300.0], [290.0, 300.0]])
    wood = union([wood, Region.from_rings(tongue)])
    disks = Disks.of(wood)
    assert sorted(np.round(disks.places, 6).tolist()) == [[0, 90], [200, 200], [212, 205]]
    for place, radius in zip(disks.places, disks.radii, strict=True):
        disk = Region.disk(Point(*place), float(radius), around=False)
        assert wood.meet(disk).area < 1e-6
    assert len(wood.edges) - len(disks.edges) < 60


@pytest.mark.parametrize("width", [0.1, 0.2, 0.4])
def test_beyond_a_thin_round_slot_is_wood_again(width: float) -> None:
    """A ring shake is hollow towards its middle like the rim of a hole, and no disk lies there."""
    ways = np.radians(np.linspace(-150, 150, 90)), np.radians(np.linspace(148, -148, 113))
    rims = [
        r * np.column_stack([np.cos(w), np.sin(w)])
        for r, w in zip((150, 150 - width), ways, strict=True)
    ]
    slot = Region.from_rings(np.concatenate(rims))
    wood = Region.from_rings(160.0 * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])).minus(slot)
    assert not wood.holds_points(Disks.of(wood).places).any()


@given(seed=st.integers(0, 10**6), corners=st.sampled_from([8, 12, 24]))
@settings(max_examples=25)
def test_no_point_lies_deeper_than_the_table_says(seed: int, corners: int) -> None:
    """True depths, by shapely, of points near and in round holes, at edges and anywhere."""
    rng = np.random.default_rng(seed)
    places = rng.uniform(30.0, 370.0, (12, 2))
    radii = rng.uniform(3.0, 12.0, 12)
    panel = board(400.0, 400.0).outer
    for (x, y), radius in zip(places, radii, strict=True):
        panel = panel.minus(Region.from_rings(hole(x, y, radius, corners)))
    wood = Wood(SoundWood.exact(panel))
    around = rng.uniform(-1.3, 1.3, (40, 12, 2)) * radii[:, None] + places
    points = np.concatenate([around.reshape(-1, 2), rng.uniform(-20, 420, (2000, 2))])
    points -= np.array([wood.middle.x, wood.middle.y])
    away = shapely.distance(wood.outer.shape.boundary, shapely.points(points))
    depth = np.where(shapely.intersects_xy(wood.outer.shape, *points.T), away, -away)
    assert len(wood.pieces[0].disks.radii) > 0
    assert np.all(wood.depths.most(points) >= depth - 1e-9)


def test_wood_in_the_hole_of_other_wood_counts() -> None:
    """A round piece that lies in the round hole of a ring gives its own largest circle."""
    ring = Region.from_rings(hole(0.0, 0.0, 500.0, 128), [hole(0.0, 0.0, 420.0, 128)])
    piece = Region.from_rings(hole(0.0, 0.0, 400.0, 128))
    fit = best_fits(SoundWood.exact(ring.joined(piece)), Wish(("circle",)))[0]
    assert fit.outline.length == pytest.approx(800 * math.cos(math.pi / 128), abs=0.1)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_slit_right_across_leaves_two_boards(shape: str) -> None:
    """Cut in two, a board gives what the larger part gives alone."""
    slit = Region.from_rings(np.array([[700.0, -1.0], [710.0, -1.0], [710.0, 601.0], [700, 601.0]]))
    whole = board(1800.0, 600.0).outer
    cut = best_fits(SoundWood.exact(whole.minus(slit)), Wish((shape,)))[0]
    alone = best_fits(board(1090.0, 600.0), Wish((shape,)))[0]
    assert cut.score == pytest.approx(alone.score, rel=GAP)
    assert cut.placement.centre.x > 710.0
    assert cut.gap is not None and cut.gap <= GAP


@pytest.mark.parametrize("shape", SHAPES)
def test_a_slanting_slit_is_kept_clear_of(shape: str) -> None:
    """A slit a millimetre wide, at no angle of any grid, lies outside the best top."""
    way = np.array([math.cos(0.37), math.sin(0.37)]) * 300
    side = np.array([-way[1], way[0]]) / 600
    ring = np.array([[700.0, 400.0]]) + np.stack([-way - side, way - side, way + side, -way + side])
    wood = board(1500.0, 800.0, ring)
    fit = best_fits(wood, Wish((shape,)))[0]
    assert wood.inner.holds(Region.from_rings(fit.points()))
    assert fit.gap is not None and fit.gap <= GAP


@pytest.mark.parametrize("shape", ["oval", "rectangle"])
def test_a_needle_gives_a_thin_top(shape: str) -> None:
    """A triangle a hundred times as long as wide is searched to the end, not by guess."""
    wood = SoundWood.exact(Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [0.0, 20.0]])))
    fit = best_fits(wood, Wish((shape,)))[0]
    exact = {"rectangle": 10_000.0, "oval": math.pi / (3 * math.sqrt(3)) * 20_000}[shape]
    assert fit.score == pytest.approx(exact, rel=2 * GAP)
    assert fit.bound is not None and fit.bound.value >= exact * (1 - 1e-9)


@pytest.mark.parametrize("shape", ["capsule", "oval", "rounded rectangle"])
def test_a_ratio_of_twenty_is_kept(shape: str) -> None:
    """Tops at least twenty times as long as wide are found in a square, along a diagonal."""
    limits = Limits(ratio=Span(20.0), corner_radius=Span(5.0, 5.0))
    fit = best_fits(board(1000.0, 1000.0), Wish((shape,), limits=limits))[0]
    assert fit.outline.length / fit.outline.width >= 20 * (1 - 1e-4)
    assert fit.outline.length > 1250.0
    assert abs(math.remainder(fit.placement.turn, math.pi / 2)) == pytest.approx(
        math.pi / 4, abs=0.01
    )


def test_two_answers_as_good_as_each_other_are_told_apart_alike() -> None:
    """Of both diagonals of a square the same one is picked each time."""
    limits = Limits(ratio=Span(20.0))
    wishes = [Wish(("capsule",), limits=limits) for _ in range(2)]
    first, second = (best_fits(board(1000.0, 1000.0), wish)[0] for wish in wishes)
    assert first == second


@pytest.mark.parametrize("shape", SHAPES)
def test_a_narrow_neck_joins_no_lobes(shape: str) -> None:
    """Two lobes joined by a neck give what the larger lobe gives, neck and all."""
    ring = np.array(
        "0,0 900,0 900,380 1000,380 1000,100 1700,100 1700,700 1000,700 1000,420 900,420 "
        "900,800 0,800".replace(",", " ").split(),
        dtype=float,
    ).reshape(-1, 2)
    wood = SoundWood.exact(Region.from_rings(ring))
    fit = best_fits(wood, Wish((shape,)))[0]
    alone = best_fits(board(900.0, 800.0), Wish((shape,)))[0]
    assert fit.bound is not None
    assert alone.score * (1 - GAP) <= fit.score <= fit.bound.value
    assert fit.placement.centre.x < 900.0
    assert fit.gap is not None and fit.gap <= GAP


@pytest.mark.parametrize("shape", SHAPES)
def test_a_top_that_can_slide_is_settled_at_once(shape: str) -> None:
    """In a long strip a nearly round top is as good anywhere, and that is known soon."""
    limits = Limits(ratio=Span(1.0, 1.02), corner_radius=Span(10.0, 10.0))
    fit = best_fits(board(3000.0, 300.0), Wish((shape,), limits=limits))[0]
    assert fit.gap is not None and fit.gap <= GAP
    assert fit.steps < 1000


@pytest.mark.parametrize("shape", ["capsule", "oval"])
def test_a_point_among_holes_is_covered(shape: str) -> None:
    """A point beside a screw hole is covered, and what is found stays below the free bound."""
    wood, point = drilled(), Point(110.0, 88.0)
    free = best_fits(wood, Wish((shape,), most_steps=300))[0]
    held = best_fits(wood, Wish((shape,), covers=(point,), most_steps=100))[0]
    assert free.bound is not None
    assert held.score <= free.bound.value
    assert Region.from_rings(held.points()).distance_to(Region.at(point)) <= 0.01


def test_an_edge_that_is_kept_among_many_holes() -> None:
    """The rectangle on the edge is the largest of any width, by where each hole ends its length."""
    holes = [(90 + 41.7 * k % 1620, 60 + 97.3 * k % 700, 3.0 + k % 4) for k in range(80)]
    rows = "\n".join(
        f'[[panel.defects]]\nkind = "hole"\nat = [{x}, {y}]\ndiameter = {2 * r}\nclear = 0'
        for x, y, r in holes
    )
    panel = f"[panel]\nthickness = 30\noutline = {{ length = 1800, width = 800 }}\n{rows}\n"
    job = read_job(panel + '[top]\nshape = "rectangle"\nkeep = ["AB"]\n')
    assert len(ground_of(job, job.panel).wood.outer.edges) > 10_000
    fit = fits_of(job)[0]

    def longest(width: float) -> float:
        blocked = [(0.0, 0.0), (1800.0, 1800.0)]
        for x, y, r in holes:
            half = math.sqrt(max(r * r - max(y - width, 0.0) ** 2, 0.0))
            blocked += [(x - half, x + half)] if y - r < width else []
        blocked.sort()
        reached = [0.0]
        for _, end in blocked:
            reached.append(max(reached[-1], end))
        return max(start - before for (start, _), before in zip(blocked, reached, strict=False))

    most = max(width * longest(width) for width in np.arange(1.0, 800.0, 0.25))
    assert fit.bound is not None
    assert most * (1 - 1e-3) <= fit.score <= fit.bound.value <= most * (1 + 5e-3)
