"""What is worked out among thousands of edges looks only at those that can matter."""

from __future__ import annotations

import numpy as np

from panelwright.layout.fit.wood.edges import EdgesAround, Segments
from panelwright.layout.geometry import Point, Region


def _many() -> tuple[np.ndarray, np.ndarray]:
    """Return 3,000 short edges and 200 points among them."""
    rng = np.random.default_rng(7)
    starts = rng.uniform(0, 2000, (3000, 2))
    edges = np.stack([starts, starts + rng.uniform(-5, 5, (3000, 2))], axis=1)
    return edges, rng.uniform(0, 2000, (200, 2))


def test_points_lie_as_deep_as_the_nearest_edge_is_far() -> None:
    """Among 40 holes points lie as far from the edges as each is measured, outside less than 0."""
    rng = np.random.default_rng(8)
    holes = [Region.disk(Point(*at), 30.0, around=True) for at in rng.uniform(0, 1000, (40, 2))]
    wood = Region.from_rings(np.array([(0, 0), (1000, 0), (1000, 1000), (0, 1000)])).minus(*holes)
    points = rng.uniform(-100, 1100, (500, 2))
    far = Segments.of(wood.edges).distances(points).min(axis=1)
    told = np.where(wood.holds_points(points), far, -far)
    np.testing.assert_allclose(wood.depths(points), told, rtol=0, atol=1e-9)


def test_a_box_asks_few_edges_and_misses_none() -> None:
    """The edges round a box hold all that come into it, and are no tenth of them all."""
    edges, points = _many()
    around = EdgesAround(edges)
    for place in points[:20]:
        found = around.within(place, 0.4, (150.0, 60.0))
        near = Segments.of(edges).distances(place[None])[0] <= 60
        assert len(found) < len(edges) / 10
        assert {*map(tuple, edges[near][:, 0])} <= {*map(tuple, found[:, 0])}
