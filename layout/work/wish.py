"""What the maker says of finish and materials, and of hours: all of it may be left out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from ..keys.figures import Named, Number, Range, Sum, count
from ..keys.key import hold, key
from ..keys.kinds import Choice, Kind
from ..keys.place import Place, shown
from .deeds import WORKDAY, Deed
from .items import DISC_AREA, GRITS, ITEMS, NewCoat

_IN_HOURS, _DRYING = (Number("hours", Range(0.0, most)) for most in (1000.0, 500.0))
_COVERAGE = Number("m² a litre", Range(0.0, 200.0, above=True), advice="look at the label")


@dataclass(frozen=True, slots=True)
class HourSpan(Kind):
    """Hours: one figure, or the least and the most."""

    def _parse(self, value: object, at: Place) -> tuple[float, float] | None:
        given = list(value) if isinstance(value, list | tuple) else [value, value]
        if len(given) != 2:
            at.wrong(f"{shown(value)} is neither hours nor a range: write [least, most]")
            return None
        least, most = (_IN_HOURS.read(item, at) for item in given)
        if least is None or most is None:
            return None
        if least > most:
            at.wrong(f"{least:g} is above {most:g}: write the lower one first")
            return None
        return least, most


_COAT = Choice(
    {coat.value: coat for coat in NewCoat},
    {
        "hardwax oil": "hard-wax oil",
        **dict.fromkeys(("linseed oil", "tung oil", "danish oil"), "oil"),
        **dict.fromkeys(("lacquer", "polyurethane"), "varnish"),
        **dict.fromkeys(("water varnish", "acrylic varnish"), "water-based varnish"),
        "french polish": "shellac",
        "bare": "none",
    },
)

_GRIT = Number(
    limits=Range(GRITS[2], GRITS[-1]), whole=True, advice="coarser leaves scratches that show"
)

STRIPS = 3.0
"""m² a litre of stripper, laid on once (labels, from memory: 2.5 to 6)."""

_HOURS = Named(tuple(deed.value for deed in Deed if deed.most), HourSpan())

_AMOUNTS = Named(ITEMS, Number(limits=Range(0.0, 1e6)))


@dataclass(frozen=True, slots=True)
class MaterialsWish:
    """Finish, grits and materials, where the maker wants or has other than usual.

    Raises a LayoutError if a figure is out of its limits, or a name is no material.
    """

    finish: NewCoat | None = key(
        None,
        _COAT,
        "What the new top is finished with; its coats, drying times and last grit follow from it",
        '"oil"',
        usual='`"varnish"` for MDF, particleboard, hollow and framed builds and edges of laminate, '
        '`"hard-wax oil"` for all others',
    )
    coats: int | None = key(
        None,
        count(1, 12, 'write finish = "none" for none'),
        "How many coats each face gets",
        "3",
        usual="by `finish`",
    )
    coverage: float | None = key(
        None,
        _COVERAGE,
        "How far a litre of the finish goes, one coat: the label says it",
        "16",
        usual="by `finish`",
    )
    recoat: float | None = key(
        None, _DRYING, "Until the next coat goes on: the label says it", "8", usual="by `finish`"
    )
    use: float | None = key(
        None,
        _DRYING,
        "From the last coat until the table is used with care",
        "48",
        usual="by `finish`",
    )
    cure: int | None = key(
        None,
        count(0, 365),
        "Days from the last coat until the finish is as hard as it gets",
        "10",
        usual="by `finish`",
    )
    strip_coverage: float = key(
        STRIPS, _COVERAGE, "How far a litre of paint stripper goes, applied once", "5"
    )
    last_grit: int | None = key(
        None, _GRIT, "The grit that sanding ends with", "180", usual="by `finish`"
    )
    disc_area: float = key(
        DISC_AREA,
        Number("m²", Range(0.0, 50.0, above=True)),
        "What one sheet or disc of abrasive sands before it is dull; up to grit 80 it is half",
        "0.8",
    )
    need: tuple[tuple[str, float], ...] = key(
        (),
        _AMOUNTS,
        "How much of a material it takes, in place of what is reckoned, in the unit of the list",
        '{ "finish" = 0.5, "grit 120" = 4 }',
        usual="as reckoned",
    )
    have: tuple[tuple[str, float], ...] = key(
        (),
        _AMOUNTS,
        "What is in the house already; it is taken off what is bought",
        '{ "finish" = 0.25, "screws" = 40 }',
        usual="nothing",
    )
    price: tuple[tuple[str, Decimal], ...] = key(
        (),
        Named(ITEMS, Sum()),
        "What one unit of the list costs: a litre, a sheet, a metre, a piece",
        '{ "finish" = 38, "grit 120" = 0.6 }',
        usual="not known",
    )

    def __post_init__(self) -> None:
        hold(self, "materials")


@dataclass(frozen=True, slots=True)
class WorkWish:
    """How the maker works; a LayoutError if a figure is out of its limits, or a name is no step."""

    day: float = key(
        WORKDAY,
        Number("hours", Range(0.5, 24.0)),
        "Hours at the bench in a day: days are counted by it",
        "3",
    )
    hours: tuple[tuple[str, tuple[float, float]], ...] = key(
        (),
        _HOURS,
        "Hours that a step of this job takes, the whole of it, least and most",
        '{ "sand" = [2, 3], "photograph" = 0.5 }',
        usual="by `pace`",
    )
    pace: tuple[tuple[str, tuple[float, float]], ...] = key(
        (),
        _HOURS,
        "Hours that a step takes you for one of what it is counted by, such as a m² to be sanded; "
        "`panelwright hours` lists them, and keeps yours for every job",
        '{ "sand" = [0.3, 0.5] }',
        usual="as kept by `panelwright hours`, else common practice",
    )

    def __post_init__(self) -> None:
        hold(self, "work")

    def pace_of(self, deed: Deed) -> tuple[float, float]:
        """Return the hours of a step for one of what it is counted by, least and most."""
        return dict(self.pace).get(deed.value, (deed.least, deed.most))

    def over(self, kept: WorkWish) -> WorkWish:
        """Return what a job says, and what is kept for every job where it says nothing."""
        day = kept.day if self.day == WORKDAY else self.day
        return replace(self, day=day, pace=tuple((dict(kept.pace) | dict(self.pace)).items()))
