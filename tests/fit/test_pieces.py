"""Pieces as found: known answers, exact areas, laws, and a bound that nothing beats."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import LayoutError, NothingFitsError
from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.live_edge.piece import Cuts
from panelwright.layout.fit.live_edge.round_ends import Box, HalfRoundPieces
from panelwright.layout.fit.live_edge.square_ends import SquarePieces
from panelwright.layout.fit.wish import Ends, Keeping
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc, Line
from panelwright.layout.geometry.tolerance import PROOF_ALLOWANCE
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    round_place,
)
from panelwright.layout.panel.named_edges import edge_named

SHOWING = frozenset({Spoils.SHOWING})
BOTH, ONE = ("AB", "CD"), ("AB",)
BOARD = Panel(rectangular_outline(1400, 600), 30)


def wished(panel: Panel, names: tuple[str, ...], ends: Ends = Ends.SQUARE, **more: object) -> Wish:
    """Return the wish for a piece between edges."""
    edges = tuple(edge_named(panel, name).path for name in names)
    return Wish(("piece as found",), keeping=Keeping(edges, ends), **more)  # type: ignore[arg-type]


def best(panel: Panel, wish: Wish, margin: float = 0.0) -> Fit:
    """Return the best piece, and hold it to its proof: but for a hair it lies in the wood."""
    assert wish.keeping is not None
    wood = panel.sound_for(Spoils.SHOWING, margin=margin, kept=wish.keeping.edges)
    fit = best_fits(wood, wish)[0]
    whole = Region.from_rings(fit.placement.of(fit.core.outer()))
    assert wood.inner.grown(PROOF_ALLOWANCE).holds(whole)
    assert fit.outline.name == "piece as found"
    assert fit.gap is not None and fit.gap <= wish.gap
    return fit


def slab(rng: np.random.Generator, count: int = 8, knots: int = 2) -> Panel:
    """Return a slab of two live edges with some knots."""
    x = np.linspace(0.0, 2000.0, count)
    lower = [Point(float(a), float(b)) for a, b in zip(x, rng.uniform(-60, 0, count), strict=True)]
    upper = [
        Point(float(a), float(b))
        for a, b in zip(x[::-1], rng.uniform(650, 720, count), strict=True)
    ]
    panel = Panel(outline_through([*lower, *upper]), 50)
    for i in range(knots):
        at = Point(*(float(v) for v in rng.uniform((50, -50), (1950, 700))))
        size = float(rng.uniform(10, 60))
        panel = panel.with_defect(Defect(f"knot {i}", round_place(at, size), SHOWING, clear=5))
    return panel


slabs = st.integers(0, 10_000).map(lambda seed: slab(np.random.default_rng(seed)))
ENDS = list(Ends)


@pytest.mark.parametrize("names", [BOTH, ONE])
def test_a_board_gives_itself(names: tuple[str, ...]) -> None:
    """With square ends its whole face, and half-round ones take the corners off it."""
    square = best(BOARD, wished(BOARD, names))
    assert square.outline.area == pytest.approx(1400 * 600, rel=2e-5)
    rounded = best(BOARD, wished(BOARD, names, Ends.HALF_ROUND))
    assert rounded.outline.area == pytest.approx(800 * 600 + math.pi * 300**2, rel=1e-3)


def test_a_margin_is_kept_at_the_ends_of_a_board_alone() -> None:
    """Between two kept edges nothing is lost; on one the ripped side keeps the margin too."""
    assert best(BOARD, wished(BOARD, BOTH), 10).outline.area == pytest.approx(1380 * 600, rel=1e-5)
    assert best(BOARD, wished(BOARD, ONE), 10).outline.area == pytest.approx(1380 * 590, rel=1e-4)


def test_what_stands_on_the_base_of_a_triangle_is_half_of_it() -> None:
    """A piece on a straight edge is a rectangle: at most half the triangle (Euclid VI.27)."""
    corners = [Point(0, 0), Point(1200, 0), Point(300, 800)]
    fit = best(
        Panel(outline_through(corners), 30), wished(Panel(outline_through(corners), 30), ONE)
    )
    assert fit.outline.area == pytest.approx(1200 * 800 / 4, rel=1e-4)


def test_on_the_diameter_of_a_half_disk_it_is_the_radius_squared() -> None:
    """2r cos t by r sin t is greatest at 45° (first-year calculus)."""
    path = Path((Line(Point(-500, 0), Point(500, 0)), Arc(Point(0, 0), 500, 0.0, math.pi)))
    panel = Panel(path, 30)
    keeping = Keeping((Path(path.segments[:1]),))
    fit = best(panel, Wish(("piece as found",), keeping=keeping))
    assert fit.outline.area == pytest.approx(500**2, rel=1e-4)


def test_bowed_edges_are_kept_as_they_are() -> None:
    """Its area is that under both arcs, integrated."""
    panel = Panel(rectangular_outline(1400, 600, bows=(20, 0, -30, 0)), 30)
    fit = best(panel, wished(panel, BOTH, limits=Limits(length=Span(greatest=900))))
    half = fit.outline.length / 2
    x = np.linspace(-half, half, 200_001) + fit.placement.centre.x - 700
    low = 700**2 / 40 + 10
    high = 700**2 / 60 + 15
    widths = 600 + (np.sqrt(low**2 - x**2) - (low - 20)) - (np.sqrt(high**2 - x**2) - (high - 30))
    area = float(((widths[1:] + widths[:-1]) / 2 * np.diff(x)).sum())
    assert fit.outline.length == pytest.approx(900, abs=0.01)
    assert fit.outline.area == pytest.approx(area, rel=1e-7)
    assert sum(isinstance(s, Arc) for s in fit.outline.path().segments) == 2


def taper(slope: float) -> Panel:
    """Return a slab 2000 long that tapers from 600 by a slope on either side."""
    drop = 2000 * slope
    return Panel(
        outline_through([Point(0, 0), Point(2000, drop), Point(2000, 600 - drop), Point(0, 600)]),
        40,
    )


@pytest.mark.parametrize("slope", [0.02, 0.05, 0.1])
def test_a_tapering_slab_with_a_limited_length_is_cut_at_its_wide_end(slope: float) -> None:
    """The trapezium of length 900 at the wide end, by the mean of its two widths."""
    panel = taper(slope)
    fit = best(panel, wished(panel, BOTH, limits=Limits(length=Span(greatest=900))))
    assert fit.outline.area == pytest.approx(900 * (600 - 900 * slope), rel=1e-5)


@pytest.mark.parametrize("slope", [0.0, 0.02, 0.05, 0.1])
def test_half_round_ends_of_a_tapering_slab(slope: float) -> None:
    """The circles touch both ends of the slab; the sides cut two small segments off the far one.

    A chord that leaves a tangent by the angle φ cuts off a segment of central angle 2φ (Euclid
    III.32). With radius 300 − kx at x the near circle touches where x = 300/(1 + k), the far one
    where x = 1700/(1 − k).
    """
    panel = taper(slope)
    fit = best(panel, wished(panel, BOTH, Ends.HALF_ROUND, gap=5e-4))
    near, far = 300 / (1 + slope), 1700 / (1 - slope)
    radii = [300 - slope * near, 300 - slope * far]
    phi = math.atan(slope)
    area = (far - near) * sum(radii) + math.pi / 2 * sum(r * r for r in radii)
    area -= radii[1] ** 2 * (2 * phi - math.sin(2 * phi))
    assert fit.bound is not None and fit.bound.value >= area * (1 - 1e-6)
    assert fit.outline.area == pytest.approx(area, rel=6e-4)
    assert fit.outline.length == pytest.approx(2000, abs=1)


@pytest.mark.heavy
@pytest.mark.parametrize("ends", ENDS)
@pytest.mark.parametrize("names", [BOTH, ONE])
@settings(max_examples=2)
@given(panel=slabs, at=st.floats(200, 1800))
def test_a_defect_never_helps(ends: Ends, names: tuple[str, ...], panel: Panel, at: float) -> None:
    """Found with one more knot, or with a limit, is no more than the bound without."""
    wish = wished(panel, names, ends, gap=0.001 if ends is Ends.SQUARE else 0.01)
    free = best(panel, wish)
    assert free.bound is not None
    knot = Defect("one more", round_place(Point(at, 300), 60), SHOWING, clear=5)
    for other, tighter in (
        (panel.with_defect(knot), wish),
        (panel, replace(wish, limits=Limits(length=Span(600, 1100), width=Span(500, 770)))),
    ):
        try:
            assert best(other, tighter).score <= free.bound.value
        except NothingFitsError:
            continue


@settings(max_examples=5)
@given(slabs, st.floats(-3, 3), st.sampled_from([BOTH, ONE]))
def test_what_moves_the_panel_moves_the_piece(
    panel: Panel, turn: float, names: tuple[str, ...]
) -> None:
    """Turned and moved, a panel gives the same within the gap, and the piece turns with it."""
    move = Placement(Point(70, -30), turn)
    wish = wished(panel, names)
    assert wish.keeping is not None
    edges = tuple(path.placed(move) for path in wish.keeping.edges)
    moved = replace(
        panel,
        boundary=panel.boundary.placed(move),
        defects=tuple(replace(d, place=d.place.placed(move)) for d in panel.defects),
    )
    one, other = best(panel, wish), best(moved, replace(wish, keeping=Keeping(edges)))
    assert other.score == pytest.approx(one.score, rel=1.1e-3)
    if names == BOTH:
        assert other.score == pytest.approx(one.score, rel=1e-5)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("names", [BOTH, ONE])
@pytest.mark.parametrize("goal", [Goal.AREA, Goal.LENGTH, Goal.WIDTH])
def test_no_half_round_piece_beats_the_bound_of_its_box(
    seed: int, names: tuple[str, ...], goal: Goal
) -> None:
    """Whatever box holds a piece that fits, large or small, its bound is no lower."""
    rng = np.random.default_rng(seed)
    panel = slab(rng, int(rng.integers(2, 12)), knots=1)
    limits = Limits(length=Span(400, float(rng.uniform(900, 3000))), width=Span(20, 900))
    wish = wished(panel, names, Ends.HALF_ROUND, goal=goal, limits=limits)
    assert wish.keeping is not None
    pieces = HalfRoundPieces(panel.sound_for(Spoils.SHOWING, kept=wish.keeping.edges), wish)
    for _ in range(150):
        left, right = sorted(float(v) for v in rng.uniform(0, 2000, 2))
        top = float(rng.uniform(*pieces.tops))
        cuts = Cuts(left, right, top)
        score = pieces.worth(cuts)
        if score <= 0:
            continue
        size = 300 * 10.0 ** rng.uniform(-4, 0)
        stretches = [
            (max(v - float(rng.uniform(0, size)), low), min(v + float(rng.uniform(0, size)), high))
            for v, (low, high) in ((left, (0, 2000)), (right, (0, 2000)), (top, pieces.tops))
        ]
        assert pieces.bound(Box(*stretches), 0.0) >= score * (1 - 1e-7)


@pytest.mark.parametrize("seed", range(10))
def test_no_square_piece_beats_the_bound_of_its_heights(seed: int) -> None:
    """Every window that is free at a height is below the bound of all heights round it."""
    rng = np.random.default_rng(seed)
    panel = slab(rng, int(rng.integers(2, 12)))
    lengths = Span(200, float(rng.uniform(500, 2500)))
    goal = [Goal.AREA, Goal.LENGTH, Goal.WIDTH][seed % 3]
    wish = wished(panel, ONE, goal=goal, limits=Limits(length=lengths, width=Span(30, 700)))
    assert wish.keeping is not None
    pieces = SquarePieces(panel.sound_for(Spoils.SHOWING, kept=wish.keeping.edges), wish)
    for top in rng.uniform(50, 720, 25):
        found = pieces._best(float(top))
        if found is not None:
            around = rng.uniform(0, 200, 2) * 10.0 ** rng.uniform(-4, 0)
            box = (float(top - around[0]), float(top + around[1]))
            assert pieces.bound(box, 0.0) >= found[0] * (1 - 1e-7)


def test_the_widest_piece_has_the_greatest_least_width() -> None:
    """On a taper the widest piece 500 long ends 500 from the wide end."""
    panel = taper(0.05)
    fit = best(panel, wished(panel, BOTH, goal=Goal.WIDTH, limits=Limits(length=Span(500))))
    assert fit.score == pytest.approx(600 - 2 * 0.05 * 500, abs=0.01)


def test_a_least_width_ends_the_longest_piece() -> None:
    """On a taper it reaches to where the slab is that wide."""
    panel = taper(0.05)
    limits = Limits(width=Span(450))
    fit = best(panel, wished(panel, BOTH, goal=Goal.LENGTH, limits=limits))
    assert fit.score == pytest.approx(1500, abs=0.1)


def test_a_piece_covers_avoids_and_goes_round() -> None:
    """A point to avoid splits a board; the side with the point to cover is taken."""
    wish = wished(BOARD, BOTH, covers=(Point(800, 300),), avoids=(Point(500, 300),))
    assert best(BOARD, wish).outline.area == pytest.approx(900 * 600, rel=1e-4)
    plug = Region.disk(Point(700, 300), 30, around=True)
    assert wish.keeping is not None
    wood = BOARD.sound_for(Spoils.SHOWING, kept=wish.keeping.edges)
    whole = best_fits(wood, replace(wish, covers=(), avoids=()), islands=[plug])[0]
    assert whole.outline.length == pytest.approx(1400, abs=0.01)


def test_what_no_piece_can_be_is_refused_with_what_to_do() -> None:
    """Each wish that has no best piece has its message."""
    wish = wished(BOARD, BOTH)
    wood = BOARD.sound_for(Spoils.SHOWING)
    zigzag = [Point(0, 0), Point(900, 5), Point(300, 20), Point(1400, 30)]
    for change, message in (
        ({"lipping": 6.0}, "not lipped"),
        ({"goal": Goal.NEAREST}, "instead of the nearest"),
        ({"goal": Goal.WIDTH}, "needs a least length"),
        ({"limits": Limits(ratio=Span(2, 3))}, "no one ratio"),
        (
            {
                "limits": Limits(
                    grain_deg=math.degrees(math.pi / 2), most_turn_deg=math.degrees(0.1)
                )
            },
            "off the grain",
        ),
        ({"keeping": None}, "needs an edge to keep"),
        ({"keeping": Keeping(wished(BOARD, ("AB", "BC")).keeping.edges)}, "do not face"),  # type: ignore[union-attr]
        ({"keeping": Keeping((Path.through(zigzag),))}, "turns back on itself"),
    ):
        with pytest.raises(LayoutError, match=message):
            best_fits(wood, replace(wish, **change))  # type: ignore[arg-type]
    with pytest.raises(LayoutError, match="one kept edge needs a least width"):
        best_fits(wood, wished(BOARD, ONE, goal=Goal.LENGTH))
