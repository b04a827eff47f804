"""`panelwright hours`: how long each step takes you, kept in the user's configuration folder."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from .files import kept_at, write_at
from .reading import answer, as_json_option, stop

if TYPE_CHECKING:
    from ..layout.plan.job import Job
    from ..layout.work.wish import WorkWish

FILE = "hours.json"

EXAMPLES = """
\b
Examples:
  panelwright hours
  panelwright hours sand 0.3 0.5
  panelwright hours --day 3
  panelwright hours --forget sand
"""


@click.command(epilog=EXAMPLES)
@click.argument("step", required=False)
@click.argument("least", type=click.FloatRange(0, 1000), required=False)
@click.argument("most", type=click.FloatRange(0, 1000), required=False)
@click.option("--day", type=click.FloatRange(0.5, 24), help="Hours at the bench in a day.")
@click.option("--forget", metavar="STEP", help="Take common practice again for this step.")
@as_json_option
def hours(
    step: str | None, least: float | None, most: float | None, day: float | None, forget: str | None
) -> None:
    """List how long each step of the work takes, or keep your own figure for STEP.

    LEAST and MOST are hours for one of what the step is counted by, such as a m² to be sanded; MOST
    may be left out. They are kept for every job; [work] in a job file goes before them.
    """
    kept = kept_hours()
    if step is not None and least is None:
        raise click.UsageError("give the hours of the step, least and most")
    if step is None and day is None and forget is None:
        answer(lambda: _record(kept), lambda: _lines(kept))
        return
    paces = dict(kept.pace)
    if step is not None and least is not None:
        paces[step] = (least, least if most is None else most)
    if forget is not None and paces.pop(forget, None) is None:
        stop(f"{forget!r}: no hours are kept for it: panelwright hours lists them")
    from ..layout.work.wish import WorkWish

    told = WorkWish(day=day or kept.day, pace=tuple(paces.items()))
    record = {"day": told.day, "pace": {name: list(span) for name, span in told.pace}}
    path = write_at(kept_at(FILE), json.dumps(record, indent=1, ensure_ascii=False) + "\n")
    answer(lambda: _record(told), lambda: [f"Kept in {path}"])


def kept_hours() -> WorkWish:
    """Return what is kept for every job; nothing where nothing is, or end with what is wrong."""
    from ..layout.errors import LayoutError
    from ..layout.work.wish import WorkWish

    path = kept_at(FILE)
    try:
        held = json.loads(path.read_text(encoding="utf-8"))
        return WorkWish(day=held["day"], pace=held["pace"])
    except FileNotFoundError:
        return WorkWish()
    except OSError as error:
        stop(f"{path}: cannot be read ({error.strerror or error})")
    except (ValueError, KeyError, TypeError, LayoutError) as error:
        why = str(error) if isinstance(error, LayoutError) else "it is no list of hours"
        stop(f"{path}: {why}: mend it, or take it away and keep your hours anew")


def with_hours(job: Job) -> Job:
    """Return a job with the maker's own hours where it says none."""
    return replace(job, work=job.work.over(kept_hours()))


def _record(kept: WorkWish) -> dict[str, Any]:
    """Return how long each step takes, for one of what, and whether the maker says so."""
    from ..layout.work.deeds import Deed

    own, steps = dict(kept.pace), []
    for deed in (deed for deed in Deed if deed.most):
        told = {"step": deed.value, "hours": list(kept.pace_of(deed)), "for": deed.per.value}
        steps.append({**told, "own": deed.value in own})
    return {"day": kept.day, "steps": steps}


def _lines(kept: WorkWish) -> Iterator[str]:
    yield from (f"{'Step':20} {'Hours':>12}  for one", "")
    for step in _record(kept)["steps"]:
        hours = "{:g} to {:g}".format(*step["hours"])
        yield f"{step['step']:20} {hours:>12}  {step['for']}{'  (yours)' if step['own'] else ''}"
    yield from ("", f"{kept.day:g} h at the bench in a day. Yours are kept in {kept_at(FILE)}")
