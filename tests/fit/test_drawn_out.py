"""Lines of edges, drawn out as far as no wood lies in them."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from panelwright.layout.fit.convex.sight import cross_within
from panelwright.layout.fit.wood.edges import drawn_out, outermost
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region, convex_hull

FAR = 3000.0


def ragged(rng: np.random.Generator) -> Region:
    """Return a star of uneven rays, or a step-sided board, with two round holes."""
    if rng.random() < 0.5:
        ways = np.sort(rng.uniform(0, math.tau, 12))
        ring = np.stack([np.cos(ways), np.sin(ways)], axis=1) * rng.uniform(200, 600, (12, 1))
    else:
        steps = np.repeat(rng.choice([200.0, 260.0, 400.0], 6), 2)
        across = np.concatenate([np.repeat(np.arange(7) * 200.0, 2)[1:-1]])
        ring = np.vstack([[[1200.0, 0.0]], np.stack([across, steps], axis=1)[::-1], [[0.0, 0.0]]])
    holes = [Region.disk(Point(*place), 20.0, around=True) for place in ((90, 90), (-60, 40))]
    whole = Region.from_rings(ring).minus(*holes)
    return max(whole.pieces, key=lambda piece: piece.area)


def with_touching_holes(first: int, second: int) -> Region:
    """Return a board with two holes that share a corner, their rings begun so far round."""
    holes = [[[0, 0], [-100, 20], [-200, 120]], [[0, 0], [-200, -120], [-100, -20]]]
    board = np.array([[-600.0, -400], [600, -400], [600, 400], [-600, 400]])
    by = zip(holes, (first, second), strict=True)
    return Region.from_rings(board, [np.roll(np.array(h, float), k, axis=0) for h, k in by])


PANELS = [
    *(pytest.param(ragged(np.random.default_rng(seed)), id=str(seed)) for seed in range(30)),
    *(pytest.param(with_touching_holes(k // 3, k % 3), id=f"touching {k}") for k in range(9)),
]


@pytest.mark.parametrize("wood", PANELS)
def test_no_wood_lies_in_a_line_drawn_out_and_wood_at_its_ends(wood: Region) -> None:
    """Each goes on to where it meets wood again, by what shapely says, and no farther."""
    shape = shapely.Polygon(wood.exterior, wood.holes)
    within, edges = shape.buffer(-1e-4), wood.edges
    free = outermost(edges, convex_hull(wood.corners))
    drawn, longer = drawn_out(edges, free, FAR), 0
    for edge, line, is_free in zip(edges, drawn, free, strict=True):
        assert not within.intersects(shapely.LineString(line))
        unit = (edge[1] - edge[0]) / math.dist(*edge)
        for end, own, way in zip(line, edge, (-unit, unit), strict=True):
            more = math.dist(end, own)
            assert np.allclose(end, own + more * way, atol=1e-6)
            longer += more > 1.0
            if not is_free and more < FAR - 0.1:
                on = shapely.LineString([end - 0.01 * way, end + 0.01 * way])
                assert shape.intersects(on)
            else:
                assert more == pytest.approx(FAR)
    assert longer >= 2 * np.count_nonzero(free)


def spanned(corners: NDArray[np.float64], rng: np.random.Generator) -> NDArray[np.float64]:
    """Return the corners of a span and places within, (k, 2)."""
    shares = rng.dirichlet(np.full(len(corners), 0.5), 300)
    return np.vstack([corners, shares @ corners])


def test_ways_cross_a_line_between_its_ends() -> None:
    """Where it is said of a line, no way between two spans leads past an end: 90,000 are tried."""
    rng, known = np.random.default_rng(7), 0
    square = np.array([[-1.0, -1.0], [-1.0, 1.0], [1.0, -1.0], [1.0, 1.0]])
    for _ in range(400):
        line = np.array([[0.0, rng.uniform(-3, 1)], [0.0, rng.uniform(1, 3)]])
        inner = square * rng.uniform(0.05, 1.0, 2) + [rng.uniform(-3, -0.5), rng.uniform(-1, 1)]
        outer = square * rng.uniform(0.05, 1.0, 2) + [rng.uniform(-1, 3), rng.uniform(-1, 1)]
        if cross_within(line[None], inner, outer)[0]:
            known += 1
            here, there = spanned(inner, rng)[:, None], spanned(outer, rng)[None]
            assert (here[..., 0] < 0).all()
            part = -here[..., 0] / np.where(there[..., 0] > 0, there[..., 0] - here[..., 0], np.inf)
            up = (here[..., 1] + part * (there[..., 1] - here[..., 1]))[part > 0]
            assert ((up >= line[0, 1] - 1e-9) & (up <= line[1, 1] + 1e-9)).all()
    assert 40 < known < 360
