"""Legs on the bench sheet: what is told of them, each beside its drawing."""

from __future__ import annotations

from collections.abc import Iterator

from ...drawing.scene import Scene
from ...job.plan import Plan
from ...words import fixings
from ...words.legs import placed, sagging, seated, standing
from ...words.passage import Passage
from ..steps.legs import battens_scene, legs_scene
from .rows import BenchStep


def legs(plan: Plan) -> Iterator[BenchStep]:
    """Yield the steps about the legs; none for a top alone."""
    wish, held, table = plan.job.legs, plan.legs, plan.table
    if wish is None or held is None or table is None:
        return
    yield _step(placed(plan, wish, held), legs_scene(plan, held))
    yield _step(fixings.fixed(plan, wish, table))
    flat = fixings.kept_flat(plan, table)
    if flat is not None:
        yield _step(flat, battens_scene(plan))
    yield _step(standing(plan, held))
    yield _step(sagging(plan, table))
    yield _step(seated(plan, wish, held, table))


def _step(told: Passage, drawing: Scene | None = None) -> BenchStep:
    table = told.tables[0] if told.tables else None
    return BenchStep(told.title, told.words, table, told.warnings, told.points, drawing)
