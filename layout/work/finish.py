"""The coat that a finished top gets: where, and how much of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..panel import Coat
from ..top import Top


@dataclass(frozen=True, slots=True)
class Finish:
    """One coat, given before anything is fixed underneath: then both faces can be reached."""

    faces: bool
    """Whether the faces get it too; laminate takes none."""
    area: float = field(metadata={"unit": "mm2"})
    """Of a coat, mm²."""
    masked: int
    """So many joints stay bare, for the glue of the legs."""


def finish_of(top: Top, glued_legs: int = 0) -> Finish:
    """Return the coat of a finished top, `glued_legs` of which are glued on."""
    edge = top.outline.perimeter * top.thickness
    laminated = Coat.LAMINATE in top.panel.finish
    if laminated:
        return Finish(faces=False, area=edge, masked=0)
    return Finish(faces=True, area=2 * top.area + edge, masked=glued_legs)
