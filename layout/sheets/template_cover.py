"""The cover of a printed template: what to check, how the sheets join, and what goes where."""

from __future__ import annotations

from ..drawing.kit.flow import Flow
from ..drawing.scene import Scene
from ..template.calibration import longest_bar, wrong_prints
from ..template.content import TemplateContent
from ..template.paper import Sheet
from ..template.proposal import Proposal
from ..template.tiles import TilePlan, field_of
from ..words import paper
from .sheet_map import sheet_map
from .template_parts import legend_height, legend_rows, signs_of

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
    for i, line in enumerate(left_out):
        flow.words(line, indent=6.0 if i else 0.0)
    return flow.scenes()


def _sheets(flow: Flow, content: TemplateContent, proposal: Proposal) -> None:
    """Set the map of the sheets, the legend of their marks, and how they are laid down."""
    portion = proposal.portion
    height = min(_MAP_HEIGHT, flow.room.height - _HEADING_ROOM)
    flow.need(height + _HEADING_ROOM)
    flow.heading("The sheets")
    flow.drawing(height, lambda box: sheet_map(content, proposal, box))
    signs = signs_of(portion.marks(content))
    if signs:
        flow.heading("The marks")
        flow.drawing(legend_height(signs), lambda box: legend_rows(signs, box))
    flow.heading("How it is laid on the work")
    for sentence in paper.use_words(portion):
        flow.words(sentence)
    if content.kept:
        flow.words(paper.KEPT)


def _check_list(flow: Flow, content: TemplateContent, plan: TilePlan) -> None:
    tape = content.tape
    field = field_of(plan.sheet, plan.correction)
    bars = (longest_bar(field.width - 1.0, tape), longest_bar(field.height - 1.0, tape))
    flow.heading("Before any cut")
    for sentence in paper.check_words(bars, tape):
        flow.check(sentence)
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
        flow.words(paper.seam_play_words(tape), indent=6.0)
    flow.space(0.8)
    flow.check(paper.face_mark_words(mirrored=content.mirrored))
