"""`panelwright new JOB`: a commented job file from answers, from options, or from a sample."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from . import new_questions as asked
from .new_draft import Draft, Question, defect
from .reading import answer, as_json_option, stop, wants_json

if TYPE_CHECKING:
    from ..layout.errors import Problem

SAMPLES = ("corridor-door", "elm-slab", "lab-bench")
"""The samples by their folders; a test holds that they are all there."""

OPTIONS: dict[str, Question] = {
    "units": asked.UNITS,
    "name": asked.NAME,
    "panel": asked.PANEL,
    "radius": asked.SIDES[0],
    "thickness": asked.MADE[0],
    "build": asked.MADE[1],
    "defect": Question("panel.defects", form=defect),
    "top": asked.SHAPE,
    "keep": asked.KEEP,
    "margin": asked.MARGIN,
    "legs": asked.COUNT,
}
"""The question that each option answers, in the order in which they are taken."""

EXAMPLES = """
\b
Examples:
  panelwright new table.toml
  panelwright new table.toml --panel 1200x600 --radius 40 --thickness 22 --top capsule --legs 4
  panelwright new table.toml --panel 900 --thickness 25 --defect "screw hole 8 at 60,400"
  panelwright new door.toml --sample corridor-door
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=click.Path(path_type=Path))
@click.option(
    "--panel", metavar="SIZE", help='Length x width; a diameter; "oval 1400x800"; or its corners.'
)
@click.option("--radius", metavar="LENGTH", help="Of its corners: one, or four with commas.")
@click.option("--thickness", metavar="LENGTH", help="Of the panel.")
@click.option("--build", metavar="WORD", help="solid, plywood, veneered board …")
@click.option(
    "--defect",
    metavar="TEXT",
    multiple=True,
    help='Kind, size and middle: "screw hole 8 at 60,400". May be given several times.',
)
@click.option("--top", metavar="SHAPE", help="capsule, oval, rounded rectangle … or any.")
@click.option("--keep", metavar="EDGES", help="Of the panel, by their corners: AB, or AB,CD.")
@click.option(
    "--margin", metavar="LENGTH", help="Kept to the panel's edges.  [default: 9 mm or 3/8 in]"
)
@click.option("--legs", metavar="COUNT", help="How many; 0 for a top alone.")
@click.option("--units", metavar="UNIT", help="mm, cm, m, in or ft.  [default: mm]")
@click.option("--name", metavar="TEXT", help="What the piece is called.")
@click.option("--sample", type=click.Choice(SAMPLES), help="Copy the job file of a sample.")
@as_json_option
def new(job: Path, sample: str | None, **given: Any) -> None:  # noqa: ANN401 - as options have it
    """Write a commented job file JOB: from your answers, from options, or from a sample.

    Without options it asks, and checks each answer at once; `back` goes a question back, `leave` or
    Ctrl-C keeps the answers until the command is typed again. An old file is never replaced.
    """
    taken = f"{job} is there already and is never replaced: give another name"
    if _is_taken(job):
        stop(taken)
    if not job.parent.is_dir():
        stop(f"{job.parent} is no folder: make it first, or give another name")
    typed = {name: value for name, value in given.items() if value not in (None, ())}
    missing: tuple[Problem, ...] = ()
    if sample is not None:
        if typed:
            raise click.UsageError(f"--sample takes no --{next(iter(typed))}: change the copy")
        # Beside the packages, in a checkout as in an installed copy.
        samples = Path(__file__).resolve().parents[1] / "samples"
        text = (samples / sample / "job.toml").read_text("utf-8")
    elif typed:
        draft = _from_options(typed, job.stem)
        text, missing = draft.text(job.name), draft.job.missing if draft.job else ()
    elif wants_json():
        raise click.UsageError("--json asks no questions: give --panel, or --sample")
    else:
        from .new_talk import talk

        text = talk(job).text(job.name)
    try:
        with job.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        stop(taken)
    except OSError as error:
        job.unlink(missing_ok=True)
        stop(f"{job}: cannot be written ({error.strerror or error})")
    told = [
        f"Written to {job}. Look it over, then type:",
        *(f"  (first add {problem.key} to it: {problem.message})" for problem in missing),
        f"  panelwright check {job}",
        f"  panelwright plan {job} --out {job.with_suffix('').name}",
    ]
    answer(lambda: {"written": [str(job)]}, lambda: told)


def _is_taken(job: Path) -> bool:
    try:
        job.lstat()
    except FileNotFoundError:
        return False
    except OSError as error:
        stop(f"{job}: no file can be called so ({error.strerror or error})")
    return True


def _from_options(typed: dict[str, Any], name: str) -> Draft:
    if "panel" not in typed:
        raise click.UsageError("give the panel's size too: --panel 1200x600")
    draft = Draft({"units": "mm", "name": name})
    for option, question in OPTIONS.items():
        usual = draft.usual(question) if option == "margin" else ()
        answers = typed.get(option, usual)
        if option == "keep" and not answers and draft.lacks("top.keep"):
            raise click.UsageError(f"--top {typed['top']} keeps edges: name them, --keep AB")
        for one in (answers,) if isinstance(answers, str) else answers:
            try:
                draft.hold(question, question.form(one))
            except ValueError as error:
                stop(f"--{option} {one}: {error}\nNothing was written.")
    return draft
