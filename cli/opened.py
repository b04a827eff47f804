"""Opening what was written with the program that the system has for it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click

Writing = Callable[..., Path | None]
"""A command that returns the first file that it wrote, None where it wrote none."""


def open_option(*places: str) -> Callable[[Writing], Callable[..., None]]:
    """Give a command the option `--open`.

    Parameters
    ----------
    places : str
        The options of which one must say where something is written.
    """

    def decorated(command: Writing) -> Callable[..., None]:
        @click.option("--open", "opened", is_flag=True, help="Open the first sheet written.")
        @wraps(command)
        def opening(opened: bool, **typed: Any) -> None:  # noqa: ANN401 - as options have it
            if opened and all(typed[place] is None for place in places):
                named = " or ".join(f"--{place}" for place in places)
                raise click.UsageError(f"--open opens what is written: say where with {named}")
            first = command(**typed)
            if opened and first is not None and click.launch(str(first.absolute())) != 0:
                click.echo(f"No program was found that opens {first}.", err=True)

        return opening

    return decorated
