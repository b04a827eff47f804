"""What the maker wishes of the printed template."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from .grid import check_overlap
from .paper import PAPERS, Margins, Sheet
from .tiles import field_of

PORTIONS = ("auto", "whole", "half", "quarter", "end", "corner", "curves")
"""How much of the outline is printed; the rest is had by flipping it on its centrelines."""


@dataclass(frozen=True, slots=True)
class TemplateWish:
    """Paper and portion of the template.

    Attributes
    ----------
    paper : str
        A name in `paper.PAPERS`.
    margin : float
        What the printer leaves white round a sheet, mm.
    overlap : float
        What neighbouring sheets share, mm.
    portion : str
        One of `PORTIONS`; "auto" takes the one with the fewest sheets.

    Raises
    ------
    LayoutError
        If a name is not known, a length is below 0, the margins leave too little of the paper, or
        the overlap suits no sheet.
    """

    paper: str = "A4"
    margin: float = 10.0
    overlap: float = 12.0
    portion: str = "auto"

    def __post_init__(self) -> None:
        for name, value, known in (
            ("paper", self.paper, PAPERS),
            ("portion", self.portion, PORTIONS),
        ):
            if value not in known:
                raise LayoutError(f"template: {name} {value!r} is not one of {', '.join(known)}")
        for name, length in (("margin", self.margin), ("overlap", self.overlap)):
            if not 0 <= length < math.inf:
                raise LayoutError(f"template: {name} of {length:g} mm is below 0")
        paper = PAPERS[self.paper]
        length = 0.0 if not paper.roll else paper.width
        sheet = Sheet.of(paper, Margins.all(self.margin), landscape=False, length=length)
        check_overlap(self.overlap, field_of(sheet))
