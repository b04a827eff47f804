"""A line that tells how a long search goes; silent where nobody watches a terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import inf
from time import monotonic

import click

Progress = Callable[[int, float, float], bool]
"""Steps taken, score found, bound; returns whether to go on."""


@contextmanager
def progress_line(seconds: float | None = None) -> Iterator[Progress | None]:
    """Yield a callback that rewrites one line on a terminal; None where nothing is to be done.

    Parameters
    ----------
    seconds : float, optional
        After how long the callback says to stop.
    """
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
