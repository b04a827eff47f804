"""The cover of a printed template: what to check, how the sheets join, and what goes where."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import layers
from ..drawing.scene import Anchor, Item, Layer, Scene, Stroke, Text
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.window import clipped
from ..template.calibration import longest_bar, wrong_prints
from ..template.content import TemplateContent
from ..template.paper import A4, LETTER, Sheet
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import TilePlan, field_of
from .flow import Flow
from .template_parts import cross_at, line, pennant, strokes
from .wording import correction_words

_MAP_HEIGHT = 75.0

_SEAM_PLAY = 0.5
"""What each joined seam may be out, mm."""


def cover_pages(content: TemplateContent, proposal: Proposal) -> tuple[Scene, ...]:
    """Return the cover, on one upright sheet or as many as its words need."""
    plan, portion = proposal.plan, proposal.portion
    paper = A4 if plan.paper.roll else plan.paper
    sheet = Sheet.of(paper, plan.upright_margins, landscape=False)
    flow = Flow(sheet.frame, sheet.printable.grown(-1.0), f"Cover, {content.title}")
    flow.words(content.title, 5.0, bold=True)
    flow.words(_what(content, proposal), bold=content.mirrored)
    _check_list(flow, content, plan)
    flow.heading("The sheets")
    flow.drawing(min(_MAP_HEIGHT, flow.room.height), lambda box: _map(content, proposal, box))
    flow.heading("How it is laid on the work")
    for sentence in _use(portion):
        flow.words(sentence)
    _left_out(flow, content, portion)
    if content.notes:
        flow.heading("Notes")
        for note in content.notes:
            flow.words(note)
    return flow.scenes()


def _what(content: TemplateContent, proposal: Proposal) -> str:
    plan = proposal.plan
    lie = "on its side" if plan.sheet.landscape else "upright"
    count = f"{proposal.sheets} sheet" + ("s" if proposal.sheets > 1 else "")
    side = "MIRRORED: this is the view from the underside. " if content.mirrored else ""
    shown = {"whole": "the whole top", "curves": "its curves"}.get(
        proposal.portion.name, f"one {proposal.portion.name} of the top"
    )
    paper = plan.paper.name if plan.paper.roll else f"{plan.paper.name} {lie}"
    fixed = "" if plan.correction.is_none else f" Corrected: {correction_words(plan)}."
    return f"{side}Full size, {shown}, on {count} of {paper}, after this cover.{fixed}"


def _check_list(flow: Flow, content: TemplateContent, plan: TilePlan) -> None:
    tape = content.tape
    field = field_of(plan.sheet, plan.correction)
    across, up = (longest_bar(room - 1.0, tape) for room in (field.width, field.height))
    flow.heading("Before any cut")
    flow.check("Print at 100 % (actual size). No fitting, no shrinking, no scaling to the page.")
    flow.check(
        f"On each sheet lay a steel rule along both check bars: {tape.measure(across)} across "
        f"and {tape.measure(up)} up. The other readings below tell what went wrong."
    )
    longer = max(across, up)
    rows = [
        [f"{tape.exact(longer * wrong.scale, 1)} for {tape.measure(longer)}", wrong.mistake]
        for wrong in wrong_prints(plan.paper, (A4, LETTER))
    ]
    for row in rows:
        flow.words(f"{row[0]}: {row[1]}", indent=6.0)
    if len(plan.tiles) > 1:
        flow.check(
            "Trim the right and the lower edge of a sheet on its seams, lay it on the strip of its "
            "neighbour so that the numbered register marks make whole rings, and tape it down."
        )
    flow.check("Measure between the corner crosses, diagonals too, before trusting the whole.")
    seams = max(plan.rows, plan.columns) - 1
    for check in plan.check_lengths:
        flow.words(
            f"{check.start} to {check.end}: {tape.measure(check.length)} "
            f"({tape.exact(check.length, 1)})",
            indent=6.0,
        )
    if seams:
        flow.words(f"Each seam on the way may be out by {_SEAM_PLAY:g} mm, not more.", indent=6.0)
    flies = "left: this is the underside" if content.mirrored else "right: the face is up"
    flow.check(f"On every sheet the pennant flies to the {flies}.")


def _use(portion: Portion) -> tuple[str, ...]:
    """Return how the paper is laid down for this portion."""
    line_x, line_y = "the cross centreline", "the long centreline"
    if portion.name == "whole":
        return ("Lay the centrelines of the paper on those of the work.",)
    if portion.name == "curves":
        return (
            "Only the curves are printed. Lay the straight tails on the lines that were drawn "
            "with a straightedge, and the short cross lines on the points where they end.",
        )
    flips = [name for name, flip in ((line_x, portion.flip_x), (line_y, portion.flip_y)) if flip]
    if portion.name in ("end", "corner"):
        return (
            "Draw the straights with a straightedge first. Lay the paper's straight tail on them, "
            "and its short cross lines where they end.",
            f"Turn the paper over for the other {portion.uses - 1}: the drawing is the same "
            "when it is turned over on " + " and ".join(flips) + ".",
        )
    return (
        "Lay " + " and ".join(flips) + " of the paper on those of the work and draw round it.",
        f"Then flip the paper over on {flips[0]}"
        + (f", on {flips[1]}, and on the first again" if len(flips) > 1 else "")
        + f": {portion.uses} times in all. Prick the marks through each time.",
    )


def _left_out(flow: Flow, content: TemplateContent, portion: Portion) -> None:
    missing = portion.marks_left_out(content)
    if not missing or portion.name in ("end", "corner", "curves"):
        return
    flow.heading("Not on the paper: set out by measure")
    flow.words("These have no twin across a flip line. From the middle, along and up:")
    tape = content.tape
    for mark in missing:
        size = f", ø {tape.measure(mark.diameter)}" if mark.diameter else ""
        flow.words(
            f"{mark.label}: {tape.measure(mark.at.x)}, {tape.measure(mark.at.y)}{size}", indent=6.0
        )


def _map(content: TemplateContent, proposal: Proposal, box: Bounds) -> Sequence[tuple[Layer, Item]]:
    """Return the sheets side by side, with the top's outline and the corner crosses, to scale."""
    plan, portion = proposal.plan, proposal.portion
    whole = plan.whole
    scale = min((box.width - 4) / whole.width, (box.height - 4) / whole.height)
    middle, centre = box.middle, whole.middle
    laid = Placement(middle - centre * scale)

    def small(path: Path) -> Path:
        return path.scaled(scale).placed(laid)

    def at(point: Point) -> Point:
        return laid(point * scale)

    items: list[tuple[Layer, Item]] = []
    for tile in plan.tiles:
        w = tile.window
        corners = [Point(w.left, w.bottom), Point(w.right, w.bottom)]
        corners += [Point(w.right, w.top), Point(w.left, w.top)]
        items.append((layers.SHEET, Stroke(small(Path.through(corners, closed=True)))))
        name_at = at(tile.cell.middle) - Point(0.0, 1.75)
        items.append((layers.LETTERING, Text(name_at, tile.name, 3.5, "middle", bold=True)))
    for path in portion.outline(content.finish):
        items += [(layers.MAP_LINE, Stroke(small(piece))) for piece in clipped(path, whole)]
    for flip, ends in (
        (portion.flip_x, (Point(0.0, whole.bottom), Point(0.0, whole.top))),
        (portion.flip_y, (Point(whole.left, 0.0), Point(whole.right, 0.0))),
    ):
        if flip:
            items.append((layers.CENTRELINE, Stroke(small(line(*ends)))))
    for cross in plan.corner_crosses:
        place = at(cross.at)
        items += [(layers.CHECK_BARS, item) for item in strokes(cross_at(place, 1.2))]
        inward = Point(2.0 if place.x < middle.x else -2.0, 1.0 if place.y < middle.y else -3.2)
        anchor: Anchor = "start" if place.x < middle.x else "end"
        items.append((layers.CHECK_BARS, Text(place + inward, cross.name, 2.5, anchor)))
    flag = Point(box.left, box.top - 14.0)
    items += [(layers.LETTERING, i) for i in strokes(pennant(flag, mirrored=content.mirrored))]
    return items
