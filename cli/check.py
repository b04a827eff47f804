"""`panelwright check JOB`: every problem of a job file, with its line and what to do."""

from __future__ import annotations

from pathlib import Path

import click

from .reading import job_from

EXAMPLES = """
\b
Examples:
  panelwright check door.toml
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=click.Path(path_type=Path))
def check(job: Path) -> None:
    """List what is wrong with the job file JOB; end with 0 where nothing is, else with 2."""
    found = job_from(job)
    if found.missing:
        click.echo(f"{job}: good for a fit; a plan also needs:")
        for problem in found.missing:
            click.echo(f"  {problem}")
        return
    click.echo(f"{job}: no problems")
