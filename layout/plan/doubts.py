"""Figures of a job that are possible but unlikely: worth a second look, and nothing more."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from typing import Any

from ..errors import NothingFitsError, UndecidedError
from ..fit.found import Fit
from ..fit.wish import OWN
from ..keys.place import Trail
from ..units import Units
from .fitting import fits_of
from .job import Job

THICKEST, THINNEST = 120.0, 5.0
"""Thickness of a panel, mm, beyond which a slip is likelier than the panel (our choice)."""

THICK_SHARE = 0.1
"""The same as a share of its length (our choice)."""

LONGEST, NARROWEST = 6000.0, 150.0
"""Length and width of a panel, mm, beyond which a slip is likelier (our choice)."""

LIKELY_LENGTH, LIKELY_WIDTH, LIKELY_THICKNESS = (400.0, 3500.0), (200.0, 1500.0), (8.0, 80.0)
"""Sizes of panels, mm, by which it is told which unit may be meant (common practice)."""

FIRST_LOOK, ROUGH = 40, 0.03
"""Boxes, of all shapes together, and gap of a first look for a top: counted, so that it comes out
alike everywhere."""

MOST_DEFECTS, MOST_ISLANDS, MOST_SIDES = 16, 3, 500
"""With more defects, more of those that may lie within a top, or more lines and curves in all, no
look is quick."""

QUICK, SLOW, FEW = ("rectangle", "capsule"), {"D end", OWN}, 5
"""Where more shapes are wished for, those that are looked at; and those for which more than so many
defects take longer, since no round hole counts as one disk there."""

FIRST_EFFORT = 2e7
"""Looks at an edge after which it ends too: about a second."""

THREADED = ("screw", "bolt")
"""Words of metal that people also use for the hole that it left."""


class Matter(Enum):
    """What is worth a second look."""

    THICK = "the panel is very thick"
    THIN = "the panel is very thin"
    LARGE = "the panel is very large"
    SMALL = "the panel is very small"
    HOLE = "a hole is called metal"
    NARROW = "the top is narrower than a foot"
    NOTHING = "nothing fits"


@dataclass(frozen=True, slots=True)
class Doubt:
    """One figure to look at again."""

    matter: Matter
    trail: Trail
    """The key that it stands at."""
    found: float | None = None
    limit: float | None = None
    """mm."""
    units: tuple[Units, ...] = ()
    """Units in which the same figures would be likely."""
    reason: str = ""
    """Why nothing fits."""


def first_look(job: Job) -> Fit | None:
    """Return a good top, sought for a moment only; None where that is not enough."""
    panel, wish = job.panel, job.wish
    places = (panel.boundary, *panel.cut_outs, *(defect.place for defect in panel.defects))
    sides = sum(len(place.segments) for place in places)
    if len(panel.defects) > MOST_DEFECTS or len(panel.islands) > MOST_ISLANDS or sides > MOST_SIDES:
        return None
    few = tuple(shape for shape in QUICK if shape in wish.shapes)
    shapes = few if few and len(wish.shapes) > len(QUICK) else wish.shapes
    if len(panel.defects) > FEW and SLOW.intersection(shapes):
        return None
    steps, gap = FIRST_LOOK // len(shapes), max(wish.gap, ROUGH)
    quick = replace(wish, shapes=shapes, most_steps=steps, most_effort=FIRST_EFFORT, gap=gap)
    try:
        return fits_of(replace(job, wish=quick))[0]
    except UndecidedError:
        return None
    except NothingFitsError:
        if shapes != wish.shapes:
            return None
        raise


def doubts_about(job: Job, tables: Mapping[str, Any]) -> Iterator[Doubt]:
    """Yield what is unlikely about the figures of a job, and about words that only its file has."""
    box, thickness = job.panel.boundary.bounds, job.panel.thickness
    longer, shorter = max(box.width, box.height), min(box.width, box.height)
    sizes = ((longer, LIKELY_LENGTH), (shorter, LIKELY_WIDTH))
    outline: Trail = ("panel", "outline")
    if longer > LONGEST:
        yield Doubt(Matter.LARGE, outline, longer, LONGEST, _units(job, *sizes))
    elif shorter < NARROWEST:
        yield Doubt(Matter.SMALL, outline, shorter, NARROWEST, _units(job, *sizes))
    most, thick = min(THICKEST, THICK_SHARE * longer), ("panel", "thickness")
    likely = _units(job, (thickness, LIKELY_THICKNESS))
    if not job.missing and thickness > most:
        yield Doubt(Matter.THICK, thick, thickness, most, likely)
    elif not job.missing and thickness < THINNEST:
        yield Doubt(Matter.THIN, thick, thickness, THINNEST, likely)
    for number, defect in enumerate(tables.get("panel", {}).get("defects", ())):
        word, name = (str(defect.get(key, "")).casefold() for key in ("kind", "name"))
        if word in THREADED or (word in ("metal", "nail", "staple") and "hole" in name.split()):
            yield Doubt(Matter.HOLE, ("panel", "defects", number, "kind"))


def doubts_about_top(job: Job, look: Fit | NothingFitsError | None) -> Iterator[Doubt]:
    """Yield what is unlikely about the top that a first look found, or did not find."""
    if isinstance(look, NothingFitsError):
        yield Doubt(Matter.NOTHING, ("top",), reason=str(look))
    elif look is not None and job.legs is not None:
        foot = max(job.legs.foot.length, job.legs.foot.width)
        if look.outline.width < foot:
            yield Doubt(Matter.NARROW, ("legs", "size"), look.outline.width, foot)


def _units(job: Job, *sizes: tuple[float, tuple[float, float]]) -> tuple[Units, ...]:
    """Return the other units in which all of these figures would be likely."""
    return tuple(
        unit
        for unit in Units
        if unit is not job.units
        and all(least <= mm / job.units.mm * unit.mm <= most for mm, (least, most) in sizes)
    )
