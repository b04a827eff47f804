"""What every command that searches shares: a line of progress, a time limit, and ending well."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import inf
from pathlib import Path
from time import monotonic

import click

from .reading import NOTHING_FITS, Command, print_record, stop, wants_json

Progress = Callable[[int, float, float], bool]
"""Steps taken, score found, bound; returns whether to go on."""


@contextmanager
def progress_line(seconds: float | None = None) -> Iterator[Progress | None]:
    """Yield a callback that rewrites one line on a terminal, and says to stop after `seconds`."""
    watched = sys.stderr.isatty()
    if not watched and seconds is None:
        yield None
        return
    end = inf if seconds is None else monotonic() + seconds
    shown = False

    def tell(steps: int, score: float, bound: float) -> bool:
        nonlocal shown
        if watched:
            shown = True
            gap = f"{1 - score / bound:.2%}" if bound > 0 else "unknown"
            click.echo(f"\r  searching: {steps} boxes, gap {gap}   ", nl=False, err=True)
        return monotonic() < end

    try:
        yield tell
    finally:
        if shown:
            click.echo("\r" + " " * 60 + "\r", nl=False, err=True)


def time_limit(command: Command) -> Command:
    """Give a command the option `--seconds`."""
    return click.option(
        "--seconds",
        type=click.FloatRange(min=0, min_open=True),
        help="Stop searching after so long and tell the gap reached. Without it effort is counted "
        "in steps, so that the same job gives the same top.",
    )(command)


@contextmanager
def searching(path: Path, seconds: float | None = None) -> Iterator[Progress | None]:
    """Yield what a search in a job file tells its progress to; end where there is no top."""
    from ..layout.errors import LayoutError, NothingFitsError, UndecidedError

    try:
        with progress_line(seconds) as progress:
            yield progress
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
