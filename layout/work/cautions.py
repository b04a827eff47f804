"""Which cautions a piece calls for: by what its panel was, its age, build, mass, and what is done.

They remind; they do not replace local codes, the makers' instructions for tools and finishes, or
licensed practice, and no result of this library is a certificate of anything. Laws and papers are
named from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from enum import Enum
from typing import TYPE_CHECKING

from ..concern import Concern
from ..geometry.turned_box import narrowest_strip
from ..panel import Coat, Kind, Panel, Was
from ..panel.build import BACKINGS, LEADED, TREATMENTS
from ..panel.materials import ONE_LIFTS, lifters
from ..top import Top

if TYPE_CHECKING:
    from ..cutting.plan import CutPlan

LEAD_UNTIL = 1992
"""Coats from before this year may hold lead: it left household paint in the United States in 1978
(16 CFR 1303) and in the United Kingdom in 1992 (SI 1992/31); the later year is the safe one."""

ASBESTOS_UNTIL = 2005
"""Boards, mats and glues from before this year may hold asbestos: by its first day the last uses
had ended in the European Union (Directive 1999/77/EC)."""

TREATED_UNTIL = 2005
"""Timber from outdoors that is older may hold arsenic, creosote or pentachlorophenol: arsenic left
what is sold for gardens at the end of 2003 in the United States (EPA, voluntary cancellation) and
in June 2004 in the European Union (Directive 2003/2/EC)."""

OFF_GRAIN = 10.0
"""Degrees from which it is said that a top turns out of the grain (our choice)."""

BY_HAND = 150.0
"""A hand that holds a piece narrower than this is at the blade, mm (our choice; at a saw bench a
push stick is asked for within 300 mm: HSE, L114, *Safe use of woodworking machinery*)."""


class Risk(Enum):
    """What a caution is about; most urgent first."""

    TREATED = "treated wood"
    TREATED_PERHAPS = "perhaps treated wood"
    LEAD = "lead"
    ASBESTOS = "asbestos"
    NO_LEGS = "legs left out"
    NO_PORTION = "portion left out"
    LABORATORY = "laboratory residues"
    KITCHEN = "kitchen residues"
    STAGE = "fireproofing"
    METAL = "hidden metal"
    LIFTING = "lifting"
    GRAIN = "grain"
    SAWS = "saws and routers"
    SLIVERS = "small pieces"
    DUST = "wood dust"
    BOARD_DUST = "board dust"
    STRIPPERS = "strippers and solvents"
    VAPOURS = "vapours of adhesives"
    OILY_RAGS = "oily rags"
    STANDING = "standing"


_LEFT_BEHIND = {Was.LABORATORY: Risk.LABORATORY, Was.KITCHEN: Risk.KITCHEN, Was.STAGE: Risk.STAGE}
"""What a place leaves in the wood."""

_BACKED = frozenset({Was.LABORATORY, Was.KITCHEN, Was.FLOOR})
"""What often had a mat, lino or black glue on its back or face."""

_LINED = frozenset({Was.DOOR, Was.FIRE_DOOR})
"""What was filled, faced or lined against fire, whatever it is built of."""

STRIPPED = LEADED | {Coat.WAX}
"""Coats that are taken off, with strippers or solvents, before a new one goes on."""

_OF_WOOD = frozenset({Kind.SOLID, Kind.HOLLOW, Kind.FRAMED})
"""Builds whose dust is mostly that of wood; the others are glued through and through."""


def cautions_for(
    top: Top, cuts: CutPlan, *, glued_legs: bool = False, left_out: tuple[Concern, ...] = ()
) -> tuple[Concern, ...]:
    """Return the cautions for a top, most urgent first; `left_out` is what it cannot have."""
    panel, slant = top.panel, off_grain(top)
    small = tuple(
        cut.label
        for cut in (*cuts.trims, *cuts.corner_cuts)
        if any(narrowest_strip(p.exterior) < BY_HAND for off in cut.fallen for p in off.pieces)
    )
    glues = glued_legs or cuts.mends or cuts.edging or cuts.rim or cuts.joints
    stripped = not panel.finish or STRIPPED.intersection(panel.finish)
    dust = Risk.DUST if panel.build.kind in _OF_WOOD else Risk.BOARD_DUST
    found = (
        *((Concern(risk), panel.was is was) for was, risk in _LEFT_BEHIND.items()),
        (Concern(Risk.METAL), True),
        (Concern(Risk.LIFTING, found=panel.mass, limit=ONE_LIFTS), lifters(panel.mass) > 1),
        (Concern(Risk.GRAIN, found=slant, limit=OFF_GRAIN), slant is not None),
        (Concern(Risk.SAWS), True),
        (Concern(Risk.SLIVERS, small, limit=BY_HAND), small),
        (Concern(dust), True),
        (Concern(Risk.STRIPPERS), stripped),
        (Concern(Risk.VAPOURS), glues),
        (Concern(Risk.OILY_RAGS), True),
        (Concern(Risk.STANDING), True),
    )
    return (*_old_substances(panel), *left_out, *(caution for caution, due in found if due))


def off_grain(top: Top) -> float | None:
    """Return how far a top's length lies from the grain, degrees; None where nobody minds."""
    off = math.degrees(top.off_grain)
    minded = top.panel.build.kind in (Kind.SOLID, Kind.VENEERED)
    return off if minded and off >= OFF_GRAIN else None


def may_hold_lead(panel: Panel) -> bool:
    """Return whether what is on a panel may hold lead, as far as its coat and its age are known."""
    suspect = not panel.finish or LEADED.intersection(panel.finish)
    return bool(suspect) and _older(panel, LEAD_UNTIL)


def _old_substances(panel: Panel) -> Iterator[Concern]:
    finish = frozenset(panel.finish)
    if TREATMENTS & finish:
        yield Concern(Risk.TREATED)
    elif panel.was is Was.OUTDOORS and _older(panel, TREATED_UNTIL):
        yield Concern(Risk.TREATED_PERHAPS, found=panel.year, limit=TREATED_UNTIL)
    if may_hold_lead(panel):
        yield Concern(Risk.LEAD, found=panel.year, limit=LEAD_UNTIL)
    suspect = panel.build.kind is not Kind.SOLID or panel.was in _LINED or BACKINGS & finish
    if (suspect or (not finish and panel.was in _BACKED)) and _older(panel, ASBESTOS_UNTIL):
        yield Concern(Risk.ASBESTOS, found=panel.year, limit=ASBESTOS_UNTIL)


def _older(panel: Panel, year: int) -> bool:
    """Return whether a panel may be older: what has no date is, but for what is new."""
    return panel.was is not Was.NEW if panel.year is None else panel.year < year
