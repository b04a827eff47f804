"""What the maker wishes of the printed template."""

from __future__ import annotations

from dataclasses import dataclass

from ..keys.key import hold, key
from ..keys.kinds import Choice, Text, YesNo, names
from .calibration import TRUE, Correction
from .grid import check_overlap
from .paper import A4, Margins, Paper, Sheet
from .paper_kinds import WHITE, PaperSize, White
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

    paper: Paper = key(
        A4,
        PaperSize(),
        "The sheets in the printer",
        '"Letter"',
        usual='"A4"; "Letter" where units are inches or feet',
    )
    margins: Margins = key(
        Margins.all(10.0),
        White(),
        "What the printer leaves white, on a sheet held upright",
        "[6, 15, 6, 6]",
        usual="10 mm",
        name="margin",
    )
    overlap: float = key(12.0, WHITE, "What neighbouring sheets share", "15")
    portion: str = key(
        "auto",
        Choice(names(*PORTIONS)),
        "How much is printed; the rest is flipped on the centrelines. `auto` takes the one of "
        "whole, half and quarter with the fewest sheets; of a top with few curves only those, and "
        "no sheet for straight lines alone",
        '"quarter"',
    )
    mirrored: bool | None = key(
        None,
        YesNo(),
        "Whether it is drawn as seen from the underside",
        "false",
        usual="the face that the work is marked on",
    )
    ordinates: bool = key(True, YesNo(), "Whether the outline is given in figures as well", "false")
    dxf_release: str = key(
        "R2010",
        Choice(names(*RELEASES)),
        "Release of the DXF file: R12 for what reads nothing newer",
        '"R12"',
    )
    printer: str = key(
        "",
        Text(),
        "The printer, by the name under which it was measured with "
        "`panelwright template --calibrate`",
        '"hall"',
        usual="nothing is corrected",
    )
    correction: Correction = TRUE
    """That printer's: whoever reads the profile sets it."""

    def __post_init__(self) -> None:
        hold(self, "template")
        # on its side a sheet has no more room: there both margins of a pair are the larger one
        length = self.paper.width if self.paper.roll else 0.0
        sheet = Sheet.of(self.paper, self.margins, landscape=False, length=length)
        check_overlap(self.overlap, field_of(sheet, self.correction))
