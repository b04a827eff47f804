"""The ordinates sheet: the finish line in figures, for a batten and a rule."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing.kit.flow import Flow
from ..drawing.scene import Scene
from ..template.content import TemplateContent
from ..template.ordinates import Station, ordinates
from ..template.paper import Margins, Paper, Sheet
from ..units import Tape, nearest_whole
from ..words.paper import alike_words, figures_words
from ..words.say import thin_words


def ordinates_pages(content: TemplateContent, paper: Paper, margins: Margins) -> tuple[Scene, ...]:
    """Return the finish line's square distances from the centrelines, and every mark's.

    Where both halves are alike one is given.
    """
    tape, x, y = content.tape, content.symmetric_x, content.symmetric_y
    sheet = Sheet.upright(paper, margins)
    flow = Flow(sheet.frame, sheet.printable.grown(-1.0), f"Ordinates, {content.title}")
    flow.words("The finish line in figures", 5.0, bold=True)
    for sentence in figures_words(content):
        flow.words(sentence)
    table = ordinates(content.finish, tape, symmetric_x=x, symmetric_y=y)
    alike_x, alike_y = alike_words(content)
    flow.heading("Along the long centreline")
    flow.words(f"From the middle {alike_x}; then square to it {alike_y}.")
    flow.table(_rows(table.along, tape, both=not y, ends=("up", "down")))
    flow.heading("Along the cross centreline")
    flow.words(f"From the middle {alike_y}; then square to it {alike_x}.")
    flow.table(_rows(table.across, tape, both=not x, ends=("right", "left")))
    if content.marks:
        flow.heading("The marks")
        flow.table([("mark", "along", "up", "hole"), *_mark_rows(content)])
    return flow.scenes()


def _rows(
    stations: Sequence[Station], tape: Tape, *, both: bool, ends: tuple[str, str]
) -> list[tuple[str, ...]]:
    """Return a heading and a row for each station, with both offsets where they differ."""
    heading = ("station", ends[0], ends[1]) if both else ("station", ends[0])
    hollow = any(station.between for station in stations)
    rows: list[tuple[str, ...]] = [(*heading, "and between") if hollow else heading]
    for station in stations:
        figures = (station.at, station.high, station.low) if both else (station.at, station.high)
        row = [ordinate_figure(value, tape) for value in figures]
        if hollow:
            row.append(", ".join(ordinate_figure(value, tape) for value in station.between))
        rows.append(tuple(row))
    return rows


def ordinate_figure(value: float, tape: Tape) -> str:
    """Return half millimetres or sixteenths: finer than a pencil, no finer than a rule."""
    if tape.imperial:
        return tape.figure(value)
    return f"{nearest_whole(value * 2) / 2:.1f}".replace("-", "−")


def _mark_rows(content: TemplateContent) -> list[tuple[str, ...]]:
    return [
        (
            mark.label,
            ordinate_figure(mark.at.x, content.tape),
            ordinate_figure(mark.at.y, content.tape),
            f"ø {thin_words(mark.diameter, content.tape)}" if mark.diameter else "point",
        )
        for mark in content.marks
    ]
