"""Whole random plans held against first principles, by a checker that knows only job and record."""

from __future__ import annotations

import tomllib
from random import Random

import pytest
from checker.every import CHECKS, held
from checker.kept_plans import kept
from checker.plan import Plan
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st
from random_jobs import (
    BUILDS,
    DEFECT_KINDS,
    FOOT_SHAPES,
    MENDS,
    SHAPES,
    UNITS,
    job_text,
    random_job,
)

from panelwright.layout.errors import LayoutError, LegsError, NothingFitsError, UndecidedError
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import make_plan, plan_record
from panelwright.layout.plan.serialise import to_json
from panelwright.layout.sheets.bench.page import bench_sheet

QUICK = (
    (1, "rectangle"),
    (3, "rectangle"),
    (3, "rounded rectangle"),
    (1, "circle"),
    (2, "hexagon"),
    (3, "octagon"),
    (3, "capsule"),
    (1, "oval"),
    (1, "superellipse"),
    (2, "own outline"),
    (0, "piece as found"),
    (1, "piece as found"),
)
"""Numbers of jobs that are planned in a moment or two, with the shapes of their tops."""


def planned(text: str) -> Plan:
    """Return the plan of a job as it is written: its record and its bench sheet."""
    found = make_plan(read_job(text.encode(), source="job.toml"))
    page = bench_sheet(found)
    return Plan.of(text, to_json(plan_record(found)), page)


@pytest.mark.parametrize("sample", ["corridor-door", "elm-slab", "lab-bench"])
def test_a_sample_holds(sample: str) -> None:
    """Every check holds of the sheets of a sample as they are kept."""
    assert held(Plan.of(*kept(sample))).failures == []


@pytest.mark.parametrize(
    ("number", "shape"),
    [pytest.param(*job, marks=pytest.mark.heavy if k else []) for k, job in enumerate(QUICK)],
)
def test_a_quick_random_plan_holds(number: int, shape: str) -> None:
    """Every check holds of what is planned for a random job."""
    assert held(planned(job_text(number, shape))).failures == []


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(
    "count",
    [pytest.param(1, marks=pytest.mark.heavy), pytest.param(22, marks=pytest.mark.by_hand)],
)
def test_random_plans_hold(shape: str, count: int) -> None:
    """Every check holds of plans of each shape, on any panel and any feet."""

    @settings(max_examples=count, phases=[Phase.generate])
    @given(st.integers(min_value=0, max_value=3 * 10**6))
    def holds(number: int) -> None:
        try:
            plan = planned(job_text(number, shape))
        except (NothingFitsError, UndecidedError, LegsError):
            assume(False)
        except LayoutError as error:  # an edge is kept across the grain that limits the turn
            assume("off the grain" not in str(error))
            raise
        assert held(plan).failures == [], f"job {number}, {shape}"

    holds()


def test_random_jobs_draw_every_choice() -> None:
    """Among 400 jobs every shape, build, foot, fixing, defect, edge, datum, unit and profile is."""
    jobs = [random_job(Random(number)) for number in range(400)]
    drawn = {
        "shape": {job["top"]["shape"] for job in jobs},
        "build": {job["panel"]["build"] for job in jobs},
        "unit": {job["units"] for job in jobs},
        "foot": {job["legs"]["foot"] for job in jobs if "legs" in job},
        "fixing": {job["legs"]["fixing"] for job in jobs if "legs" in job},
        "face": {job["tools"].get("show_face") for job in jobs},
        "kind": {d.get("kind") for job in jobs for d in job["panel"].get("defects", ())},
        "mend": {d.get("mend") for job in jobs for d in job["panel"].get("defects", ())},
    }
    due = {
        "shape": set(SHAPES),
        "build": set(BUILDS),
        "unit": set(UNITS),
        "foot": set(FOOT_SHAPES),
        "fixing": {"screwed", "glued", "loose"},
        "face": {None, "up", "down"},
        "kind": {None, *DEFECT_KINDS},
        "mend": {None, *MENDS},
    }
    assert drawn == due
    for table, key in (("top", "keep"), ("top", "lipping"), ("top", "bevel"), ("top", "round_over"),
                       ("panel", "datum"), ("panel", "damaged"), ("panel", "flattened"),
                       ("panel", "cutouts"), ("legs", "splay"), ("legs", "plate"),
                       ("legs", "counts"), ("legs", "at"), ("tools", "bush")):  # fmt: skip
        assert any(key in job.get(table, {}) for job in jobs), f"no job has {key}"


def test_a_job_is_legal_toml() -> None:
    """What is drawn is a job file that any reader of TOML takes."""
    assert all(tomllib.loads(job_text(number))["top"]["shape"] in SHAPES for number in range(20))


def test_there_are_checks() -> None:
    """The checker is not empty: some sixty principles, each with a sentence."""
    assert len(CHECKS) >= 60
    assert all(check.__doc__ for check in CHECKS.values())
