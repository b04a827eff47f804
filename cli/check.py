"""`panelwright check JOB`: what is wrong with a job file, or what was understood of it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING, Any

import click

from ..layout.errors import LayoutError, NothingFitsError, Problem
from .printers import with_printer
from .reading import (
    JOB,
    Text,
    answer,
    as_json_option,
    job_in,
    job_text,
    plainly,
    problem_record,
    stop,
)

if TYPE_CHECKING:
    from ..layout.fit.found import Fit
    from ..layout.plan.job import Job

WIDTH = 96

EXAMPLES = """
\b
Examples:
  panelwright check door.toml
  panelwright check door.toml --json
"""


@click.command(epilog=EXAMPLES)
@click.argument("job", type=JOB)
@as_json_option
def check(job: Path) -> None:
    """List what is wrong with the job file JOB, or say what was understood of it.

    Ends with 0 where nothing is wrong, also where a figure is possible but so unlikely that it is
    worth a second look; else with 2.
    """
    text = job_text(job)
    found = with_printer(job_in(text))
    from ..layout.plan.doubts import first_look

    look: Fit | NothingFitsError | None = None
    try:
        look = first_look(found)
    except NothingFitsError as error:
        look = error
    except LayoutError as error:  # where no search could begin, as every command does
        stop(f"{text.name}: {error}")
    again = tuple(_look_again(found, text, look))

    def record() -> dict[str, Any]:
        missing, unlikely = ([problem_record(p) for p in held] for held in (found.missing, again))
        return {"problems": [], "missing": missing, "look_again": unlikely, "job": plainly(found)}

    def lines() -> Iterator[str]:
        from ..layout.words.understood import understood

        good = "good for a fit; a plan also needs:" if found.missing else "no problems"
        yield f"{text.name}: {good}"
        yield from (f"  {problem}" for problem in found.missing)
        for heading, words in understood(found, None if isinstance(look, Exception) else look):
            for k, line in enumerate(wrap(words, WIDTH - 14) or [""]):
                yield f"  {'' if k else heading:<11} {line}"
        yield from ["Look again:", *(f"  {problem}" for problem in again)] if again else ()

    answer(record, lines)


def _look_again(job: Job, text: Text, look: Fit | NothingFitsError | None) -> Iterator[Problem]:
    from ..layout.jobfile.toml import decoded, tables_of
    from ..layout.keys.place import key_text, nearest_line
    from ..layout.plan.doubts import doubts_about, doubts_about_top
    from ..layout.words.understood import doubt_words

    tables = tables_of(decoded(text.data))
    for doubt in (*doubts_about(job, tables.values), *doubts_about_top(job, look)):
        line = nearest_line(tables.lines, doubt.trail)
        yield Problem(key_text(doubt.trail), doubt_words(doubt, job), line)
