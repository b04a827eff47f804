"""`panelwright hours`: how long each step takes you, kept in the user's configuration folder."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import write
from .machine import SCHEMA, as_json_option, print_record
from .reading import stop

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
    step: str | None,
    least: float | None,
    most: float | None,
    day: float | None,
    forget: str | None,
    as_json: bool,
) -> None:
    """List how long each step of the work takes, or keep your own figure for STEP.

    LEAST and MOST are hours for one of what the step is counted by, such as a m² to be sanded; MOST
    may be left out. They are kept for every job; [work] in a job file goes before them.
    """
    kept = kept_hours()
    if step is not None and least is None:
        raise click.UsageError("give the hours of the step, least and most")
    if step is None and day is None and forget is None:
        _tell(kept, as_json=as_json)
        return
    paces = dict(kept.pace)
    if step is not None:
        assert least is not None
        paces[step] = (least, least if most is None else most)
    if forget is not None and paces.pop(forget, None) is None:
        stop(f"{forget!r}: no hours are kept for it: panelwright hours lists them")
    from ..layout.work.wish import WorkWish

    told = WorkWish(day=day or kept.day, pace=tuple(paces.items()))
    path = _keep(told)
    if as_json:
        _tell(told, as_json=True)
    else:
        click.echo(f"Kept in {path}")


def kept_hours() -> WorkWish:
    """Return what is kept for every job; nothing where nothing is, or end with what is wrong."""
    from ..layout.errors import LayoutError
    from ..layout.work.wish import WorkWish

    path = _path()
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


def _path() -> Path:
    import platformdirs

    return platformdirs.user_config_path("panelwright", appauthor=False) / FILE


def _keep(told: WorkWish) -> Path:
    path = _path()
    record = {"day": told.day, "pace": {name: list(span) for name, span in told.pace}}
    text = json.dumps(record, indent=1, ensure_ascii=False) + "\n"
    write(path.parent, {path.name: text})
    return path


def _tell(kept: WorkWish, *, as_json: bool) -> None:
    from ..layout.work.deeds import EFFORTS

    own = dict(kept.pace)
    if as_json:
        steps = [
            {
                "step": deed.value,
                "hours": list(kept.pace_of(deed)),
                "for": effort.per.value,
                "own": deed.value in own,
            }
            for deed, effort in EFFORTS.items()
        ]
        print_record({"schema": SCHEMA, "day": kept.day, "steps": steps})
        return
    lines = [f"{'Step':20} {'Hours':>12}  for one", ""]
    for deed, effort in EFFORTS.items():
        least, most = kept.pace_of(deed)
        whose = "  (yours)" if deed.value in own else ""
        lines.append(f"{deed.value:20} {f'{least:g} to {most:g}':>12}  {effort.per.value}{whose}")
    lines += ["", f"{kept.day:g} h at the bench in a day. Yours are kept in {_path()}"]
    click.echo("\n".join(lines))
