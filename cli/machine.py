"""What every command gives to machines: JSON on standard output, whatever comes of it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

import click

from ..layout.plan.form import SCHEMA

if TYPE_CHECKING:
    from ..layout.errors import Problem

Command = TypeVar("Command", bound=Callable[..., Any])


def as_json_option(command: Command) -> Command:
    """Give a command the option `--json`; `wants_json` tells whether it was typed."""
    return click.option(
        "--json",
        "as_json",
        is_flag=True,
        expose_value=False,
        help="Print JSON for machines: mm, mm², degrees, kg, N; problems too.",
    )(command)


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
