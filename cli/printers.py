"""A sheet to measure a printer by, and printers as they were measured, kept for the user."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import kept_at, write_at
from .reading import answer, plainly, stop
from .typed import SIDES, Choices, Length

if TYPE_CHECKING:
    from ..layout.plan.job import Job
    from ..layout.template.calibration import PrinterProfile
    from ..layout.template.paper import Margins, Paper
    from ..layout.template.wish import TemplateWish

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


SHEET = "calibration.pdf"


def write_sheet(choices: Choices, wish: TemplateWish, out: Path | None) -> None:
    """Write the calibration sheet for some paper, and say what to do with it."""
    from ..layout.drawing.pdf import to_pdf
    from ..layout.sheets.without_plan import calibration_page
    from ..layout.template.calibration import CalibrationBars

    paper = choices.paper or wish.paper
    margins = choices.margins(wish.margins)
    bars = CalibrationBars.on(paper, margins)
    command = _command(paper, margins, choices.printer or wish.printer)
    scene = calibration_page(paper, margins, command)
    path = None if out is None else write_at(out / SHEET, to_pdf([scene], scene.title))
    written = [] if path is None else [str(path)]
    sizes = {"across": bars.across, "along": bars.along}

    def lines() -> Iterator[str]:
        across, along = bars.words(bars.across), bars.words(bars.along)
        lie = f"{across} along the short edge, {along} along the long edge"
        yield f"Calibration sheet for {paper.name}: {lie}."
        if path is None:
            yield "Nothing was written: name a folder with --out."
        else:
            yield f"Written to {path}. Print it at 100 %, measure both bars, and type:"
            yield "  " + " ".join(command)

    answer(lambda: {"paper": paper.name, "bars": sizes, "written": written}, lines)


def keep_measured(choices: Choices, x: Length | None, y: Length | None) -> None:
    """Keep what the bars read as the profile of a printer."""
    from ..layout.template.calibration import CalibrationBars
    from ..layout.template.wish import TemplateWish

    if x is None or y is None:
        raise click.UsageError("give both bars: --measured-x and --measured-y")
    if choices.printer is None:
        raise click.UsageError("give the printer a name: --printer NAME")
    if choices.paper is None:
        raise click.UsageError("name the paper of the calibration sheet: --paper, as it says")
    path = profile_path(choices.printer)
    margins = choices.margins(TemplateWish().margins)
    bars = CalibrationBars.on(choices.paper, margins)
    profile = bars.measured(choices.printer, x.mm, y.mm)
    write_at(path, profile.to_json())

    def lines() -> Iterator[str]:
        from ..layout.words.paper import correction_words

        name, right = profile.name, f"The printer {profile.name!r} prints true: nothing to correct."
        none = profile.correction.is_none
        yield right if none else f"Corrected {correction_words(profile.correction)}."
        yield f"Kept in {path}"
        yield f'Use it with --printer "{name}", or printer = "{name}" under [template] in a job.'

    answer(lambda: {"profile": plainly(profile), "written": [str(path)]}, lines)


def _command(paper: Paper, margins: Margins, printer: str) -> tuple[str, ...]:
    """Return what to type once the sheet is measured, in lines."""
    from ..layout.template.wish import TemplateWish

    if margins == TemplateWish().margins:
        white = ""
    elif margins.are_equal:
        white = f" --margin {margins.left:g}"
    else:
        white = "".join(f" --margin-{side} {getattr(margins, side):g}" for side in SIDES)
    return (
        "panelwright template --measured-x … --measured-y …",
        f'--paper "{paper.name.replace("×", "x")}" --printer "{printer or "NAME"}"{white}',
    )
