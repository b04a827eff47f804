"""The conversation of `panelwright new` in a terminal: asking, going back, leaving and resuming."""

from __future__ import annotations

import json
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

import click

from .keys import row_at
from .new_draft import Draft, Question
from .new_questions import COUNT, interview
from .reading import stop

if TYPE_CHECKING:
    from ..layout.fit.found import Fit
    from ..layout.geometry import Point
    from ..layout.plan.job import Job

LEFT = 130
"""Exit code where a person leaves by Ctrl-C, as shells have it."""

PATIENCE = 2.0
"""Seconds that a first top is searched for, to be drawn: a plan takes as long as it needs."""

HOW = (
    "Enter takes what stands in [brackets]. `back` goes a question back, `?` tells more of one,\n"
    "`leave` or Ctrl-C keeps your answers until you type the same command again."
)

ACROSS, MOST_ROWS = 48, 14
"""Signs of the longest row, and rows; with its figures it stays within a terminal of 80."""

SIGN_SHAPE = 2.0
"""How many times as high as wide a sign of a terminal is, nearly."""

WOOD, TOP = ".", "o"


def talk(job: Path) -> Draft:
    """Ask until a job is whole; answers that were kept are taken up again, and kept on leaving."""
    kept = job.with_name(f"{job.name}.answers")
    answers = _kept_in(kept)
    click.echo(HOW)
    if answers:
        click.echo(f"Going on with the {len(answers)} answers that were kept.")
    try:
        draft = _answered(answers, job.stem)
    except (click.exceptions.Exit, click.Abort) as left:
        _leave(job, kept, answers)
        raise click.exceptions.Exit(getattr(left, "exit_code", LEFT)) from None
    kept.unlink(missing_ok=True)
    return draft


def _answered(answers: list[str], name: str) -> Draft:
    """Return the whole draft; `answers` always holds those that were taken."""
    drawn: object = None
    while True:
        draft = Draft()
        asking = interview(draft, name)
        question = next(asking)
        given = iter(list(answers))
        answers.clear()
        try:
            while True:
                answer = next(given, None)
                if answer is None:
                    if not question.refused:
                        drawn = _draw(draft, drawn, with_top=question.key == COUNT.key)
                    answer = _asked(question, len(answers) + 1)
                if answer is None:  # back
                    del answers[-1:]
                    break
                question = asking.send(answer)
                if question.refused:
                    given = iter(())  # what was kept after an answer that is no longer taken
                else:
                    answers.append(answer)
        except StopIteration:
            answers.append(answer or "")
            return draft


def _asked(question: Question, number: int) -> str | None:
    """Return what a person answers; None where they go back."""
    if question.refused:
        click.echo(f"   ! {question.refused}")
    click.echo(f"{number}. {question.asks}" + (f" [{question.usual}]" if question.usual else ""))
    if question.takes:
        click.echo(f"   {question.takes}")
    while True:
        answer: str = click.prompt("  ", default="", show_default=False, prompt_suffix="> ")
        word = answer.strip().casefold()
        if word == "back":
            return None
        if word == "leave":
            raise click.exceptions.Exit
        if word != "?":
            return answer
        row = row_at((question.key or question.into).split("."))
        if row is not None:
            click.echo(f"   {row.meaning}. Written: {row.written}; for example {row.example}")


def _kept_in(path: Path) -> list[str]:
    """Return the answers kept in a file; none where there is no such file."""
    try:
        held = json.loads(path.read_text("utf-8"))
    except FileNotFoundError:
        return []
    except (OSError, ValueError):
        held = None
    if not isinstance(held, list) or not all(isinstance(answer, str) for answer in held):
        stop(f"{path} holds no answers that can be read: move it away first")
    return held


def _leave(job: Path, kept: Path, answers: list[str]) -> None:
    from .files import write

    click.echo()
    if not answers:
        kept.unlink(missing_ok=True)
        click.echo("Nothing was answered and nothing is kept.")
        return
    write(kept.parent, {kept.name: json.dumps(answers, ensure_ascii=False) + "\n"})
    click.echo(f"Your {len(answers)} answers are kept in {kept}. To go on with them, type:")
    click.echo(f"  panelwright new {job}")


def _draw(draft: Draft, last: object, *, with_top: bool) -> object:
    """Draw the panel where an answer changed it, or with a top that fits; return what is drawn."""
    job = draft.job
    if job is None:
        return last
    state = (job.panel.boundary, job.panel.defects)
    if state != last or with_top:
        for row in sketch(job, _first_top(job) if with_top else None):
            click.echo(row)
    return state


def _first_top(job: Job) -> Fit | None:
    """Return a top that fits, found in a moment; say so where there is none."""
    from ..layout.errors import LayoutError
    from ..layout.plan.fitting import fits_of

    end = perf_counter() + PATIENCE
    try:
        fit = fits_of(job, progress=lambda steps, score, bound: perf_counter() < end)[0]
    except LayoutError as error:
        click.echo(f"   ! With these figures {error}. `back` changes them.")
        return None
    outline, tape = fit.outline, job.tape
    sizes = f"{tape.figure(outline.length)} × {tape.measure(outline.width)}"
    click.echo(f"   A {outline.name} of {sizes} fits, drawn as o:")
    return fit


def sketch(job: Job, fit: Fit | None = None) -> list[str]:
    """Return the panel of a job in rows of signs, a top too, and what they stand for."""
    import numpy as np

    from ..layout.geometry.polygon import Region
    from ..layout.panel.edges import lettered

    panel, tape, box = job.panel, job.tape, job.panel.boundary.bounds
    step = max(box.width / ACROSS, box.height / MOST_ROWS / SIGN_SHAPE)
    columns = max(1, round(box.width / step))
    rows = max(1, round(box.height / step / SIGN_SHAPE))
    xs = box.left + (np.arange(columns) + 0.5) * box.width / columns
    ys = box.top - (np.arange(rows) + 0.5) * box.height / rows
    cells = np.column_stack([np.tile(xs, rows), np.repeat(ys, columns)])
    signs = np.where(panel.region().holds_points(cells), WOOD, " ")
    if fit is not None:
        signs[Region.from_rings(fit.points()).holds_points(cells)] = TOP

    def nearest(point: Point) -> int:
        return int(np.argmin(np.hypot(cells[:, 0] - point.x, cells[:, 1] - point.y)))

    for number, defect in enumerate(panel.defects, 1):
        held = defect.extent.holds_points(cells)
        held[nearest(defect.place.bounds.middle)] |= not held.any()
        signs[held] = str(number % 10)
    corners = lettered(panel)[1]
    for corner in corners:
        signs[nearest(corner.point)] = corner.name
    size = f"{tape.figure(box.width)} × {tape.measure(box.height)}"
    told = [size, *["corners by their letters"] * bool(corners)]
    told += ["defects by their numbers"] * bool(panel.defects)
    picture = ("".join(row).rstrip() for row in signs.reshape(rows, columns))
    return [f"   {row}" for row in (*picture, "; ".join(told))]
