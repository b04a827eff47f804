"""`panelwright template JOB`: the template at full size, and the printer it comes out of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .files import FOLDER, hand_out, open_option
from .printers import SHEET, keep_measured, with_printer, write_sheet
from .reading import JOB, as_json_option, job_from, plainly, searching
from .typed import LENGTH, Choices, Length, with_choices

if TYPE_CHECKING:
    from ..layout.plan.plan import Plan
    from ..layout.template.portions import Proposal

EXAMPLES = """
\b
Examples:
  panelwright template door.toml
  panelwright template door.toml --portion half --paper Letter --out door
  panelwright template door.toml --paper "roll 36 in" --mirrored --out door
  panelwright template --calibrate --paper A4 --out .
  panelwright template --measured-x 179.4 --measured-y 260.3 --paper A4 --printer hall
  panelwright template door.toml --printer hall --out door
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=JOB, required=False)
@with_choices
@click.option("--calibrate", is_flag=True, help="Write a sheet to measure the printer by.")
@click.option("--measured-x", type=LENGTH, help="What its bar along the short edge reads.")
@click.option("--measured-y", type=LENGTH, help="What its bar along the long edge reads.")
@click.option("--out", type=FOLDER, help="Folder to write into; without it nothing is written.")
@as_json_option
@open_option("out")
def template(
    job: Path | None,
    calibrate: bool,
    measured_x: Length | None,
    measured_y: Length | None,
    out: Path | None,
    **chosen: Any,  # noqa: ANN401 - as options have it
) -> Path | None:
    """Print the template of the job file JOB at full size.

    Compares how many sheets each portion takes, proposes the one of whole, half and quarter with
    the fewest (of a top with few curves only those), and writes template.pdf, template.svg and
    template.dxf into the folder --out; template-mirrored where it shows the underside, as it does
    unless --face-up is typed where the work is marked there. What is not chosen here is taken from
    [template] of the job. Lengths are in mm or carry a unit.

    To take a printer's error out: print the sheet of --calibrate at 100 %, measure its two bars,
    and give both with --measured-x, --measured-y and a name, --printer. That name then corrects
    every template it is given with. More than 3 % is refused: no printer is out by so much.
    """
    choices = Choices(**chosen)
    if measured_x is not None or measured_y is not None:
        if calibrate or job is not None:
            raise click.UsageError("what was measured goes with --printer and --paper alone")
        keep_measured(choices, measured_x, measured_y)
        return None
    if calibrate:
        from ..layout.template.wish import TemplateWish

        wish = TemplateWish() if job is None else job_from(job).template
        write_sheet(choices, wish, out)
        return None if out is None else out / SHEET
    if job is None:
        raise click.UsageError("name a job file, or --calibrate to measure a printer")
    from ..layout.plan.plan import make_plan
    from ..layout.template.portions import portions_named

    wished = job_from(job, for_plan=True)
    with searching(job) as progress:
        wished = with_printer(replace(wished, template=choices.over(wished.template)))
        plan = make_plan(wished, progress=progress)
        if choices.portion is not None:
            portions_named(plan.template, choices.portion)  # a job may ask in vain, a person not
    from ..layout.sheets.folder import template_files

    return hand_out(
        partial(_record, plan),
        partial(comparison, plan),
        out,
        partial(template_files, plan),
        "Print {} at 100 % and begin with its cover.",
    )


def _every(plan: Plan) -> tuple[Proposal, ...]:
    """Return what each portion takes on the paper of a plan, fewest sheets first."""
    from ..layout.template.portions import proposals

    return proposals(plan.template, plan.job.template)


def comparison(plan: Plan) -> Iterator[str]:
    """Yield the portions side by side, the one that is printed marked."""
    from ..layout.words.paper import correction_words, side_words

    wish = plan.job.template
    yield (
        f"{plan.job.name}: template at full size, {side_words(plan.template)}, on {wish.paper.name}"
    )
    if not wish.correction.is_none:
        yield f"  corrected {correction_words(wish.correction)}"
    chosen = "proposed" if wish.portion == "auto" else "chosen"
    for found in _every(plan):
        here = f"  <- {chosen}" if found == plan.sheets else ""
        yield f"  {_spoken(found, plan)}{here}"


def _spoken(found: Proposal, plan: Plan) -> str:
    from ..layout.words.paper import sheets_words, turned_words

    lie = "on its side" if found.plan.sheet.landscape else "upright"
    words = f"{found.portion.name:8} {sheets_words(found.sheets):>10} {lie:11} "
    left = len(found.marks_left_out(plan.template))
    return (
        words + turned_words(found.portion) + (f"; leaves {left} marks to the rule" if left else "")
    )


def _record(plan: Plan) -> dict[str, Any]:
    wish = plan.job.template
    records = [
        {
            "portion": found.portion.name,
            "sheets": found.sheets,
            "rows": found.plan.rows,
            "columns": found.plan.columns,
            "landscape": found.plan.sheet.landscape,
            "uses": found.portion.uses,
            "left_out": [mark.label for mark in found.marks_left_out(plan.template)],
            "printed": found == plan.sheets,
        }
        for found in _every(plan)
    ]
    return {"template": plainly(wish), "portions": records}
