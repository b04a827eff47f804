"""A page in two units: whatever differs between them stands twice, and one of the two is shown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from itertools import zip_longest
from typing import Any

from markupsafe import Markup, escape

MIXED = re.compile(r"(?<=\d)[ \u00a0](\d+/\d+)")
"""A whole number's space and its fraction."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing as text for the page, and what it shows."""

    svg: str
    title: str
    height: float
    """mm on paper."""


def both(one: Any, other: Any) -> Any:  # noqa: ANN401 - any value that a page is made of
    """Return a value of the page with both units in it: words as markup, the rest as it is."""
    if isinstance(one, Drawn):
        return Markup(one.svg if one == other else _twice(one.svg, other.svg, "div"))
    if isinstance(one, str):
        if one == other:
            return _told(one)
        return Markup(_twice(_told(one), _told(other), "span"))
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
