"""What a buyer asks of the finished piece: sizes, what is old in it, what was mended."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..geometry.polygon import Region
from .piece import Piece


@dataclass(frozen=True, slots=True)
class Sale:
    """The piece as it is offered."""

    length: float
    width: float
    height: float
    """mm; of a top without legs its thickness."""
    mass: float = field(metadata={"unit": "kg"})
    """kg, with its legs."""
    opening: tuple[float, float]
    """Width and height of an opening that it passes on its side or its end, in one piece, mm."""
    places: int | None
    """People who sit at it; None where nobody does."""
    knees: float | None
    """Free height under it, mm; None without legs."""
    mended: tuple[str, ...]
    """Names of what was mended in it."""
    stays: tuple[str, ...]
    """Names of what stays in it as found."""
    old_coat: bool
    """Whether an old coat came off it, or may have."""
    may_hold_lead: bool
    """Whether that coat may have held lead, as far as age and kind tell."""


def sale_of(piece: Piece) -> Sale:
    """Return what a piece is offered with.

    A box goes through an opening as wide as its shortest side and as high as the next: whoever
    tips or turns it on its way may pass narrower ones.
    """
    outline, table = piece.top.outline, piece.table
    height = piece.top.thickness if table is None else table.height
    shortest, next_one, _ = sorted((outline.length, outline.width, height))
    mended = tuple(mend.defect for mend in piece.cuts.mends)
    core = Region.of(piece.cuts.core)
    seating = None if table is None else table.seating
    return Sale(
        outline.length,
        outline.width,
        height,
        piece.top.mass if piece.legs is None else piece.legs.mass,
        (shortest, next_one),
        None if seating is None else len(seating.seats),
        None if table is None else table.knees,
        mended,
        tuple(
            defect.name
            for defect in piece.panel.defects
            if defect.name not in mended and core.touches_or_crosses(defect.extent)
        ),
        piece.has_old_coat,
        piece.may_hold_lead,
    )
