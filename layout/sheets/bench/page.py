"""`bench-sheet.html`: one self-contained page, made to be printed and ticked off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from ...drawing.scene import Scene
from ...job.plan import Plan
from ...words.cautions import caution_words
from ...words.why import proof_words
from ..title import found_words, size_words
from .after import after
from .before import before
from .cuts import cuts, first_cuts
from .marks import marks, marks_again
from .rows import Section, sentence, unit_words
from .why import why

TEMPLATE = "page.html.j2"

_ID = re.compile(r' id="([^"]*)"')


def bench_sheet(plan: Plan, drawing: str, *, files: tuple[str, ...] = ()) -> str:
    """Return the page: cautions, the drawing, then every step with its numbers.

    Parameters
    ----------
    drawing : str
        The SVG of the plan, which is set into the page.
    files : tuple of str
        Names of the other files of the plan, to point to.
    """
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader(__package__, "."),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        keep_trailing_newline=True,
    )
    return environment.get_template(TEMPLATE).render(
        title=plan.job.name,
        size=size_words(plan),
        found=sentence(found_words(plan)).removesuffix("."),
        proof=_proof(plan),
        unit=unit_words(plan.job.tape),
        panel=plan.job.panel.name,
        cautions=[caution_words(c, plan.top, plan.job.tape) for c in plan.cautions],
        drawing=drawing[drawing.index("<svg") :],
        sections=[_numbered(section, count) for section, count in _counted(plan)],
        files=files,
    )


def _counted(plan: Plan) -> Iterator[tuple[Section, int]]:
    """Yield the sections in order, each with the number of its first step."""
    held = (why, before, marks, first_cuts, marks_again, cuts, after)
    count = 1
    for section in (make(plan) for make in held):
        if section is not None:
            yield section, count
            count += len(section.steps)


def _numbered(section: Section, first: int) -> dict[str, Any]:
    """Return a section with its steps numbered and their drawings as text."""
    steps = [
        {"number": number, "step": step, "drawing": _inline(step.drawing, number)}
        for number, step in enumerate(section.steps, start=first)
    ]
    return {"title": section.title, "steps": steps}


def _inline(scene: Scene | None, number: int) -> str:
    """Return a drawing to set into the page; its ids carry the step's number, so none is twice."""
    if scene is None:
        return ""
    from ...drawing.svg import to_svg

    svg = to_svg(scene)
    return _ID.sub(rf' id="step-{number}-\1"', svg[svg.index("<svg") :])


def _proof(plan: Plan) -> str:
    """Return one sentence on how far from the best this top can be."""
    words = proof_words(plan.fit, plan.job.wish.goal, plan.job.tape)
    return f"{sentence(words).rstrip('.')}: proved." if words else ""
