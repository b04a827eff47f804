"""The samples and the sheets that are kept of them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan

SAMPLES = Path(__file__).parents[2] / "samples"


def sample_folders() -> list[Path]:
    """Return the folder of each sample, by name."""
    return sorted(path.parent for path in SAMPLES.glob("*/job.toml"))


@cache
def plan_of(folder: Path) -> Plan:
    """Return the plan of the sample in a folder."""
    return make_plan(read_job((folder / "job.toml").read_bytes(), source="job.toml"))
