"""What every command that searches shares: a line of progress, a time limit, and ending well."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

import click

from .machine import SCHEMA, print_record, wants_json
from .progress import Progress, progress_line
from .reading import NOTHING_FITS, stop

Command = TypeVar("Command", bound=Callable[..., Any])


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
    """Yield what a search tells its progress to, and end the command where there is no top.

    Parameters
    ----------
    path : Path
        The job file, for a message.
    seconds : float, optional
        After how long a search is stopped.
    """
    from ..layout.errors import LayoutError, NothingFitsError, UndecidedError

    try:
        with progress_line(seconds) as progress:
            yield progress
    except NothingFitsError as error:
        undecided = isinstance(error, UndecidedError)
        if wants_json():
            key = "undecided" if undecided else "nothing_fits"
            print_record({"schema": SCHEMA, "problems": [], key: str(error)})
        else:
            click.echo(f"{'Undecided' if undecided else 'Nothing fits'}: {error}", err=True)
        raise click.exceptions.Exit(NOTHING_FITS) from None
    except LayoutError as error:
        stop(f"{'standard input' if str(path) == '-' else path}: {error}")
