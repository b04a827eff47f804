"""The coats that a finished top gets: of what, where, how many, and how much of each."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..panel import Coat
from ..top import Top
from .coats import COATINGS, Coating, NewCoat, usual_coat
from .wish import MaterialsWish


@dataclass(frozen=True, slots=True)
class Finish:
    """The finish, begun before anything is fixed underneath: then both faces can be reached."""

    coat: NewCoat
    faces: bool
    """Whether the faces get it too; laminate takes none."""
    area: float = field(metadata={"unit": "mm2"})
    """Of a coat, mm²."""
    masked: int
    """So many joints stay bare, for the glue of the legs."""
    coats: int
    """On each face."""
    coverage: float
    """m² a litre for one coat."""
    recoat: float
    """Until the next coat, hours."""
    use: float
    """From the last coat until it is used with care, hours."""
    cure: int
    """From the last coat until it is as hard as it gets, days."""
    last_grit: int
    """That the wood is sanded to."""

    @property
    def coating(self) -> Coating:
        """How such a finish is worked with."""
        return COATINGS[self.coat]


def finish_of(top: Top, glued_legs: int = 0, wish: MaterialsWish | None = None) -> Finish:
    """Return the finish of a top, `glued_legs` of which are glued on."""
    asked = wish or MaterialsWish()
    edge = top.outline.perimeter * top.thickness
    faces = Coat.LAMINATE not in top.panel.finish
    coat = usual_coat(top.panel) if asked.finish is None else asked.finish
    usual = COATINGS[coat]
    return Finish(
        coat,
        faces=faces,
        area=2 * top.area + edge if faces else edge,
        masked=glued_legs if faces and coat is not NewCoat.NONE else 0,
        coats=asked.coats or usual.coats if coat is not NewCoat.NONE else 0,
        coverage=asked.coverage or usual.coverage,
        recoat=usual.recoat if asked.recoat is None else asked.recoat,
        use=usual.use if asked.use is None else asked.use,
        cure=usual.cure if asked.cure is None else asked.cure,
        last_grit=asked.last_grit or usual.grit,
    )
