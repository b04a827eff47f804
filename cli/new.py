"""`panelwright new JOB`: a commented job file from answers, from options, or from a sample."""

from __future__ import annotations

from collections.abc import Callable
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

OPTIONS: dict[str, tuple[Question, str, str]] = {
    "panel": (asked.PANEL, "SIZE", 'Length x width; a diameter; "oval 1400x800"; or its corners.'),
    "radius": (asked.SIDES[0], "LENGTH", "Of its corners: one, or four with commas."),
    "thickness": (asked.MADE[0], "LENGTH", "Of the panel."),
    "build": (asked.MADE[1], "WORD", "solid, plywood, veneered board …"),
    "defect": (
        Question("panel.defects", form=defect),
        "TEXT",
        'Kind, size and middle: "screw hole 8 at 60,400". May be given several times.',
    ),
    "top": (asked.SHAPE, "SHAPE", "capsule, oval, rounded rectangle … or any."),
    "keep": (asked.KEEP, "EDGES", "Of the panel, by their corners: AB, or AB,CD."),
    "margin": (
        asked.MARGIN,
        "LENGTH",
        "Kept to the panel's edges.  [default: 9 mm or 3/8 in]",
    ),
    "legs": (asked.COUNT, "COUNT", "How many; 0 for a top alone."),
    "units": (asked.UNITS, "UNIT", "mm, cm, m, in or ft.  [default: mm]"),
    "name": (asked.NAME, "TEXT", "What the piece is called."),
}
"""The question that each option answers, what it takes, and its help."""


def _as_options(command: Callable[..., Any]) -> Callable[..., Any]:
    for name, (_, takes, told) in reversed(OPTIONS.items()):
        several = name == "defect"
        command = click.option(f"--{name}", metavar=takes, help=told, multiple=several)(command)
    return command


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
@_as_options
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
    for option in sorted(OPTIONS, key=lambda option: option not in ("units", "name")):
        question = OPTIONS[option][0]
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
