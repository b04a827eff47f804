"""`panelwright legs JOB`: choices of legs side by side."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import FILE, FOLDER, open_option, write_at
from .reading import JOB, answer, as_json_option, job_from, plainly, searching

if TYPE_CHECKING:
    from ..layout.plan.job import Job
    from ..layout.plan.standing import Comparison

GOALS = ("most stable", "sags least", "most knee room", "even overhang")
"""What legs may be the best at: the names of the library's goals, which are not imported for help;
a test holds the two alike."""

SHEET = "legs.svg"
"""Name of the comparison sheet in the folder --out."""

EXAMPLES = """
\b
Examples:
  panelwright legs door.toml
  panelwright legs door.toml --count 4 --count 6 --goal "most knee room"
  panelwright legs door.toml --out door
  panelwright legs door.toml --json
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=JOB)
@click.option(
    "--count",
    "counts",
    type=click.IntRange(2, 100),
    multiple=True,
    help="How many legs to compare; may be given several times.  [default: the job's, or 3 to 8]",
)
@click.option("--goal", type=click.Choice(GOALS), help="What makes legs the best, not the job's.")
@click.option("--out", type=FOLDER, help=f"Folder to write the comparison sheet into, as {SHEET}.")
@click.option("--svg", type=FILE, help="Write the sheet to this file.")
@as_json_option
@open_option("svg", "out")
def legs(
    job: Path, counts: tuple[int, ...], goal: str | None, out: Path | None, svg: Path | None
) -> Path | None:
    """Compare legs for the table that the job file JOB describes.

    For each number of legs it seeks the best places under the job's top and tells what they mean:
    overhang, how far the feet spread, the force that tips it, sag, places to sit, gaps for knees.
    The job's own legs stand beside them. All of it is estimated, nothing is tested. A plan takes
    the best where the job names no count.
    """
    found_job = job_from(job, for_plan=True)
    from ..layout.legs.wish import Goal
    from ..layout.plan.fitting import fits_of
    from ..layout.plan.standing import compare_legs
    from ..layout.top import top_from

    with searching(job) as progress:
        fit, of = fits_of(found_job, progress=progress)[0], found_job
        top = top_from(fit, of.panel, of.wish, step=of.step, tape_error=of.tape_error)
        found = compare_legs(of, top, tuple(dict.fromkeys(counts)), Goal(goal) if goal else None)
    sheet = svg or (None if out is None else out / SHEET)
    if sheet is not None:
        from ..layout.drawing.svg import to_svg
        from ..layout.sheets.pictures.legs import comparison_scene

        write_at(sheet, to_svg(comparison_scene(found_job, found)))
    drawn = () if sheet is None else (f"Drawn in {sheet}",)
    answer(lambda: plainly(found), lambda: (*_lines(found_job, found), *drawn))
    return sheet


def _lines(job: Job, found: Comparison) -> Iterator[str]:
    """Yield the comparison, one choice a column."""
    from ..layout.words.leg_concerns import CAUTION, as_table, choices, held_words
    from ..layout.words.say import outline_words

    tape = job.tape
    yield f"{job.name}: legs for the {outline_words(found.top.outline, tape)}"
    yield f"  What counts: {held_words(found, tape)}"
    held = choices(found, tape)
    yield from (f"  {line}" for line in as_table(held))
    yield from (f"  ! {choice.title}: {words}" for choice in held for words in choice.warnings)
    yield f"  {CAUTION}"
