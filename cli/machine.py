"""What every command gives to machines: JSON on standard output, whatever comes of it."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

import click

from ..layout.plan.form import SCHEMA

if TYPE_CHECKING:
    from ..layout.errors import Problem

__all__ = ["SCHEMA", "as_json_option", "print_record", "problem_record", "wants_json"]

Command = TypeVar("Command", bound=Callable[..., Any])


def as_json_option(command: Command) -> Command:
    """Give a command the option `--json`, handed on as `as_json`."""
    return click.option(
        "--json",
        "as_json",
        is_flag=True,
        help="Print JSON for machines: mm, mm², degrees, kg, N; problems too.",
    )(command)


def wants_json() -> bool:
    """Return whether the running command was asked for JSON."""
    context = click.get_current_context(silent=True)
    return context is not None and "--json" in (context.obj or ())


def print_record(record: Mapping[str, Any]) -> None:
    """Print a record of plain values."""
    click.echo(json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False))


def problem_record(problem: Problem) -> dict[str, Any]:
    """Return a problem of a job file as plain values."""
    return {"key": problem.key, "line": problem.line, "message": problem.message}
