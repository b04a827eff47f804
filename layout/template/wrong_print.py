"""What a check bar reads when a page was printed in one of the usual wrong ways."""

from __future__ import annotations

from dataclasses import dataclass

from .paper import A3, A4, LETTER, TABLOID, Paper

_USUAL = (A4, LETTER, A3, TABLOID)
"""The sheets that a page is fitted to by mistake."""

_TELLING = (0.75, 1.1)
"""A page that is shrunk or enlarged by more than this is seen without a rule."""

_USUAL_MARGIN = 4.23
"""A sixth of an inch, the margin that many drivers fit a page into, mm."""


@dataclass(frozen=True, slots=True)
class WrongPrint:
    """What a bar reads after a usual mistake."""

    sheet: str
    """The paper that the page was fitted to; empty where it was shrunk to the printable area."""
    scale: float
    """What is left of a length."""


def wrong_prints(paper: Paper) -> tuple[WrongPrint, ...]:
    """Return what a page on `paper` shrinks or grows to in the usual wrong ways; none for a roll.

    A viewer that fits a page to another sheet takes the smaller ratio of the sides; one that fits
    it within the printer's own margins shrinks it by those.

    >>> [(wrong.sheet, round(100 * wrong.scale, 2)) for wrong in wrong_prints(A4)]
    [('Letter', 94.07), ('', 95.97)]
    """
    if paper.roll:
        return ()
    fitted = [
        WrongPrint(other.name, _fit(paper, other, 0.0))
        for other in _USUAL
        if other.name != paper.name
    ]
    found = [wrong for wrong in fitted if _TELLING[0] <= wrong.scale <= _TELLING[1]]
    shrunk = WrongPrint("", _fit(paper, paper, _USUAL_MARGIN))
    return (*found, shrunk)


def _fit(page: Paper, sheet: Paper, margin: float) -> float:
    return min((sheet.width - 2 * margin) / page.width, (sheet.length - 2 * margin) / page.length)
