"""Whether two sheets say and draw the same; if not, where, in lines that a maker understands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from pathlib import PurePath

from items import Item, items

NUMBER = re.compile(r"[-−]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][-+]?\d+)?")
NAME = re.compile(r' "[^"]*"')
WITHIN = 0.001
"""mm, and the last digit that counts of other figures."""
POINT = 25.4 / 72
"""mm, the unit of a PDF file."""
LONGEST = 10_000.0
"""mm: no panel is longer, so a larger figure is an area, which is held to a millionth."""


def differences(name: str, kept: str | bytes, found: str | bytes) -> list[str]:
    """Return a line for each thing in which a sheet is not as it was kept; none if it is.

    Words, elements and their order are to be the same, figures within `WITHIN`.
    """
    within = WITHIN / POINT if PurePath(name).suffix == ".pdf" else WITHIN
    return list(_differences(items(name, kept), items(name, found), within))


def _differences(kept: list[Item], found: list[Item], within: float) -> Iterator[str]:
    matcher = SequenceMatcher(None, _words(kept), _words(found), autojunk=False)
    for kind, i, i_end, j, j_end in matcher.get_opcodes():
        if kind != "equal" and i_end - i != j_end - j:
            yield from (
                f"{_where(kept, n)}: missing: {_cut(kept[n].text)}" for n in range(i, i_end)
            )
            yield from (f"{_where(found, n)}: new: {_cut(found[n].text)}" for n in range(j, j_end))
            continue
        for n, m in zip(range(i, i_end), range(j, j_end), strict=True):
            if kind != "equal":
                yield f"{_where(kept, n)}: was {_cut(kept[n].text)}, is {_cut(found[m].text)}"
            elif told := _figures(kept[n].text, found[m].text, within):
                yield f"{_where(kept, n)}: {told}"


def _figures(kept: str, found: str, within: float) -> str:
    """Return the first figure in which two texts of the same words differ, among its words."""
    for one, other in zip(NUMBER.finditer(kept), NUMBER.finditer(found), strict=True):
        was, now = (float(match[0].replace("−", "-")) for match in (one, other))
        if abs(was - now) > (max(abs(was) * 1e-6, within) if abs(was) > LONGEST else within):
            around = kept[max(one.start() - 30, 0) : one.end() + 30]
            return f"was {one[0]}, is {other[0]}, in: {around}"
    return ""


def _words(row: list[Item]) -> list[tuple[str, str]]:
    """Return what pairs items up: their words and those of their places, without names there."""
    return [(NAME.sub("", NUMBER.sub("#", item.place)), NUMBER.sub("#", item.text)) for item in row]


def _where(row: list[Item], n: int) -> str:
    """Return the place of an item, and its number there where it does not stand alone."""
    there = [k for k, item in enumerate(row) if item.place == row[n].place]
    return row[n].place + (f", item {there.index(n) + 1}" if len(there) > 1 else "")


def _cut(text: str) -> str:
    return text if len(text) <= 80 else f"{text[:60]} … ({len(text)} signs)"
