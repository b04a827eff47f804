"""`panelwright plan JOB --out DIR`: the whole piece laid out, as a folder for the bench."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .files import FOLDER, hand_out, open_option
from .hours import with_hours
from .printers import with_printer
from .reading import JOB, as_json_option, job_from, searching, time_limit

if TYPE_CHECKING:
    from ..layout.plan.plan import Plan

EXAMPLES = """
\b
Examples:
  panelwright plan door.toml --out door
  panelwright plan door.toml --out door --open
  panelwright plan door.toml --json
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=JOB)
@click.option(
    "--out", type=FOLDER, help="Folder to write the sheets into; without it nothing is written."
)
@click.option(
    "--sheets",
    type=click.Choice(["usual", "all"]),
    default="usual",
    help="all: unfold what stands behind the work on the bench sheet, so that it is printed.",
)
@as_json_option
@time_limit
@open_option("out")
def plan(job: Path, out: Path | None, sheets: str, seconds: float | None) -> Path | None:
    """Lay out the piece that the job file JOB describes.

    Works out the top, its marks, cuts, legs and offcuts, prints a summary, and writes bench sheet,
    drawing and full-size templates into the folder --out. A second run replaces its own files and
    no others. Ends with 1, and the reason, where no top fits.
    """
    found_job = with_hours(with_printer(job_from(job, for_plan=True)))
    from ..layout.plan.plan import make_plan

    with searching(job, seconds) as progress:
        found = make_plan(found_job, progress=progress)

    def record() -> dict[str, Any]:
        from ..layout.plan.plan import plan_record

        return plan_record(found)

    def files() -> dict[str, str | bytes]:
        from ..layout.sheets.folder import plan_files

        return plan_files(found, opened=sheets == "all")

    return hand_out(record, lambda: summary(found), out, files, "Start with {}")


def summary(plan: Plan) -> Iterator[str]:
    """Yield the plan in a few lines."""
    from ..layout.words.cautions import caution_words, concern_words
    from ..layout.words.legs import in_short
    from ..layout.words.materials import priced_words
    from ..layout.words.order import worked_words
    from ..layout.words.say import Say, exact_words, found_words, size_words
    from ..layout.words.why import proof_words
    from ..layout.work.cautions import Risk

    tape = plan.job.tape
    yield plan.job.name
    yield (
        f"  Top      {size_words(plan)} ({found_words(plan)}), "
        f"{tape.area(plan.top.area)}, about {tape.mass(plan.top_mass)}"
    )
    proof = proof_words(plan.fit, plan.job.wish.goal, tape)
    if proof:
        yield f"           {proof}"
    slant = (c for c in plan.cautions if c.matter is Risk.GRAIN)
    yield from (f"  Grain    {caution_words(c, plan.top, tape).words[0]}" for c in slant)
    for other in plan.fits[1:]:
        size = exact_words(other.outline, tape)
        yield f"           also fits: {other.outline.name} {size}, {tape.area(other.outline.area)}"
    yield from _why(plan)
    centre = plan.datum.coordinates(plan.top.placement.centre)
    yield (
        f"  Datum    {plan.datum.name}; centre {tape.figure(centre.along)} along, "
        f"{tape.measure(centre.square)} square"
    )
    yield (
        f"  Cuts     {len(plan.cuts.trims)} straight, {len(plan.cuts.corner_cuts)} off corners; "
        f"rough line {tape.at_least(plan.cuts.allowance)} {tape.unit} outside"
    )
    for k, words in enumerate(in_short(plan)):
        head = "!" if words.startswith("!") else "" if k else "Legs"
        yield f"  {head:9}{words.removeprefix('!')}"
    kept = [offcut for offcut in plan.offcuts.pieces if offcut.kept]
    yield f"  Offcuts  {len(plan.offcuts.pieces)}, of which {len(kept)} worth keeping"
    yield f"  Work     {worked_words(plan.order)}"
    if plan.money is not None:
        yield f"  Price    {priced_words(plan.money)}"
    yield from _template(plan)
    for caution in plan.cautions:
        if caution.matter in (Risk.TREATED, Risk.NO_LEGS, Risk.NO_PORTION):
            yield f"  !        {caution_words(caution, plan.top, tape).words[0]}"
    say = Say.of(plan)
    for concern in (*plan.blades, *plan.cuts.concerns):
        yield f"  !        {concern_words(concern, say)}"


def _why(plan: Plan) -> Iterator[str]:
    """Yield what the top touches, what mending would gain, and the next place in rank."""
    from ..layout.words import why as words
    from ..layout.words.say import exact_words

    tape, goal = plan.job.tape, plan.job.wish.goal
    held = list(dict.fromkeys(contact.name for contact in plan.contacts))
    limits = [words.limit_words(limit, plan.job.wish.limits, tape) for limit in plan.limits_met]
    touched = [f"touches {', '.join(held)}"] if held else []
    if touched or limits:
        yield f"  Why      {'; '.join((*touched, *limits))}"
    worth = [cost for cost in plan.costs if cost.is_worth_it]
    gains = [f"the {words.without_words(c)}: {words.gain_words(c, goal)}" for c in worth]
    if gains:
        yield f"           without {'; without '.join(gains)}"
    if plan.along_grain is not None:
        yield f"           {words.along_grain_words(plan.along_grain, plan.fit, goal, tape)}"
    if plan.others:
        other = plan.others[0]
        size, turn = exact_words(other.outline, tape), words.turn_words(other, plan.fit)
        parts = (size, turn, words.loss_words(other, plan.fit, goal, tape))
        more = f" (and {len(plan.others) - 1} more)" if len(plan.others) > 1 else ""
        yield f"           next in rank: {', '.join(part for part in parts if part)}{more}"


def _template(plan: Plan) -> Iterator[str]:
    from ..layout.words.paper import correction_words, sheets_words

    sheets, correction = plan.sheets, plan.job.template.correction
    side = ", MIRRORED" if plan.template.mirrored else ""
    paper = sheets.plan.paper.name
    if not sheets.sheets:
        yield f"  Template no sheets: every line is straight{side}"
        return
    yield f"  Template {sheets.portion.name} on {sheets_words(sheets.sheets)} {paper}{side}"
    if not correction.is_none:
        yield f"           corrected {correction_words(correction)}"
