"""The template as pages: a cover with its check list, then one page for each sheet."""

from __future__ import annotations

from ..drawing.scene import Scene
from ..template.content import TemplateContent
from ..template.proposal import Proposal
from .ordinates_sheet import ordinates_pages
from .template_cover import cover_pages
from .template_sheet import TemplateSheet
from .template_shown import Shown


def template_pages(
    content: TemplateContent, proposal: Proposal, *, with_ordinates: bool = True
) -> tuple[Scene, ...]:
    """Return the cover, every sheet at true scale, and the ordinates, each a scene of its paper.

    No ink lies outside the printable area. What two sheets share is on both.
    """
    plan = proposal.plan
    sheets: tuple[Scene, ...] = ()
    if plan.tiles:
        shown = Shown.of(content, proposal)
        sheets = tuple(TemplateSheet(shown, plan, tile).scene() for tile in plan.tiles)
    figures = ordinates_pages(content, plan.paper, plan.upright_margins) if with_ordinates else ()
    return (*cover_pages(content, proposal), *sheets, *figures)
