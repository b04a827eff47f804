"""What the bound of a cell rests on: how the radius of one top tells of every top of a box."""

from __future__ import annotations

import math

import numpy as np
import pytest
from box_attack import KINDS, has_shapes

from panelwright.layout.fit.convex.boxes import Box
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.polygon import ConvexKind
from panelwright.layout.fit.wood.edges import turned
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import OWN_OUTLINE, Freeform

SLIM = Freeform.through([Point(0.0, 0.0), Point(800.0, 0.0), Point(0.0, 300.0)], OWN_OUTLINE)
TRIANGLE = {"triangle": ConvexKind(SLIM)}


@pytest.mark.parametrize("name", [*KINDS, *TRIANGLE])
def test_no_top_of_a_box_outgrows_what_its_middle_tells(name: str) -> None:
    """Clear of an edge none is larger than told; and none smaller than told holds a point."""
    rng, kind = np.random.default_rng(4), (KINDS | TRIANGLE)[name]
    centre, clear, nothing = np.zeros((1, 2)), np.zeros(1, dtype=bool), np.zeros(0, dtype=np.intp)
    spine = isinstance(kind, CapsuleKind)
    close = 0
    for _ in range(300):
        half_turn = float(10 ** rng.uniform(-3, math.log10(math.pi / 4)))
        low = has_shapes(kind) * float(rng.uniform(0, 400) if spine else rng.uniform(0, 1.6))
        high = low + has_shapes(kind) * float(10 ** rng.uniform(-3, 0.3) * (200 if spine else 1))
        turn = float(rng.uniform(0, 7))
        edge = turned(np.array([[rng.uniform(60, 500), 0.0]]), rng.uniform(0, 7))
        edge = np.vstack([edge, edge + rng.normal(0, 10 ** rng.uniform(-3, 3), 2)])
        ring = np.stack([edge, edge[::-1]])
        anchor, factor, addend, _ = kind.growth(low, high, half_turn)
        most = kind.distances(turn, anchor, ring, centre).min() * factor + addend
        box = Box(turn, half_turn, low, high, centre, turn, (0, 0), clear, nothing)
        least = kind.held_radii(box, edge[:1], 0.0).max()
        for off in (*np.sign(rng.uniform(-1, 1, (4, 2))), *rng.uniform(-1, 1, (8, 2))):
            pose = turn + off[0] * half_turn, (low + high) / 2 + off[1] * (high - low) / 2
            radius = float(kind.distances(*pose, ring, centre).min())
            assert radius <= most + 1e-9
            assert kind.holding(*pose, edge[:1], centre)[0] >= least - 1e-9
            close += radius > 0.99 * most
    assert close > 30


@pytest.mark.parametrize("name", [*KINDS, *TRIANGLE])
def test_the_nearest_of_many_edges_is_met_where_each_alone_is(name: str) -> None:
    """Edges that cannot be met first are passed over; the first one is not."""
    rng, kind = np.random.default_rng(5), (KINDS | TRIANGLE)[name]
    edges = rng.uniform(-600, 600, (80, 1, 2)) + rng.normal(0, 60, (80, 2, 2))
    centres = rng.uniform(-600, 600, (40, 2))
    turn, p = float(rng.uniform(0, 7)), 0.7 * has_shapes(kind)
    first = kind.distances(turn, p, edges, centres).min(axis=1)
    for centre, least in zip(centres, first, strict=True):
        alone = [kind.distances(turn, p, edge[None], centre[None])[0, 0] for edge in edges]
        assert least == pytest.approx(min(alone))
