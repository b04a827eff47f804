"""`bench-sheet.html`: one self-contained page, to be pinned up, ticked off and printed.

What differs between two units stands twice, and one of the two is shown.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from itertools import zip_longest
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup, escape

from ...drawing import layers
from ...drawing.scene import Scene
from ...drawing.svg import to_svg
from ...plan.plan import Plan
from ...template.paper import A4, LETTER
from ...units import MIXED, Units
from ...words.saw_lines import lying_of
from ...words.say import unit_words
from .first import first_page
from .stages import STAGES, folds
from .steps import Part

_IDS = re.compile(r' id="[^"]*"|<title>[^<]*</title>\s*')
_COLOUR = re.compile(r'(fill|stroke)="#[0-9a-f]{6}"')
_PAPER = f'="({layers.WOOD.colour}|{layers.PAPER.colour})"'


def bench_sheet(plan: Plan, *, files: tuple[str, ...] = (), opened: bool = False) -> str:
    """Return the page, which points to other `files`; `opened`, what stands behind is unfolded."""
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
    first = pinned[0]
    told = repr((first.head, first.tables, first.checks, first.legs))
    lines = sum(len(table.saws) for table in first.tables)
    return environment.get_template("page.html.j2").render(
        work=both(tuple(_work(plan)), tuple(_work(other))),
        behind=both(folds(plan), folds(other)),
        pinned=[both(page, page) for page in pinned],
        name=plan.job.name,
        other_unit=unit_words(other.job.tape),
        paper=_paper(plan),
        key=hashlib.sha256(told.encode()).hexdigest()[:16],  # other figures keep other ticks
        alt=f"The panel as it lies: {first.face[0].lower()}, {lines} saw lines, the finished edge "
        f"and {len(first.letters)} lettered defects. The tables below hold all of its figures.",
        files=files,
        opened=opened,
    )


def _work(plan: Plan) -> Iterator[Part]:
    before, lying = 0, lying_of(plan).words
    for title, told, lies in STAGES:
        steps = tuple(told(plan))
        if steps:
            yield Part(title, steps, lies.format(lying=lying), before)
        before += len(steps)


def _paper(plan: Plan) -> str:
    """Return the sheet as a style sheet names it; A4 for a roll, which no page is printed on."""
    paper = plan.job.template.paper
    named = {A4: "A4", LETTER: "letter"}.get(paper, f"{paper.width:g}mm {paper.length:g}mm")
    return "A4" if paper.roll else named


def _figure(words: str) -> Markup:
    """Return a figure with its fraction set smaller than its whole number."""
    return Markup(MIXED.sub(r'<span class="fr"> \1</span>', str(Markup.escape(words))))


def _css(words: str) -> Markup:
    """Return words as a style sheet's string, each sign escaped that is no letter or figure."""
    safe = "".join(c if c.isalnum() and c.isascii() else f"\\{ord(c):x} " for c in words)
    return Markup(f'"{safe}"')


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing as text for the page, and what it shows."""

    svg: str
    title: str


def both(one: Any, other: Any) -> Any:  # noqa: ANN401 - any value that a page is made of
    """Return a value of the page with both units in it: words as markup, the rest as it is."""
    if isinstance(one, Scene):
        svg, hidden = drawn(one), drawn(other)
        same = svg == hidden and one.title == other.title
        told = Markup(svg if same else _twice(svg, hidden, "div"))
        return Drawn(told, both(one.title, other.title))
    if isinstance(one, str):
        told, hidden = _told(one), _told(other)
        return told if one == other else Markup(_twice(told, hidden, "span"))
    if isinstance(one, tuple):  # where one is longer, its rest as it is
        pairs = ((a, b) if a is not None else (b, b) for a, b in zip_longest(one, other))
        return tuple(both(a, a if b is None else b) for a, b in pairs)
    if is_dataclass(one) and not isinstance(one, type):
        held = {f.name: both(getattr(one, f.name), getattr(other, f.name)) for f in fields(one)}
        return replace(one, **held)
    return one


def _told(words: str) -> Markup:
    """Return words as markup; no line ends between a whole number and its fraction."""
    return escape(MIXED.sub("\N{NO-BREAK SPACE}\\1", words))


def _twice(one: str, other: str, tag: str) -> str:
    return f'<{tag} class="u1">{one}</{tag}><{tag} class="u2">{other}</{tag}>'


def drawn(scene: Scene) -> str:
    """Return a scene as text for the page: it has no ids, and no colour but ink and paper."""
    svg = to_svg(scene)
    svg = _IDS.sub("", svg[svg.index("<svg") :]).replace("  ", "")
    svg = re.sub(_PAPER, '="var(--paper)"', svg)
    return _COLOUR.sub(r'\1="currentColor"', svg)
