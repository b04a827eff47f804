"""The half-planes of single boxes, attacked by tops that just touch an edge or hold a point."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from box_attack import KINDS, has_shapes, unknowns

from panelwright.layout.fit.convex.boxes import Box, patch_of
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.fit.convex.lift import Edges
from panelwright.layout.fit.convex.oval import OvalLift
from panelwright.layout.fit.wood.edges import turned

TOPS = 30
"""In each box, half of them at its corners."""


@pytest.mark.parametrize("shape", KINDS)
@pytest.mark.parametrize("task", ["touch an edge", "hold a point"])
def test_no_top_that_just_does_its_task_breaks_the_half_planes_of_its_box(
    shape: str, task: str
) -> None:
    """Small boxes and large ones, edges long and short, edges and points near and far."""
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
        just = kind.distances if task == "touch an edge" else kind.holding
        asked = ends if task == "touch an edge" else ends[0, :1]
        radii = np.array(
            [
                just(turn + lean, p, asked, centre[None]).item()
                for lean, p, centre in zip(leans, shapes, centres, strict=True)
            ]
        )
        box.most, box.least = float(radii.max()), float(radii.min())
        patch = patch_of(box)
        lift = kind.lift(box, patch)
        seen = turned(ends - patch.middle, turn)
        local = Edges(seen[:, 0], seen, np.zeros(1, dtype=bool))
        if task == "touch an edge":
            rows, limits = lift.contacts(local, box.most)
        else:
            rows, limits = lift.held(seen[0, :1])
        met += len(rows)
        for centre, lean, p, radius in zip(centres, leans, shapes, radii, strict=True):
            own = unknowns(lift, p, lean, radius, kind.sizes(p, radius))
            x = np.append(turned((centre - patch.middle)[None], turn)[0], own)
            assert radius < 1 or (rows @ x[: rows.shape[1]] <= limits + 1e-6).all()
    assert met > 40


@pytest.mark.parametrize("shape", ["oval", "superellipse"])
def test_the_place_of_a_ball_reaches_its_share_at_every_turn_and_shape(shape: str) -> None:
    """Of how far a top reaches along a normal no top of the box gives it less than is told."""
    rng, kind = np.random.default_rng(12), KINDS[shape]
    clear, nothing = np.zeros(1, dtype=bool), np.zeros(0, dtype=np.intp)
    told = 0
    for _ in range(200):
        half_turn, low = 10 ** rng.uniform(-3, 0), float(rng.uniform(0, 2))
        high, turn = low + 10 ** rng.uniform(-3, 0), float(rng.uniform(0, 7))
        box = Box(turn, half_turn, low, high, np.zeros((1, 2)), turn, (1, 1), clear, nothing)
        lift = kind.lift(box, patch_of(box))
        assert isinstance(lift, OvalLift)
        angle = np.linspace(0, math.tau, 40)
        normal = np.stack([np.cos(angle), np.sin(angle)], axis=1)
        unit = kind.body.touch(normal / kind.squeeze(box.middle)).places
        share = lift.holding(unit, normal)
        told += int((share > 1e-9).sum())
        for off in (*itertools.product([-1.0, 1.0], repeat=2), *rng.uniform(-1, 1, (20, 2))):
            stretched = np.exp(np.array([0.5, -0.5]) * (box.middle + off[1] * (high - low) / 2))
            seen = turned(normal, off[0] * half_turn) * stretched
            if shape == "oval":  # its balls are turned back: a symmetric matrix
                seen = turned(seen, -off[0] * half_turn)
            reached = (unit * seen).sum(axis=1) / kind.body.dual(seen)
            assert (reached >= share - 1e-12)[share > 1e-9].all()
    assert told > 4000
