"""Reading a job file, and ending well where it cannot be used."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from ..layout.errors import JobError, Problem

if TYPE_CHECKING:
    from ..layout.job.job import Job

BAD_JOB = 2
"""Exit code where what the maker gave cannot be used."""

NOTHING_FITS = 1
"""Exit code where the job is sound but no top fits."""

MOST_LISTED = 50
"""Problems of one file that are listed; the rest is counted."""


def job_bytes(path: Path) -> bytes:
    """Return the content of a job file, or end with a message."""
    from ..layout.job.text.toml import LONGEST

    try:
        if path.exists() and not path.is_file():
            stop(f"{path}: is no file, but a folder or a device: give the job file itself")
        with path.open("rb") as file:
            data = file.read(LONGEST + 1)
    except OSError as error:
        stop(f"{path}: cannot be read ({error.strerror or error})")
    if len(data) > LONGEST:
        stop(f"{path}: is too large for a job file: over {LONGEST:,} bytes, and no job needs them")
    return data


def job_from(path: Path, *, for_plan: bool = False) -> Job:
    """Return the job that a file holds, or end with every problem listed.

    Parameters
    ----------
    for_plan : bool
        Whether what only a plan needs must be there too.
    """
    from ..layout.job.reading import read_job

    try:
        job = read_job(job_bytes(path), source=str(path))
    except JobError as error:
        list_problems(path, error.problems)
        raise click.exceptions.Exit(BAD_JOB) from None
    if for_plan and job.missing:
        list_problems(path, job.missing)
        raise click.exceptions.Exit(BAD_JOB)
    return job


def list_problems(path: Path, problems: tuple[Problem, ...]) -> None:
    """Print what is wrong with a job file, each with its line and key, to standard error."""
    count = len(problems)
    click.echo(f"{path}: {count} problem{'s' if count != 1 else ''}", err=True)
    for problem in problems[:MOST_LISTED]:
        click.echo(f"  {problem}", err=True)
    if count > MOST_LISTED:
        click.echo(f"  and {count - MOST_LISTED} more", err=True)
    click.echo("Nothing was written.", err=True)


def stop(message: str) -> NoReturn:
    """End with exit code 2 and one clear message."""
    click.echo(message, err=True)
    raise click.exceptions.Exit(BAD_JOB)
