"""Whole random jobs: what is planned agrees with itself."""

from __future__ import annotations

import pytest
from random_jobs import job_text

from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import make_plan


def test_the_same_number_gives_the_same_job() -> None:
    """A job is its number: written twice it is the same, and another number is another job."""
    assert job_text(7) == job_text(7)
    assert job_text(7) != job_text(8)


@pytest.mark.parametrize("number", [1, 4, 5, 9])
def test_what_is_planned_lies_on_the_panel_and_its_areas_close(number: int) -> None:
    """The core lies on the panel, and core, kerfs and offcuts make up the panel again."""
    plan = make_plan(read_job(job_text(number).encode(), source="job.toml"))
    panel = Region.from_rings(plan.job.panel.boundary.points(CHORD, "outside"))
    core = plan.top.core.points(CHORD)
    assert panel.grown(CHORD).holds(Region.from_rings(core))
    b = plan.offcuts.balance
    parts = b.top + b.trimming + b.kerf + b.offcuts + b.cut_outs
    assert parts == pytest.approx(b.panel, rel=1e-6)
