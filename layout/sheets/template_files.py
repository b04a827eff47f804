"""The files of a template, by their names: drawn face up or mirrored, never under one name."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from ..plan.plan import Plan
from .template_drawing import template_drawing
from .template_pages import template_pages

if TYPE_CHECKING:
    from ..drawing.dxf import Release


def template_stem(mirrored: bool) -> str:
    """Return how the files are called, without their endings.

    >>> template_stem(False), template_stem(True)
    ('template', 'template-mirrored')
    """
    return "template-mirrored" if mirrored else "template"


def template_files(plan: Plan) -> dict[str, str | bytes]:
    """Return the sheets and the drawing in one piece, by file name, as the job's template asks."""
    from ..drawing.dxf import to_dxf
    from ..drawing.pdf import to_pdf
    from ..drawing.svg import to_svg

    wish, content = plan.job.template, plan.template
    scene = template_drawing(content)
    pages = template_pages(content, plan.sheets, with_ordinates=wish.ordinates)
    title = f"{content.title} (MIRRORED)" if content.mirrored else content.title
    stem, release = template_stem(content.mirrored), cast("Release", wish.dxf_release)
    return {
        f"{stem}.pdf": to_pdf(pages, title),
        f"{stem}.svg": to_svg(scene),
        f"{stem}.dxf": to_dxf(scene, release),
    }
