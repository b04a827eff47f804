"""The half-planes of single boxes, attacked edge by edge: tops that just touch one keep them."""

from __future__ import annotations

import numpy as np
import pytest
from box_attack import KINDS, has_shapes, unknowns

from panelwright.layout.fit.convex.boxes import Box, patch_of
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.lift import Edges
from panelwright.layout.fit.wood.edges import turned

TOPS = 30
"""In each box, half of them at its corners."""


@pytest.mark.parametrize("shape", KINDS)
def test_no_top_that_touches_an_edge_breaks_the_half_planes_of_its_box(shape: str) -> None:
    """Small boxes and large ones, edges long and short, near and far."""
    rng, kind, met = np.random.default_rng(11), KINDS[shape], 0
    spine = isinstance(kind, CapsuleKind)
    for _ in range(80):
        half_turn, size = 10 ** rng.uniform(-3, -0.2), 10 ** rng.uniform(-1, 1.8)
        low = has_shapes(kind) * float(rng.uniform(0, 400) if spine else rng.uniform(0, 1.6))
        high = low + has_shapes(kind) * float(10 ** rng.uniform(-3, 0.3) * (200 if spine else 1))
        ends = turned(np.array([[rng.uniform(60, 500), 0.0]]), rng.uniform(0, 7))
        ends = np.vstack([ends, ends + rng.normal(0, 10 ** rng.uniform(-1, 3), 2)])[None]
        turn, nothing = rng.uniform(0, 7), np.zeros(0, dtype=np.intp)
        clear, half = np.zeros(1, dtype=bool), (size, size)
        box = Box(turn, half_turn, low, high, np.zeros((1, 2)), turn, half, clear, nothing)
        off = rng.uniform(-1, 1, (TOPS, 4))
        off[::2] = np.sign(off[::2])
        centres = turned(off[:, :2] * size, -turn)
        shapes = low + (off[:, 3] + 1) / 2 * (high - low)
        leans = off[:, 2] * half_turn
        radii = np.array(
            [
                kind.distances(turn + lean, p, ends, centre[None])[0, 0]
                for lean, p, centre in zip(leans, shapes, centres, strict=True)
            ]
        )
        box.most, box.least = float(radii.max()), float(radii.min())
        patch = patch_of(box)
        lift = kind.lift(box, patch)
        seen = turned(ends - patch.middle, turn)
        local = Edges(seen[:, 0], seen, np.zeros(1, dtype=bool))
        rows, limits = lift.contacts(local, box.most)
        met += len(rows)
        for centre, lean, p, radius in zip(centres, leans, shapes, radii, strict=True):
            own = unknowns(lift, p, lean, radius, kind.sizes(p, radius))
            x = np.append(turned((centre - patch.middle)[None], turn)[0], own)
            assert radius < 1 or (rows @ x <= limits + 1e-6).all()
    assert met > 40
