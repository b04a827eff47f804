"""What the maker wishes of the printed template."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..errors import LayoutError
from .calibration import TRUE, Correction
from .grid import check_overlap
from .paper import A4, Margins, Paper, Sheet
from .tiles import field_of

PORTIONS = ("auto", "whole", "half", "quarter", "end", "corner", "curves")
"""How much of the outline is printed; the rest is had by flipping it on its centrelines."""

RELEASES = ("R2010", "R12")
"""Releases of DXF that the template is written in."""


@dataclass(frozen=True, slots=True)
class TemplateWish:
    """Paper and portion of the template, and how it is written.

    Raises
    ------
    LayoutError
        If a name is not known, a length is below 0, the margins leave too little of the paper, or
        the overlap suits no sheet.
    """

    paper: Paper = A4
    margins: Margins = field(default_factory=lambda: Margins.all(10.0))
    """What the printer leaves white on a sheet held upright."""
    overlap: float = 12.0
    """What neighbouring sheets share, mm."""
    portion: str = "auto"
    """One of `PORTIONS`; "auto" takes the one with the fewest sheets."""
    mirrored: bool | None = None
    """Whether it is drawn for the underside; None for the face that the work is marked on."""
    ordinates: bool = True
    """Whether the outline is given in figures, too."""
    dxf_release: str = "R2010"
    """One of `RELEASES`."""
    printer: str = ""
    """The name under which the printer was measured; empty where it was not."""
    correction: Correction = TRUE
    """That printer's: whoever reads the profile sets it."""

    def __post_init__(self) -> None:
        for name, value, known in (
            ("portion", self.portion, PORTIONS),
            ("DXF release", self.dxf_release, RELEASES),
        ):
            if value not in known:
                raise LayoutError(f"template: {name} {value!r} is not one of {', '.join(known)}")
        if not 0 <= self.overlap < math.inf:
            raise LayoutError(f"template: overlap of {self.overlap:g} mm is below 0")
        # on its side a sheet has no more room: there both margins of a pair are the larger one
        length = self.paper.width if self.paper.roll else 0.0
        sheet = Sheet.of(self.paper, self.margins, landscape=False, length=length)
        check_overlap(self.overlap, field_of(sheet, self.correction))
