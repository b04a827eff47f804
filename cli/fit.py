"""`panelwright fit JOB`: the largest top of each wished-for shape."""

from __future__ import annotations

import json
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

import click

from .reading import job_from
from .searching import searching, time_limit

if TYPE_CHECKING:
    from ..layout.fit.found import Fit
    from ..layout.job.job import Job

EXAMPLES = """
\b
Examples:
  panelwright fit door.toml
  panelwright fit door.toml --json > tops.json
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print JSON for machines: mm, mm², degrees.")
@time_limit
def fit(job: Path, as_json: bool, seconds: float | None) -> None:
    """Find the best top of each shape that the job file JOB wishes for, best first.

    Ends with 1, and the reason, where none fits.
    """
    found_job = job_from(job)
    from ..layout.job.fits import SCHEMA, fit_record
    from ..layout.job.fitting import fits_of

    started = perf_counter()
    with searching(job, seconds) as progress:
        fits = fits_of(found_job, progress=progress)
    each = (perf_counter() - started) / len(fits)
    if as_json:
        records = [fit_record(found, each) for found in fits]
        click.echo(json.dumps({"schema": SCHEMA, "fits": records}, indent=1, ensure_ascii=False))
        return
    for rank, found in enumerate(fits, 1):
        click.echo(f"{rank}. {_spoken(found, found_job)}")


def _spoken(found: Fit, job: Job) -> str:
    import math

    tape, outline = job.tape, found.outline
    size = (
        f"ø {tape.exact(outline.length)}"
        if outline.name == "circle"
        else f"{tape.exact(outline.length)} × {tape.exact(outline.width)}"
    )
    turn = math.degrees(found.placement.turn)
    at = f"{tape.figure(found.placement.centre.x)}, {tape.figure(found.placement.centre.y)}"
    words = f"{outline.name} {size} {tape.unit}, {tape.area(outline.area)}, centre at ({at})"
    if abs(turn) > 0.005:
        words += f", turned {turn:.2f}°"
    if found.gap is not None:
        words += f"; no {outline.name} can be more than {max(found.gap, 0):.2%} better"
    return words
