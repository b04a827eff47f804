"""What each way of mending can mend: holes by their bits, filler by its width, sanding by depth."""

from __future__ import annotations

from collections.abc import Sequence

from ..geometry import Point, at_most
from ..geometry.tolerance import CHORD
from ..geometry.turned_box import TurnedBox
from ..panel import Coat, Defect, Kind, Mend
from ..units import MM_PER_INCH, Tape

PLUG_BITS = (8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75, 80)
"""Diameters of plug cutters and flat-bottomed bits that are sold, mm (common practice)."""

PLUG_BITS_IMPERIAL = (6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 34, 36, 40, 48)
"""The same where the maker's tape is in inches, sixteenths of an inch."""

BORED_CLEAN = 1.0
"""Taken off all round a hole before it is plugged, mm (common practice)."""

WIDEST_FILLER = 15.0
"""Across a hole that filler holds in; over a wider one it falls out, mm (common practice)."""

VENEERS = frozenset({Kind.VENEERED, Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.HOLLOW})
"""Builds whose face is a thin sheet."""

SANDED_WOOD, SANDED_VENEER = 1.0, 0.2
"""How deep a spot is sanded at most, mm: in solid wood, where more takes a plane to the whole face
(our choice), and in veneer, which is 0.5 to 0.6 mm thick when new (common practice)."""


def why_not(defect: Defect, kind: Kind, finish: Sequence[Coat], tape: Tape) -> str:
    """Return why a defect cannot be mended as it is meant to be, and what to do; else nothing."""
    if defect.mend is Mend.PLUG and plug_bore(hole_diameter(defect), tape) is None:
        return (
            f"a hole {tape.measure(hole_diameter(defect))} across is larger than any plug: "
            'write mend = "patch"'
        )
    if defect.mend is Mend.FILLER and (across := box_of(defect).width) > WIDEST_FILLER:
        wide = tape.measure(across)
        return f'filler falls out of a place {wide} across: write mend = "patch" or "resin"'
    return _why_not_sanded(defect, kind, finish, tape) if defect.mend is Mend.SAND else ""


def _why_not_sanded(defect: Defect, kind: Kind, finish: Sequence[Coat], tape: Tape) -> str:
    if Coat.LAMINATE in finish:
        return 'laminate is sanded through at once: clean it, or write mend = "filler" or "patch"'
    if defect.depth is None:
        return "how deep it is sanded follows from its depth: give depth"
    deepest = SANDED_VENEER if kind in VENEERS else SANDED_WOOD
    if at_most(defect.depth, deepest):
        return ""
    deep = f"sanding {tape.small(defect.depth)} deep"
    if kind in VENEERS:
        return f'{deep} goes through a veneer: write mend = "patch"'
    return f'{deep} leaves a hollow: write mend = "patch", or flattened under [panel]'


def plug_bore(found: float, tape: Tape) -> float | None:
    """Return the bit that bores a hole of this diameter clean, mm; None where none is large enough.

    >>> plug_bore(35.0, Tape()), plug_bore(22.0, Tape()), plug_bore(79.0, Tape())
    (38.0, 25.0, None)
    """
    sixteenth = MM_PER_INCH / 16
    bits = (
        [n * sixteenth for n in PLUG_BITS_IMPERIAL]
        if tape.imperial
        else [float(bit) for bit in PLUG_BITS]
    )
    return next((bit for bit in bits if bit >= found + 2 * BORED_CLEAN - 1e-9), None)


def hole_diameter(defect: Defect) -> float:
    """Return the diameter of the circle about a defect's middle that holds all of it, mm."""
    middle = defect.place.bounds.middle
    points = defect.place.points(CHORD, "inside")
    return 2 * max(middle.distance_to(Point.of(row)) for row in points)


def box_of(defect: Defect) -> TurnedBox:
    """Return the least box round a defect, one of metres less finely than a knot."""
    return TurnedBox.around(defect.place.points(defect.chord, "outside"))
