"""What commands share: a job file read, a search watched, answers, and ending well."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from math import inf
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, Any, NoReturn

import click

from ..layout.errors import JobError, LayoutError, NothingFitsError, Problem, UndecidedError
from ..layout.plan.form import SCHEMA

if TYPE_CHECKING:
    from ..layout.plan.job import Job

BAD_JOB = 2
"""Exit code where what the maker gave cannot be used."""

NOTHING_FITS = 1
"""Exit code where the job is sound but no top fits."""

MOST_LISTED = 50
"""Problems of one file that are listed; the rest is counted."""

JOB = click.Path(path_type=Path, allow_dash=True)
"""The type of an argument that names a job file; ``-`` is standard input."""

as_json_option = click.option(
    "--json",
    "as_json",
    is_flag=True,
    expose_value=False,
    help="Print JSON for machines: mm, mm², degrees, kg, N; problems too.",
)
"""Gives a command `--json`; `wants_json` tells whether it was typed."""

time_limit = click.option(
    "--seconds",
    type=click.FloatRange(min=0, min_open=True),
    help="Stop searching after so long and tell the gap reached. Without it effort is counted in "
    "steps, so that the same job gives the same top.",
)
"""Gives a command `--seconds`."""


def answer(record: Callable[[], Mapping[str, Any]], lines: Callable[[], Iterable[str]]) -> None:
    """Print a record for machines, or lines for people; only what is wanted is made."""
    if wants_json():
        print_record(record())
        return
    for line in lines():
        click.echo(line)


def plainly(value: object) -> Any:  # noqa: ANN401 - JSON is anything
    """Return a value of the library as plain values."""
    from ..layout.plan.serialise import plain

    return plain(value)


def wants_json() -> bool:
    """Return whether the running command was asked for JSON."""
    context = click.get_current_context(silent=True)
    return context is not None and "--json" in (context.obj or ())


def print_record(record: Mapping[str, Any]) -> None:
    """Print a record of plain values, under the number of their form."""
    held = {"schema": SCHEMA, **record}
    click.echo(json.dumps(held, indent=1, ensure_ascii=False, allow_nan=False))


def problem_record(problem: Problem) -> dict[str, Any]:
    """Return a problem of a job file as plain values."""
    return {"key": problem.key, "line": problem.line, "message": problem.message}


@dataclass(frozen=True, slots=True)
class Text:
    """A job file as it was read."""

    data: bytes
    name: str
    """As messages call it."""


def job_text(path: Path) -> Text:
    """Return the content of a job file or of standard input, or end with a message."""
    from ..layout.jobfile.toml import LONGEST

    name = "standard input" if str(path) == "-" else str(path)
    try:
        if str(path) == "-":
            data = sys.stdin.buffer.read(LONGEST + 1)
        elif path.exists() and not path.is_file():
            stop(f"{path}: is no file, but a folder or a device: give the job file itself")
        else:
            with path.open("rb") as file:
                data = file.read(LONGEST + 1)
    except OSError as error:
        stop(f"{name}: cannot be read ({error.strerror or error})")
    if len(data) > LONGEST:
        stop(f"{name}: is too large for a job file: over {LONGEST:,} bytes, and no job needs them")
    return Text(data, name)


def job_from(path: Path, *, for_plan: bool = False) -> Job:
    """Return the job that a file holds, with all that a plan needs, or end with every problem."""
    return job_in(job_text(path), for_plan=for_plan)


def job_in(text: Text, *, for_plan: bool = False) -> Job:
    """Return the job that a text holds, or end with every problem listed."""
    from ..layout.jobfile import read_job

    try:
        job = read_job(text.data, source=text.name)
    except JobError as error:
        _refuse(text.name, error.problems)
    if for_plan and job.missing:
        _refuse(text.name, job.missing)
    return job


def _refuse(name: str, problems: Sequence[Problem]) -> NoReturn:
    """End with what is wrong with a job file, each with its line and key."""
    if wants_json():
        print_record({"problems": [problem_record(p) for p in problems]})
        raise click.exceptions.Exit(BAD_JOB)
    count = len(problems)
    click.echo(f"{name}: {count} problem{'s' if count != 1 else ''}", err=True)
    for problem in problems[:MOST_LISTED]:
        click.echo(f"  {problem}", err=True)
    if count > MOST_LISTED:
        click.echo(f"  and {count - MOST_LISTED} more", err=True)
    click.echo("Nothing was written.", err=True)
    raise click.exceptions.Exit(BAD_JOB)


def stop(message: str, *, as_json: bool = False) -> NoReturn:
    """End with exit code 2 and one clear message."""
    if as_json or wants_json():
        print_record({"problems": [problem_record(Problem("", message))]})
    else:
        click.echo(message, err=True)
    raise click.exceptions.Exit(BAD_JOB)


Progress = Callable[[int, float, float], bool]
"""Steps taken, score found, bound; returns whether to go on."""


@contextmanager
def searching(path: Path, seconds: float | None = None) -> Iterator[Progress | None]:
    """Yield what a search in a job file tells its progress to; end where there is no top.

    It rewrites one line on a terminal, and says to stop after `seconds`.
    """
    watched, end = sys.stderr.isatty(), inf if seconds is None else monotonic() + seconds

    def tell(steps: int, score: float, bound: float) -> bool:
        if watched:
            gap = f"{1 - score / bound:.2%}" if bound > 0 else "unknown"
            click.echo(f"\r  searching: {steps} boxes, gap {gap}   ", nl=False, err=True)
        return monotonic() < end

    try:
        try:
            yield tell if watched or seconds is not None else None
        finally:
            if watched:
                click.echo("\r" + " " * 60 + "\r", nl=False, err=True)
    except NothingFitsError as error:
        undecided = isinstance(error, UndecidedError)
        if wants_json():
            key = "undecided" if undecided else "nothing_fits"
            print_record({"problems": [], key: str(error)})
        else:
            click.echo(f"{'Undecided' if undecided else 'Nothing fits'}: {error}", err=True)
        raise click.exceptions.Exit(NOTHING_FITS) from None
    except LayoutError as error:
        stop(f"{'standard input' if str(path) == '-' else path}: {error}")
