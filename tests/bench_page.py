"""A bench sheet as tests ask for it: printed and read back, or its steps before they are set."""

from __future__ import annotations

from checker.sheet import Sheet

from panelwright.layout.plan.plan import Plan
from panelwright.layout.sheets.bench.page import bench_sheet
from panelwright.layout.sheets.bench.stages import STAGES, folds
from panelwright.layout.sheets.bench.steps import Step
from panelwright.layout.words.say import Passage


def page_of(plan: Plan) -> Sheet:
    """Return the sheet of a plan as its reader has it."""
    return Sheet.of(bench_sheet(plan), 25.4 if plan.job.tape.imperial else 1.0)


def work_of(plan: Plan) -> list[Step]:
    """Return the steps of the work, in order."""
    return [step for _, steps, _ in STAGES for step in steps(plan)]


def steps_of(plan: Plan) -> dict[str, Step]:
    """Return every step, and everything that is told behind them, by its title."""
    behind = [step for fold in folds(plan) for step in fold.steps]
    return {step.told.title: step for step in (*work_of(plan), *behind)}


def words_in(told: Passage) -> str:
    """Return all sentences of a passage."""
    return " ".join((*told.words, *told.points, *told.warnings))
