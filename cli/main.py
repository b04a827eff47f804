"""The command line. Commands import what they need only when they run, so that help is quick."""

from __future__ import annotations

import atexit
import gc
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib import import_module
from typing import Any

import click

from ..layout.errors import LayoutError
from .reading import stop

EXAMPLES = """
\b
Examples:
  panelwright new table.toml
  panelwright keys ring stain
  panelwright check samples/lab-bench/job.toml
  panelwright fit samples/lab-bench/job.toml
  panelwright legs samples/lab-bench/job.toml
  panelwright plan samples/lab-bench/job.toml --out lab-bench
  panelwright template samples/lab-bench/job.toml --out lab-bench
"""


COMMANDS = ("check", "fit", "hours", "keys", "legs", "mark", "measure", "new", "plan", "template")
"""Each is what a module of its name holds under it, and is loaded when it is asked for."""

_RARELY = 100_000
"""Objects made between two looks for rings of them that nobody holds: a command makes few rings and
ends soon, and looks after every 700 took a tenth of its time. As it ends everything is set aside,
so that Python looks for none among what the system takes back anyway: that took another tenth."""

_THREADS = "OPENBLAS_NUM_THREADS"
"""Read by numpy's and scipy's linear algebra as they load. Nothing here is large enough for a
second thread: it waited, and took a tenth of a plan's seconds from whatever else runs."""

UNFORESEEN = 3
"""Exit code where the program itself is at fault."""

TRACE = "PANELWRIGHT_TRACE"
"""Set in the environment, it lets the traceback of an unforeseen error through."""


@contextmanager
def _misuse_told(typed: Sequence[str]) -> Iterator[None]:
    """Tell in JSON, where that is asked for, what is wrong with a command line; else click does."""
    try:
        yield
    except click.UsageError as error:
        if "--json" not in typed:
            raise
        stop(error.format_message(), as_json=True)


def command_of(name: str) -> click.Command:
    """Return one of the commands by its name."""
    command: click.Command = getattr(import_module(f"..{name}", __name__), name)
    return command


class LastResort(click.Group):
    """Commands of which no traceback reaches a person."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of all commands."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name; None where there is none."""
        return command_of(cmd_name) if cmd_name in COMMANDS else None

    def make_context(
        self,
        info_name: str | None,
        args: list[str],
        parent: click.Context | None = None,
        **extra: Any,  # noqa: ANN401 - as click has it
    ) -> click.Context:
        """Return what a command line asks for; it is kept, to know how misuse is to be told."""
        typed = tuple(args)
        with _misuse_told(typed):
            return super().make_context(info_name, args, parent, obj=typed, **extra)

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - as click has it
        """Run a command; what nobody foresaw is told in one line, but not that a pipe is broken."""
        try:
            with _misuse_told(ctx.obj):
                return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except LayoutError as error:
            stop(str(error))
        except OSError as error:
            where = error.filename or "what is printed"
            stop(f"{where}: cannot be read or written ({error.strerror or error})")
        except Exception as error:
            if TRACE in os.environ:
                raise
            said = " ".join(f"{type(error).__name__}: {error}".split())
            click.echo(
                f"This should not have happened ({said}). The fault lies with panelwright, not "
                f"with your job: please report this line with the job file. {TRACE}=1 before the "
                "command shows where it happened.",
                err=True,
            )
            raise click.exceptions.Exit(UNFORESEEN) from None


@click.group(
    cls=LastResort, epilog=EXAMPLES, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(
    None, "-V", "--version", package_name="panelwright", message="%(prog)s %(version)s"
)
def main() -> None:
    """Lay out a new tabletop on an old panel.

    A job file tells of the panel, its defects and the top you wish for. From it come the largest
    top that fits, every mark with the tape measures that find it, the cuts in order, the legs, the
    offcuts, and sheets to work from at the bench.
    """
    os.environ.setdefault(_THREADS, "1")
    gc.set_threshold(_RARELY)
    atexit.register(gc.freeze)
