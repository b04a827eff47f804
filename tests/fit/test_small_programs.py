"""The small linear programs of the search beside a general solver, and their proved values."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from panelwright.layout.fit.convex.lift import Aim, HalfPlanes
from panelwright.layout.fit.linear_program import Vector, maximised

pytestmark = pytest.mark.heavy

Program = tuple[Vector, Vector, Vector, Vector, Vector]


def random_program(rng: np.random.Generator, number: int) -> Program:
    """Return objective, rows, limits, least and greatest step; many of them all but degenerate."""
    size, count = int(rng.integers(2, 7)), int(rng.integers(1, 40))
    rows = rng.normal(size=(count, size))
    limits = np.abs(rng.normal(size=count)) * 10 ** rng.uniform(-6, 1)
    limits[rng.random(count) < 0.2] = 0.0
    if number % 3 == 0:  # rows that are alike but for a hair, as of two edges in line
        alike = rows * (1 + rng.normal(size=(count, 1)) * 1e-8)
        rows = np.vstack([rows, alike + rng.normal(size=(count, size)) * 1e-9])
        limits = np.concatenate([limits, limits * (1 + 1e-9)])
    if number % 7 == 0:
        limits = 0 * limits
    objective = rng.normal(size=size)
    if number % 4 == 0:
        objective[rng.random(size) < 0.6] = 0.0
    reach = 10 ** rng.uniform(-6, 2)
    high, low = (sign * reach * rng.uniform(0.1, 1, size) for sign in (1.0, -1.0))
    if number % 6 == 0:
        high[0] = low[0] = 0.0
    return objective, rows, limits, low, high


def test_small_programs_end_where_a_general_solver_does() -> None:
    """Value and step agree to a hundred-millionth of the step, which crosses no half-plane."""
    rng = np.random.default_rng(11)
    for number in range(500):
        objective, rows, limits, low, high = random_program(rng, number)
        found = maximised(objective, rows, limits, low, high)
        reach = max(float(np.abs(high).max()), float(np.abs(low).max()))
        bounds = list(zip(low / reach, high / reach, strict=True))
        known = linprog(-objective, A_ub=rows, b_ub=limits / reach, bounds=bounds, method="highs")
        steep = float(np.abs(objective).sum()) or 1.0
        assert abs(found.value / reach + known.fun) <= 1e-7 * steep
        assert abs(objective @ found.step / reach + known.fun) <= 1e-7 * steep
        assert (rows @ found.step - limits).max() <= 1e-8 * reach
        assert ((low - 1e-9 * reach <= found.step) & (found.step <= high + 1e-9 * reach)).all()


def test_two_half_planes_all_but_opposite_lead_to_no_step_out_of_bounds() -> None:
    """Where they meet is beyond all measure; met among rows of a rectangle between two edges."""
    rows = np.array(
        [
            [-0.9932790262, -0.1157444434, -0.9440663044, 0.9932790262, 0.1157444434, 1.0, 0.0],
            [0.9932790249, 0.1157444544, -0.9440662984, 0.9932790249, 0.1157444544, 1.0, 0.0],
            [0.0, 0.0, 0.0, -2.0, -0.8503686283, -2.850368628, 1.0],
            [0.0, 0.0, 0.0, -1.988434321, -0.8553147765, -2.843749097, 1.0],
            [0.0, 0.0, 0.0, -1.994208776, -0.8528381167, -2.847046893, 1.0],
            [0.0, 0.0, 0.0, -1.997102289, -0.8516024774, -2.848704766, 1.0],
        ]
    )
    limits = np.array(
        [0.7483082461, 0.748308243, 0.0, 0.01138919045, 0.002847291626, 0.0007118225325]
    )
    high = np.append(np.full(6, 7.855100039), 70.69590035)
    low = -high
    high[5] = low[5] = 0.0
    found = maximised(np.array([0, 0, 0, 1e-5, 1e-5, 0, 1.0]), rows, limits, low, high)
    assert ((low <= found.step) & (found.step <= high)).all()


def test_the_value_bounds_every_allowed_step_also_where_standing_still_is_none() -> None:
    """With limits below 0 no step that keeps them gets farther, whether one is found or not."""
    rng = np.random.default_rng(12)
    kept = 0
    for number in range(500):
        objective, rows, limits, low, high = random_program(rng, number)
        inside = rng.uniform(low, high)
        limits = rows @ inside + np.abs(limits)
        found = maximised(objective, rows, limits, low, high)
        reach = float(np.maximum(high, -low).max())
        steep = float(np.abs(objective).sum()) or 1.0
        assert objective @ inside <= found.value + 1e-9 * steep * reach
        bounds = list(zip(low / reach, high / reach, strict=True))
        known = linprog(-objective, A_ub=rows, b_ub=limits / reach, bounds=bounds, method="highs")
        if known.status == 0:  # its own half-planes hold to 1e-7
            kept += 1
            assert -known.fun * reach <= found.value + 1e-4 * steep * reach
    assert kept > 400


def test_a_swap_on_all_but_level_rows_crosses_no_half_plane() -> None:
    """Of three pairs of rows that differ by 1e-8 none is crossed: once rounding crossed two."""
    way = np.array([0.292371705, -0.956304756])
    pairs = [(0.41423273, 9e-9, 0.999999999, 0.0), (-0.501187243, -1.1e-8, 0.99999995, 2.9e-5),
             (0.501187224, 1.1e-8, 0.99999995, 1.3e-5)]  # fmt: skip
    rows = np.array([[*(sign * way), *pair[:3]] for pair in pairs for sign in (1.0, -1.0)])
    limits = np.array([pair[3] for pair in pairs for _ in (0, 1)])
    side = np.full(5, 1e-3)
    found = maximised(np.array([0.0, 0.0, 0.0, 0.428832125, 1.0]), rows, limits, -side, side)
    assert (rows @ found.step - limits).max() <= 1e-11
    assert found.value == pytest.approx(0.428832125e-3 + 1.3e-5, abs=1e-6)


def test_what_is_worth_enough_lies_where_the_half_planes_say() -> None:
    """Of many places within random half-planes none that is worth more lies outside."""
    rng, within = np.random.default_rng(3), 0
    for _ in range(60):
        rows, limits = rng.normal(size=(12, 5)), rng.uniform(0.1, 2.0, 12)
        planes = HalfPlanes(rows, limits, -rng.uniform(0.2, 2, 5), rng.uniform(0.2, 2, 5))
        aim = Aim(rng.normal(size=4), float, float)
        value, _, centres = planes.best(aim)
        points = rng.uniform(planes.low, planes.high, (4000, 5))
        points = points[(points @ rows.T <= limits).all(axis=1)]
        worth = points[:, 2:] @ aim.figure[:-1] + aim.figure[-1]
        assert worth.max() <= value + 1e-9
        enough = float(rng.uniform(worth.min(), value))
        least, most = centres(enough)
        good = points[worth > enough, :2]
        within += len(good)
        assert (good >= least - 1e-9).all() and (good <= most + 1e-9).all()
    assert within > 1000
