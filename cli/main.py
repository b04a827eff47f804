"""The command line. Commands import what they need only when they run, so that help is quick."""

from __future__ import annotations

import click

from .check import check
from .fit import fit
from .legs import legs
from .mark import mark
from .plan import plan
from .template import template

EXAMPLES = """
\b
Examples:
  panelwright check samples/lab-bench/job.toml
  panelwright fit samples/lab-bench/job.toml
  panelwright legs samples/lab-bench/job.toml
  panelwright plan samples/lab-bench/job.toml --out lab-bench
  panelwright template samples/lab-bench/job.toml --out lab-bench
"""


@click.group(epilog=EXAMPLES, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="panelwright", message="%(prog)s %(version)s")
def main() -> None:
    """Lay out a new tabletop on an old panel.

    A job file tells of the panel, its defects and the top you wish for. From it come the largest
    top that fits, every mark with the tape measures that find it, the cuts in order, the legs, the
    offcuts, and sheets to work from at the bench.
    """


main.add_command(check)
main.add_command(fit)
main.add_command(legs)
main.add_command(mark)
main.add_command(plan)
main.add_command(template)
