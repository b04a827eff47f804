"""The cover of a printed template: what to check, how the sheets join, and what goes where."""

from __future__ import annotations

from ..drawing.scene import Scene
from ..template.calibration import longest_bar
from ..template.content import TemplateContent
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import TilePlan, field_of
from ..template.wrong_print import WrongPrint, wrong_prints
from ..units import Tape
from .cover_sheet import upright_sheet
from .flow import Flow
from .sheet_map import sheet_map
from .sign_legend import legend_height, legend_rows, signs_of
from .wording import correction_words

_MAP_HEIGHT = 75.0
_HEADING_ROOM = 11.0

_SEAM_PLAY = 0.5
"""What each joined seam may be out, mm."""


def cover_pages(content: TemplateContent, proposal: Proposal) -> tuple[Scene, ...]:
    """Return the cover, on one upright sheet or as many as its words need."""
    plan, portion = proposal.plan, proposal.portion
    sheet = upright_sheet(plan.paper, plan.upright_margins)
    flow = Flow(sheet.frame, sheet.printable.grown(-1.0), f"Cover, {content.title}")
    flow.words(content.title, 5.0, bold=True)
    flow.words(_what(content, proposal), bold=content.mirrored)
    _check_list(flow, content, plan)
    height = min(_MAP_HEIGHT, flow.room.height - _HEADING_ROOM)
    flow.need(height + _HEADING_ROOM)
    flow.heading("The sheets")
    flow.drawing(height, lambda box: sheet_map(content, proposal, box))
    signs = signs_of(portion.marks(content))
    if signs:
        flow.heading("The marks")
        flow.drawing(legend_height(signs), lambda box: legend_rows(signs, box))
    flow.heading("How it is laid on the work")
    for sentence in _use(portion):
        flow.words(sentence)
    if content.kept:
        flow.words(
            "Where it says kept edge the line lies on the panel's own edge: nothing is cut there."
        )
    _left_out(flow, content, proposal)
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
    correction = plan.correction
    fixed = "" if correction.is_none else f" Corrected {correction_words(correction)}."
    return f"{side}Full size, {shown}, on {count} of {paper}, after this cover.{fixed}"


def _check_list(flow: Flow, content: TemplateContent, plan: TilePlan) -> None:
    tape = content.tape
    field = field_of(plan.sheet, plan.correction)
    bars = tuple(longest_bar(room - 1.0, tape) for room in (field.width, field.height))
    flow.heading("Before any cut")
    flow.check("Print at 100 % (actual size). No fitting, no shrinking, no scaling to the page.")
    flow.check(
        f"On each sheet lay a steel rule along both check bars: {tape.measure(bars[0])} across "
        f"and {tape.measure(bars[1])} up."
    )
    wrong = wrong_prints(plan.paper)
    if wrong:
        flow.words("Where both are out alike, this was done to the page; print it again:", indent=6)
        flow.table([_read_as(print_, bars, tape) for print_ in wrong], indent=6.0)
    flow.space(0.8)
    if plan.register_marks:
        flow.check(
            "Trim the right and the lower edge of a sheet on its seams, lay it on the strip of its "
            "neighbour so that the numbered register marks make whole rings, and tape it down."
        )
    lengths = _lengths(plan, tape)
    if lengths:
        flow.check("Measure between the corner crosses, diagonals too, before trusting the whole.")
        flow.table(lengths, indent=6.0)
    if lengths and plan.register_marks:
        play = "1/64 in" if tape.imperial else f"{_SEAM_PLAY:g} mm"
        flow.words(f"Each seam on the way may be out by {play}, not more.", indent=6.0)
    flow.space(0.8)
    flies = "left: this is the underside" if content.mirrored else "right: the face is up"
    flow.check(f"On every sheet the pennant flies to the {flies}.")


def _read_as(wrong: WrongPrint, bars: tuple[float, ...], tape: Tape) -> tuple[str, ...]:
    """Return what the bars read after a wrong print, to the rule's division and in decimals."""
    readings = (
        f"{way} {tape.measure(bar * wrong.scale)} ({tape.exact(bar * wrong.scale, 1)})"
        for way, bar in zip(("across", "up"), bars, strict=True)
    )
    return (*readings, wrong.mistake)


def _lengths(plan: TilePlan, tape: Tape) -> list[tuple[str, ...]]:
    """Return the check lengths, two to a row: the sides in pairs, the diagonals last."""
    cells = [
        (f"{c.start} to {c.end}", f"{tape.measure(c.length)}  ({tape.exact(c.length, 1)})")
        for c in plan.check_lengths
    ]
    return [one + other for one, other in zip(cells[::2], cells[1::2], strict=True)]


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


def _left_out(flow: Flow, content: TemplateContent, proposal: Proposal) -> None:
    """Give the places of the marks that no sheet shows."""
    missing = proposal.marks_left_out(content)
    if not missing:
        return
    flow.heading("Marks that are not on the paper: set out by measure")
    flow.words("From the middle of the top, along and up:")
    tape = content.tape
    for mark in missing:
        size = f", ø {tape.measure(mark.diameter)}" if mark.diameter else ""
        flow.words(
            f"{mark.label}: {tape.measure(mark.at.x)}, {tape.measure(mark.at.y)}{size}", indent=6.0
        )
