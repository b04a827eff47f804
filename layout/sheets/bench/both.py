"""What a page is made of: drawings in its own ink and paper, and both units of whatever differs.

Drawings follow the page into the dark. What differs between two units stands twice, and one of the
two is shown.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from itertools import zip_longest
from typing import Any

from markupsafe import Markup, escape

from ...drawing import layers
from ...drawing.scene import Scene

MIXED = re.compile(r"(?<=\d)[ \u00a0](\d+/\d+)")
"""A whole number's space and its fraction."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing as text for the page, and what it shows."""

    svg: str
    title: str


def both(one: Any, other: Any) -> Any:  # noqa: ANN401 - any value that a page is made of
    """Return a value of the page with both units in it: words as markup, the rest as it is."""
    if isinstance(one, Scene):
        return both(drawn(one), drawn(other))
    if isinstance(one, Drawn):
        svg = Markup(one.svg if one == other else _twice(one.svg, other.svg, "div"))
        return replace(one, svg=svg, title=both(one.title, other.title))
    if isinstance(one, str):
        told, hidden = _told(one), _told(other)
        return told if one == other else Markup(_twice(told, hidden, "span"))
    if isinstance(one, tuple):
        return tuple(_each(one, other))
    if is_dataclass(one) and not isinstance(one, type):
        held = {f.name: both(getattr(one, f.name), getattr(other, f.name)) for f in fields(one)}
        return replace(one, **held)
    return one


def _each(one: Sequence[Any], other: Sequence[Any]) -> list[Any]:
    """Return what stands in either list side by side; where one is longer, its rest as it is."""
    held = []
    for left, right in zip_longest(one, other):
        shown, hidden = (right, right) if left is None else (left, left if right is None else right)
        held.append(both(shown, hidden))
    return held


def _told(words: str) -> Markup:
    """Return words as markup; no line ends between a whole number and its fraction."""
    return escape(MIXED.sub("\N{NO-BREAK SPACE}\\1", words))


def _twice(one: str, other: str, tag: str) -> str:
    return f'<{tag} class="u1">{one}</{tag}><{tag} class="u2">{other}</{tag}>'


_IDS = re.compile(r' id="[^"]*"|<title>[^<]*</title>\s*')
_COLOUR = re.compile(r'(fill|stroke)="#[0-9a-f]{6}"')
_PAPER = f'="({layers.WOOD.colour}|{layers.PAPER.colour})"'


def drawn(scene: Scene) -> Drawn:
    """Return a scene as text for the page: it has no ids, and no colour but ink and paper."""
    from ...drawing.svg import to_svg

    svg = to_svg(scene)
    svg = _IDS.sub("", svg[svg.index("<svg") :]).replace("  ", "")
    svg = re.sub(_PAPER, '="var(--paper)"', svg)
    svg = _COLOUR.sub(r'\1="currentColor"', svg)
    return Drawn(svg, scene.title)
