"""The piece as planned: what order, hours and materials follow from; what is sold; its coats."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..cutting.plan import CutPlan
from ..geometry.polygon import Region
from ..legs.plan import LegsPlan
from ..legs.whole import TablePlan
from ..legs.wish import Fixing, LegsWish
from ..panel import Coat, Mend, Panel, Was
from ..top import Top
from .cautions import STRIPPED, may_hold_lead
from .items import COATINGS, Coating, NewCoat, usual_coat
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
    coverage: float
    recoat: float
    use: float
    cure: int
    last_grit: int
    """As its `Coating` has them, but where the maker says other; the last is the last grit."""

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


M2 = 1e-6
"""m² in a mm²."""

FITTED = frozenset({Mend.PLUG, Mend.KEY, Mend.PATCH})
"""Mends that are glued in, and tried dry before."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A top with everything planned for it; legs, where it has any."""

    top: Top
    cuts: CutPlan
    finish: Finish
    wish: LegsWish | None = None
    legs: LegsPlan | None = None
    table: TablePlan | None = None
    sheets: int = 0
    figures: bool = True
    """Sheets of the printed template, without its cover; whether its line in figures is printed."""
    paper: str = ""

    @property
    def panel(self) -> Panel:
        """The old panel."""
        return self.top.panel

    @property
    def edge(self) -> float:
        """Length of the finished edge, m."""
        return self.top.outline.perimeter / 1000

    @property
    def face(self) -> float:
        """Area of one face of the finished top, m²."""
        return self.top.area * M2

    @property
    def sanded(self) -> float:
        """What is sanded, m²: both faces and the edge, of laminate the edge alone."""
        return self.finish.area * M2

    @property
    def may_hold_lead(self) -> bool:
        """Whether the old coat may hold lead."""
        return may_hold_lead(self.panel)

    @property
    def has_old_coat(self) -> bool:
        """Whether an old coat is to come off; one that nobody knows of is looked for."""
        panel = self.panel
        unknown = not panel.finish and (panel.was is not Was.NEW or self.may_hold_lead)
        return unknown or bool(STRIPPED.intersection(panel.finish))

    @property
    def strips_first(self) -> bool:
        """Whether the old coat comes off before all sawing, and guards the face no longer.

        One that may hold lead is not sawn through, and glue and filler hold on bare wood only.
        """
        return self.has_old_coat and (self.may_hold_lead or bool(self.cuts.mends))

    @property
    def strips(self) -> bool:
        """Whether a coat is stripped at all: flattening after it is sawn takes it off, too."""
        return self.has_old_coat and (self.strips_first or self.panel.flattened is None)

    @property
    def stripped(self) -> float:
        """What is stripped, m²: both faces, of the panel where it comes before the saw."""
        if not self.strips:
            return 0.0
        return 2 * (self.panel.area * M2 if self.strips_first else self.face)

    @property
    def fixing(self) -> Fixing | None:
        """How the legs are held; None where it has none."""
        return None if self.wish is None or self.legs is None else self.wish.fixing

    @property
    def leg_count(self) -> int:
        """How many legs it has."""
        return 0 if self.legs is None else len(self.legs.legs)


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
    stays: tuple[str, ...]
    """Names of what was mended in it, and of what stays in it as found."""
    old_coat: bool
    """Whether an old coat came off it, or may have."""
    may_hold_lead: bool
    """Whether that coat may have held lead, as far as age and kind tell."""


def sale_of(piece: Piece) -> Sale:
    """Return what a piece is offered with.

    A box goes through an opening as wide as its shortest side and as high as the next.
    """
    outline, table, core = piece.top.outline, piece.table, Region.of(piece.cuts.core)
    height = piece.top.thickness if table is None else table.height
    shortest, next_one, _ = sorted((outline.length, outline.width, height))
    inside = [d.name for d in piece.panel.defects if core.touches_or_crosses(d.extent)]
    mended = tuple(mend.defect for mend in piece.cuts.mends)
    seating = None if table is None else table.seating
    return Sale(
        outline.length,
        outline.width,
        height,
        mass=piece.top.mass if piece.legs is None else piece.legs.mass,
        opening=(shortest, next_one),
        places=None if seating is None else len(seating.seats),
        knees=None if table is None else table.knees,
        mended=mended,
        stays=tuple(name for name in inside if name not in mended),
        old_coat=piece.has_old_coat,
        may_hold_lead=piece.may_hold_lead,
    )
