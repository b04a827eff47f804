"""The pages of words of a printed template: its cover with the map of its sheets, and ordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..drawing import layers
from ..drawing.kit.flow import LETTERS, Drawn, Flow
from ..drawing.kit.labels import LabelSetter
from ..drawing.kit.picture import DrawingFrame
from ..drawing.scene import Mark, Scene, Sign, Stroke, Text
from ..geometry import Bounds, Path, Point
from ..geometry.window import clipped
from ..template.calibration import longest_bar, wrong_prints
from ..template.content import Station, TemplateContent, ordinates
from ..template.paper import Margins, Paper, Sheet
from ..template.portions import Proposal
from ..template.tiles import Tile, TilePlan, field_of
from ..units import Tape, nearest_whole
from ..words import paper
from ..words.paper import alike_words, figures_words
from . import template_drawing as parts

_MAP_HEIGHT = 75.0
_HEADING_ROOM = 11.0


def cover_pages(content: TemplateContent, proposal: Proposal) -> tuple[Scene, ...]:
    """Return the cover, on one upright sheet or as many as its words need."""
    plan = proposal.plan
    sheet = Sheet.upright(plan.paper, plan.upright_margins)
    flow = Flow(sheet.frame, sheet.printable.grown(-1.0), f"Cover, {content.title}")
    flow.words(content.title, 5.0, bold=True)
    flow.words(paper.shown_words(content, proposal), bold=content.mirrored)
    if plan.tiles:
        for sentence in paper.face_words(content):
            flow.words(sentence, bold=content.mirrored != content.below)
        _check_list(flow, content, plan)
        _sheets(flow, content, proposal)
    hollow = paper.hollow_words(content)
    if hollow:
        flow.heading("Hollow corners")
        flow.words(hollow)
    left_out = paper.left_out_words(content, proposal)
    if left_out:
        flow.heading("Marks that are not on the paper: set out by measure")
    for i, told in enumerate(left_out):
        flow.words(told, indent=6.0 if i else 0.0)
    return flow.scenes()


def _sheets(flow: Flow, content: TemplateContent, proposal: Proposal) -> None:
    """Set the map of the sheets, the legend of their marks, and how they are laid down."""
    portion = proposal.portion
    height = min(_MAP_HEIGHT, flow.room.height - _HEADING_ROOM)
    flow.need(height + _HEADING_ROOM)
    flow.heading("The sheets")
    flow.drawing(height, lambda box: sheet_map(content, proposal, box))
    signs = parts.signs_of(portion.marks(content))
    if signs:
        flow.heading("The marks")
        flow.drawing(parts.ROW * len(signs), lambda box: _legend(signs, box))
    flow.heading("How it is laid on the work")
    for sentence in paper.use_words(portion):
        flow.words(sentence)
    if content.kept:
        flow.words(paper.KEPT)


def _check_list(flow: Flow, content: TemplateContent, plan: TilePlan) -> None:
    tape, field = content.tape, field_of(plan.sheet, plan.correction)
    bars = (longest_bar(field.width - 1.0, tape), longest_bar(field.height - 1.0, tape))
    flow.heading("Before any cut")
    flow.check(paper.PRINT)
    flow.check(tape.fill(paper.BARS, across=bars[0], up=bars[1]))
    wrong = wrong_prints(plan.paper)
    if wrong:
        flow.words(paper.WRONG, indent=6)
        flow.table([paper.read_as(print_, bars, tape) for print_ in wrong], indent=6.0)
    flow.space(0.8)
    if plan.register_marks:
        flow.check(paper.TRIM)
    lengths = paper.length_rows(plan, tape)
    if lengths:
        flow.check(paper.CROSSES)
        flow.table(lengths, indent=6.0)
    if lengths and plan.register_marks:
        flow.words(paper.SEAM_PLAY, indent=6.0)
    flow.space(0.8)
    flow.check(paper.FACE_MARK[content.mirrored])


_NAMES = 3.5  # height of a sheet's name, mm

_IN_CELL = ((0.5, 0.5), (0.25, 0.75), (0.75, 0.75), (0.25, 0.25), (0.75, 0.25), (0.5, 0.75),
            (0.5, 0.25))  # fmt: skip
"""Where in its cell a sheet's name may stand, as shares of its width and height."""


def sheet_map(content: TemplateContent, proposal: Proposal, box: Bounds) -> Iterator[Drawn]:
    """Yield the sheets side by side with the outline, flip lines and corner crosses, to scale."""
    plan, portion = proposal.plan, proposal.portion
    whole, clear = plan.whole, parts.FACE_MARK[0] + 4.0
    scale = max(whole.width / (box.width - 2 * clear), whole.height / (box.height - 4))
    frame = DrawingFrame(box, scale, box.middle - whole.middle * (1 / scale))
    along, across = parts.centrelines(whole)
    spots = LabelSetter(box)
    for layer, paths in (
        (layers.SHEET, [Path.round_box(tile.window) for tile in plan.tiles]),
        (layers.MAP_LINE, portion.outline(content.finish)),
        (layers.CENTRELINE, [across] * portion.flip_x + [along] * portion.flip_y),
    ):
        for piece in (piece for path in paths for piece in clipped(path, whole)):
            drawn = frame.of(piece)
            yield layer, Stroke(drawn)
            spots.keep_clear_along(drawn, half=0.2, step=0.8)
    for cross in plan.corner_crosses:
        place = frame.at(cross.at)
        yield layers.CHECK_BARS, Mark(place, 1.2)
        spots.keep_clear(Bounds.about(place, 1.2))
        for item in spots.set(Text(place, cross.name), off=1.5, within=True):
            yield layers.CHECK_BARS, item
    for tile in plan.tiles:
        yield from ((layers.LETTERING, text) for text in spots.placed(_names(tile, frame)))
    flag = Point(box.left, box.top - parts.FACE_MARK[1])
    for stroke in parts.face_mark(flag, mirrored=content.mirrored):
        yield layers.LETTERING, stroke


def _names(tile: Tile, frame: DrawingFrame) -> Iterator[Text]:
    """Yield places for a sheet's name in its cell, as large as the cell allows."""
    cell = tile.cell
    height = min(_NAMES, cell.height / frame.scale / 3, cell.width / frame.scale / 4)
    for right, up in _IN_CELL:
        at = Point(cell.left + cell.width * right, cell.bottom + cell.height * up)
        yield Text(frame.at(at) - Point(0.0, height / 2), tile.name, height, "middle", bold=True)


def _legend(signs: Sequence[Sign], box: Bounds) -> Iterator[Drawn]:
    """Yield the legend of the marks in rows from the upper left of a box."""
    for row, sign in enumerate(signs):
        left = Point(box.left + 1.0, box.top - parts.ROW * (row + 0.5))
        for item in parts.sign_told(sign, left, LETTERS):
            yield (layers.LETTERING if isinstance(item, Text) else layers.MARKS), item


def ordinates_pages(content: TemplateContent, paper: Paper, margins: Margins) -> tuple[Scene, ...]:
    """Return the finish line's square distances from the centrelines, and every mark's."""
    tape, x, y = content.tape, content.symmetric_x, content.symmetric_y
    sheet = Sheet.upright(paper, margins)
    flow = Flow(sheet.frame, sheet.printable.grown(-1.0), f"Ordinates, {content.title}")
    flow.words("The finish line in figures", 5.0, bold=True)
    for sentence in figures_words(content):
        flow.words(sentence)
    table = ordinates(content.finish, tape, symmetric_x=x, symmetric_y=y)
    alike_x, alike_y = alike_words(content)
    for name, way, square, stations, both, ends in (
        ("long", alike_x, alike_y, table.along, not y, ("up", "down")),
        ("cross", alike_y, alike_x, table.across, not x, ("right", "left")),
    ):
        flow.heading(f"Along the {name} centreline")
        flow.words(f"From the middle {way}; then square to it {square}.")
        flow.table(_station_rows(stations, tape, both=both, ends=ends))
    if content.marks:
        flow.heading("The marks")
        rows = [("mark", "along", "up", "hole")]
        for mark in content.marks:
            along, up = (ordinate_figure(value, tape) for value in mark.at)
            hole = f"ø {tape.thin(mark.diameter)}" if mark.diameter else "point"
            rows.append((mark.label, along, up, hole))
        flow.table(rows)
    return flow.scenes()


def _station_rows(
    stations: Sequence[Station], tape: Tape, *, both: bool, ends: tuple[str, str]
) -> list[tuple[str, ...]]:
    """Return a heading and a row for each station, with both offsets where they differ."""
    hollow = any(station.between for station in stations)
    rows = [("station", *ends, "and between")]
    for s in stations:
        at, high, low, *between = (
            ordinate_figure(value, tape) for value in (s.at, s.high, s.low, *s.between)
        )
        rows.append((at, high, low, ", ".join(between)))
    columns = [0, 1, *([2] if both else []), *([3] if hollow else [])]
    return [tuple(row[k] for k in columns) for row in rows]


def ordinate_figure(value: float, tape: Tape) -> str:
    """Return half millimetres or sixteenths: finer than a pencil, no finer than a rule."""
    if tape.imperial:
        return tape.figure(value)
    return f"{nearest_whole(value * 2) / 2:.1f}".replace("-", "−")
