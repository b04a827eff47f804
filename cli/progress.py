"""A line that tells how a long search goes; silent where nobody watches a terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click

Progress = Callable[[int, float, float], bool]
"""Steps taken, score found, bound; returns whether to go on."""


@contextmanager
def progress_line() -> Iterator[Progress | None]:
    """Yield a callback that rewrites one line on a terminal, or None in a pipe."""
    if not sys.stderr.isatty():
        yield None
        return
    shown = False

    def tell(steps: int, score: float, bound: float) -> bool:
        nonlocal shown
        shown = True
        gap = f"{1 - score / bound:.2%}" if bound > 0 else "unknown"
        click.echo(f"\r  searching: {steps} boxes, gap {gap}   ", nl=False, err=True)
        return True

    try:
        yield tell
    finally:
        if shown:
            click.echo("\r" + " " * 60 + "\r", nl=False, err=True)
