"""Plans that tests take as good: those of the samples as they are kept, and of a few small jobs."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from checker.record import Record
from checker.small import JOBS
from kept import SAMPLES

from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import make_plan, plan_record


@lru_cache
def kept(name: str) -> tuple[str, dict[str, Any], str | None]:
    """Return job, record and sheet of a sample as it is kept, or of a small job, planned once."""
    if name in JOBS:
        job = JOBS[name]
        made = plan_record(make_plan(read_job(job.encode(), source="job.toml")))
        return job, made, None
    folder = SAMPLES / name
    texts = ("job.toml", "expected/plan.json", "expected/bench-sheet.html")
    job, plan, page = ((folder / text).read_text(encoding="utf-8") for text in texts)
    return job, Record.read(plan).data, page
