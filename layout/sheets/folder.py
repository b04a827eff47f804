"""Every file of a plan, by its name; the template as pages and as files."""

from __future__ import annotations

from typing import cast

from ..drawing.dxf import Release, to_dxf
from ..drawing.pdf import to_pdf
from ..drawing.scene import Scene
from ..drawing.svg import to_svg
from ..plan.plan import Plan, plan_record
from ..plan.serialise import to_json
from ..template.content import TemplateContent
from ..template.portions import Proposal
from ..words.listing import listing
from .template_cover import cover_pages, ordinates_pages
from .template_drawing import Shown, template_drawing
from .template_sheet import template_sheet


def plan_files(plan: Plan, *, opened: bool = False) -> dict[str, str | bytes]:
    """Return each file of a plan, by its name; `opened`, what stands behind it is unfolded."""
    from .bench.page import bench_sheet
    from .plan_drawing import plan_scene

    others = {
        "plan.svg": to_svg(plan_scene(plan)),
        "plan-underside.svg": to_svg(plan_scene(plan, mirrored=True)),
        **template_files(plan),
        "listing.txt": listing(plan),
        "plan.json": to_json(plan_record(plan)),
    }
    return {"bench-sheet.html": bench_sheet(plan, files=tuple(others), opened=opened), **others}


def template_pages(
    content: TemplateContent, proposal: Proposal, *, with_ordinates: bool = True
) -> tuple[Scene, ...]:
    """Return the cover, every sheet at true scale, and the ordinates, each a scene of its paper."""
    plan = proposal.plan
    sheets: tuple[Scene, ...] = ()
    if plan.tiles:
        shown = Shown.of(content, proposal.portion)
        sheets = tuple(template_sheet(shown, plan, tile) for tile in plan.tiles)
    figures = ordinates_pages(content, plan.paper, plan.upright_margins) if with_ordinates else ()
    return (*cover_pages(content, proposal), *sheets, *figures)


def template_files(plan: Plan) -> dict[str, str | bytes]:
    """Return the sheets and the drawing in one piece, by file name, as the job's template asks."""
    wish, content = plan.job.template, plan.template
    scene = template_drawing(content)
    pages = template_pages(content, plan.sheets, with_ordinates=wish.ordinates)
    title = f"{content.title} (MIRRORED)" if content.mirrored else content.title
    stem = "template-mirrored" if content.mirrored else "template"
    return {
        f"{stem}.pdf": to_pdf(pages, title),
        f"{stem}.svg": to_svg(scene),
        f"{stem}.dxf": to_dxf(scene, cast(Release, wish.dxf_release)),
    }
