"""`panelwright fit JOB`: the largest top of each wished-for shape."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Any

import click

from .reading import JOB, Text, answer, as_json_option, job_from, job_in, searching, time_limit
from .typed import LENGTH, Length

if TYPE_CHECKING:
    from ..layout.fit.found import Fit
    from ..layout.geometry.point import Point
    from ..layout.plan.job import Job

EXAMPLES = """
\b
Examples:
  panelwright fit door.toml
  panelwright fit door.toml --why
  panelwright fit door.toml --json > tops.json
  panelwright fit --size 1981 838
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=JOB, required=False)
@click.option("--size", type=(LENGTH, LENGTH), metavar="LENGTH WIDTH", help="In place of JOB: a "
              "panel of which only its two sizes are known, as it is seen at a sale.")  # fmt: skip
@as_json_option
@click.option("--timed", is_flag=True, help="Tell in the JSON how many seconds each search took.")
@click.option("--why", is_flag=True, help="Say of the best top what mending each defect would "
              "gain, and where else it could lie.")  # fmt: skip
@time_limit
def fit(
    job: Path | None,
    size: tuple[Length, Length] | None,
    timed: bool,
    why: bool,
    seconds: float | None,
) -> None:
    """Find the best top of each shape that the job file JOB wishes for, best first.

    Says of the best what it touches and which limits hold it. Ends with 1, and the reason, where
    none fits. A panel need not be known by more than its two sizes: --size.
    """
    if (job is None) == (size is None):
        raise click.UsageError("give a job file, or --size LENGTH WIDTH in place of one")
    found_job = job_from(job) if job is not None else _sized(size)
    job = job or Path("--size")
    from ..layout.plan.fitting import fits_of

    started = perf_counter()
    with searching(job, seconds) as progress:
        fits = fits_of(found_job, progress=progress)
    each = (perf_counter() - started) / len(fits)
    told = _why(found_job, fits[0], more=why)

    def record() -> dict[str, Any]:
        from ..layout.plan.serialise import fit_record
        from ..layout.plan.why import why_record

        records = [fit_record(found, each if timed else None) for found in fits]
        return {"fits": records, **why_record(**told)}

    def lines() -> Iterator[str]:
        first, *others = (f"{k}. {_spoken(found, found_job)}" for k, found in enumerate(fits, 1))
        why_not_larger = (f"   {line}" for line in _why_lines(found_job, fits[0], told))
        yield from (first, *why_not_larger, *others)

    answer(record, lines)


def _sized(size: tuple[Length, Length] | None) -> Job:
    """Return the job of a sound panel with square corners."""
    assert size is not None
    long, wide = sorted((side.mm for side in size), reverse=True)
    units = "in" if any(side.imperial for side in size) else "mm"
    text = f"units = '{units}'\n[panel]\noutline = {{ length = '{long} mm', width = '{wide} mm' }}"
    return job_in(Text(text.encode(), "--size"))


def _why(job: Job, best: Fit, *, more: bool) -> dict[str, Any]:
    """Return what `why_record` takes: why the best is not larger, and more where that is asked."""
    from ..layout.fit.why.limits import limits_met
    from ..layout.plan.fitting import along_grain_in
    from ..layout.plan.why import contacts_in, costs_in, others_in

    contacts = contacts_in(job, best)
    told: dict[str, Any] = {"contacts": contacts, "limits": limits_met(best, job.wish)}
    if more:
        told["costs"], told["others"] = costs_in(job, best, contacts), others_in(job, best)
        told["along_grain"] = along_grain_in(job, best)
    return told


def _why_lines(job: Job, best: Fit, told: dict[str, Any]) -> Iterator[str]:
    from ..layout.words import why as words

    tape, goal = job.tape, job.wish.goal

    def place(point: Point) -> str:
        return f"({tape.figure(point.x)}, {tape.figure(point.y)})"

    for contact in told["contacts"]:
        yield f"touches {words.contact_words(contact, place)}"
    for limit in told["limits"]:
        yield words.limit_words(limit, job.wish.limits, tape)
    yield from words.cost_lines(told.get("costs", ()), goal)
    if told.get("along_grain") is not None:
        yield words.along_grain_words(told["along_grain"], best, goal, tape)
    for rank, other in enumerate(told.get("others", ()), 2):
        yield f"place {rank}: {words.other_words(other, best, goal, tape, place)}"


def _spoken(found: Fit, job: Job) -> str:
    import math

    from ..layout.top import Top
    from ..layout.words.say import exact_words
    from ..layout.words.why import proof_words
    from ..layout.work.cautions import off_grain

    tape, outline = job.tape, found.outline
    turn = math.degrees(found.placement.turn)
    at = f"{tape.figure(found.placement.centre.x)}, {tape.figure(found.placement.centre.y)}"
    size = exact_words(outline, tape)
    words = f"{outline.name} {size}, {tape.area(outline.area)}, centre at ({at})"
    if abs(turn) > 0.005:
        words += f", turned {turn:.2f}°"
    slant = off_grain(Top(job.panel, outline, found.placement))
    if slant is not None:
        words += f", {slant:.0f}° off the grain"
    if found.clearance is not None:
        words += f", {tape.exact(found.clearance, 1)} {tape.unit} clear of edges and of what shows"
    proof = proof_words(found, job.wish.goal, tape)
    return f"{words}; {proof}" if proof else words
