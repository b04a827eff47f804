"""`bench-sheet.html`: one self-contained page, made to be pinned up, ticked off and printed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import replace

from markupsafe import Markup

from ...plan.plan import Plan
from ...template.paper import A4, LETTER
from ...units import Units
from ...words.say import unit_words
from .behind import folds
from .both import MIXED, both
from .first import FirstPage, first_page
from .stages import STAGES
from .step import Part


def bench_sheet(plan: Plan, *, files: tuple[str, ...] = (), opened: bool = False) -> str:
    """Return the page: what is pinned over the bench, the work step by step, what stands behind it.

    Parameters
    ----------
    files : tuple of str
        Names of the other files of the plan, to point to.
    opened : bool
        Whether what stands behind is unfolded, so that it is printed.
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
    environment.filters |= {"figure": _figure, "css": _css}
    imperial = plan.job.units.is_imperial
    other = replace(plan, job=replace(plan.job, units=Units.MM if imperial else Units.IN))
    pinned = first_page(plan), first_page(other)
    return environment.get_template("page.html.j2").render(
        work=both(tuple(_work(plan)), tuple(_work(other))),
        behind=both(folds(plan), folds(other)),
        pinned=[both(first, first) for first in pinned],
        name=plan.job.name,
        other_unit=unit_words(other.job.tape),
        paper=_paper(plan),
        key=_key(pinned[0]),
        alt=_alt(pinned[0]),
        files=files,
        opened=opened,
    )


def _work(plan: Plan) -> Iterator[Part]:
    before = 0
    for stage in STAGES:
        steps = tuple(stage.steps(plan))
        if steps:
            yield Part(stage.title, steps, stage.lies(plan), before)
        before += len(steps)


def _key(first: FirstPage) -> str:
    """Return what ticks are kept under: another plan's figures are another key."""
    held = repr((first.head, first.tables, first.checks, first.legs))
    return hashlib.sha256(held.encode()).hexdigest()[:16]


def _alt(first: FirstPage) -> str:
    """Return the drawing of the first page in a sentence."""
    lines = sum(len(table.saws) for table in first.tables)
    return (
        f"The panel as it lies: {first.face[0].lower()}, {lines} saw lines, the finished edge and "
        f"{len(first.letters)} lettered defects. The tables below hold all of its figures."
    )


def _paper(plan: Plan) -> str:
    """Return the sheet as a style sheet names it; A4 for a roll, which no page is printed on."""
    paper = plan.job.template.paper
    if paper.roll:
        return "A4"
    if paper in (A4, LETTER):
        return paper.name.lower() if paper is LETTER else paper.name
    return f"{paper.width:g}mm {paper.length:g}mm"


def _figure(words: str) -> Markup:
    """Return a figure with its fraction set smaller than its whole number."""
    return Markup(MIXED.sub(r'<span class="fr"> \1</span>', str(Markup.escape(words))))


def _css(words: str) -> Markup:
    """Return words as a style sheet's string, each sign escaped that is no letter or figure."""
    safe = "".join(c if c.isalnum() and c.isascii() else f"\\{ord(c):x} " for c in words)
    return Markup(f'"{safe}"')
