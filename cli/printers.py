"""Printers as they were measured, kept in the user's configuration folder."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import kept_at
from .reading import stop

if TYPE_CHECKING:
    from ..layout.plan.job import Job
    from ..layout.template.calibration import PrinterProfile

_PREFIX = "printer-"
"""Before every name, for there are names that a system keeps for itself."""

_LONGEST_NAME = 40


def profile_path(name: str) -> Path:
    """Return the file of a printer; names that differ in capitals or blanks share one."""
    letters = unicodedata.normalize("NFKC", name).casefold()
    key = re.sub(r"[\W_]+", "-", letters).strip("-")
    if not key or len(key) > _LONGEST_NAME or not name.isprintable():
        most = f"{_LONGEST_NAME} of them at most"
        stop(f"printer {name!r}: give it a name of letters and digits, {most}")
    return kept_at("printers", f"{_PREFIX}{key}.json")


def _read_profile(name: str) -> PrinterProfile:
    """Return the profile of a printer, or end with what is wrong with it."""
    from ..layout.errors import LayoutError
    from ..layout.template.calibration import PrinterProfile

    path = profile_path(name)
    try:
        return PrinterProfile.from_json(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        kept = kept_at("printers").glob(f"{_PREFIX}*.json")
        known = ", ".join(sorted(path.stem.removeprefix(_PREFIX) for path in kept)) or "none yet"
        stop(
            f"printer {name!r} was not measured; known are: {known}. Print a calibration sheet "
            "with panelwright template --calibrate, measure it and keep what you read"
        )
    except OSError as error:
        stop(f"{path}: cannot be read ({error.strerror or error})")
    except UnicodeDecodeError:
        stop(f"{path}: this is no printer profile: measure the calibration sheet again")
    except LayoutError as error:
        stop(f"{path}: {error}")


def with_printer(job: Job) -> Job:
    """Return a job whose template is corrected for the printer that it names, if it names one."""
    name = job.template.printer
    if not name:
        return job
    from ..layout.errors import LayoutError

    profile, paper = _read_profile(name), job.template.paper.name
    if profile.paper != paper:
        click.echo(
            f"The printer {profile.name!r} was measured on {profile.paper}, the template is for "
            f"{paper}: paper that is fed another way may be out by more.",
            err=True,
        )
    try:
        return replace(job, template=replace(job.template, correction=profile.correction))
    except LayoutError as error:
        stop(f"template for the printer {name!r}: {error}")
