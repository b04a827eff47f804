"""The caution card of a piece: the usual warnings that its panel calls for.

They remind; they do not replace local codes, the makers' instructions for tools and finishes, or
licensed practice, and no result of this library is a certificate of anything.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from ..panel import Kind, Panel
from ..panel.lifting import lifters, people
from ..top import Top

LEAD_UNTIL = 1978
"""Paint or varnish older than this may hold lead (US consumer ban; 40 CFR 745)."""

ASBESTOS_UNTIL = 2000
"""Mineral boards and fire doors older than this may hold asbestos (common practice)."""

OFF_GRAIN = 10.0
"""Degrees from which it is said that a top turns out of the grain (our choice)."""

GRAIN = "Grain"
"""The subject of that caution."""

_BOARDS = (Kind.PARTICLEBOARD, Kind.MDF, Kind.VENEERED, Kind.PLYWOOD, Kind.BLOCKBOARD)


_BARE = re.compile(r"^\s*(none|no finish|bare|raw|unfinished|untreated)\b", re.IGNORECASE)
"""A finish that is none: there is no coat that could hold lead."""

_LABORATORY = re.compile(r"\blab", re.IGNORECASE)
"""A panel that its maker calls a lab bench, and not a slab."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning."""

    subject: str
    """Two or three words."""
    words: str
    """What may happen and what to do."""


def cautions_for(top: Top) -> tuple[Caution, ...]:
    """Return the cautions for a top and the panel that it is cut from, most urgent first."""
    return tuple(_cautions(top))


def _cautions(top: Top) -> Iterator[Caution]:
    panel = top.panel
    yield from _old_substances(panel)
    yield Caution(
        "Hidden metal",
        "Look, sweep both faces and the edges with a detector, chalk a ring round every hit, pull "
        "it, and sweep again before each tool.",
    )
    if lifters(panel.mass) > 1:
        yield Caution(
            "Lifting",
            f"The old panel weighs about {panel.mass:.0f} kg and the new top about "
            f"{top.mass:.0f} kg: {people(lifters(panel.mass))}, and trestles on both sides of the "
            "cut.",
        )
    yield from _grain(top)
    yield Caution(
        "Saws and routers",
        "Eyes and ears protected; the work clamped; support on both sides of the kerf, and the "
        "falling piece held, so that the blade is never pinched; plug out before a blade or bit is "
        "touched. Follow the makers' instructions.",
    )
    yield from _dust(panel)
    yield Caution(
        "Oily rags",
        "Rags with drying oil heat up and can catch fire within hours: lay them flat outdoors or "
        "drown them in a metal can with a lid.",
    )
    yield Caution(
        "Standing",
        "Tipping forces and sag are estimates from geometry and usual densities, not tests. Try "
        "the finished table, and follow local codes and a qualified person's word where it stands "
        "in public.",
    )


def _old_substances(panel: Panel) -> Iterator[Caution]:
    coated = _BARE.search(panel.finish or "") is None
    if coated and (panel.year is None or panel.year < LEAD_UNTIL):
        age = "of unknown age" if panel.year is None else f"from {panel.year}"
        yield Caution(
            "Old paint and varnish",
            f"A finish {age} may hold lead: test before any sanding or scraping; no dry sanding, "
            "no hot-air gun; children kept away. Local rules decide what a painter may do.",
        )
    old = panel.year is None or panel.year < ASBESTOS_UNTIL
    if old and panel.build.kind is not Kind.SOLID:
        yield Caution(
            "What the core is",
            "A fire label, a mineral-looking or stone-cold core, old lino, vinyl, black glue or a "
            "heat mat on its back may mean asbestos: do not drill, saw, sand or scrape it. Look "
            "into holes that are there already, of a lock or a letterbox, and stop until someone "
            "licensed to has tested it.",
        )
    if _LABORATORY.search(panel.name):
        yield Caution(
            "Where it stood",
            "A laboratory bench may hold mercury, acids or other residues, and a black, stone-cold "
            "or fibrous top may be asbestos cement: ask for its history, wash and wipe, and do not "
            "sand until that is answered.",
        )


def _grain(top: Top) -> Iterator[Caution]:
    kind, off = top.panel.build.kind, math.degrees(top.off_grain)
    if kind not in (Kind.SOLID, Kind.VENEERED) or off < OFF_GRAIN:
        return
    weak = "solid wood bends and moves most across its grain, and " if kind is Kind.SOLID else ""
    yield Caution(
        GRAIN,
        f"The length of the top lies {off:.0f}° from the grain: {weak}the figure runs slantwise. "
        "For one along it write most_turn = 10, or less, under [top].",
    )


def _dust(panel: Panel) -> Iterator[Caution]:
    board = panel.build.kind in _BOARDS
    what = "Board dust carries resin" if board else "Wood dust harms lungs and nose"
    yield Caution(
        "Dust",
        f"{what}: extraction at the tool and a mask rated for fine dust. Limits at work are set "
        "locally (OSHA 15 mg/m³ total; EU 2 mg/m³ for hardwood).",
    )
