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

LARGEST_FILE = 4_000_000
"""Bytes; a panel of two thousand corners takes a fiftieth of it."""


def job_bytes(path: Path) -> bytes:
    """Return the content of a job file, or end with a message."""
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            stop(f"{path}: {size:,} bytes is too large for a job file (limit {LARGEST_FILE:,})")
        return path.read_bytes()
    except OSError as error:
        stop(f"{path}: cannot be read ({error.strerror or error})")


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
    for problem in problems:
        click.echo(f"  {problem}", err=True)
    click.echo("Nothing was written.", err=True)


def stop(message: str) -> NoReturn:
    """End with exit code 2 and one clear message."""
    click.echo(message, err=True)
    raise click.exceptions.Exit(BAD_JOB)
