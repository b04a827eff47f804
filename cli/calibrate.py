"""A calibration sheet to measure a printer by, and what was read on it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .files import write_at
from .lengths import Length
from .printers import profile_path
from .reading import answer, plainly
from .template_options import SIDES, Choices

if TYPE_CHECKING:
    from ..layout.template.paper import Margins, Paper
    from ..layout.template.wish import TemplateWish

FILE = "calibration.pdf"


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
    path = None if out is None else write_at(out / FILE, to_pdf([scene], scene.title))
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
