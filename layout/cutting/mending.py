"""Mending: plugs in holes, keys across splits, patches over what shows, each with its size.

What is mended may lie inside the top; what bears a leg is another matter. Sizes are common
practice: a plug is bored clean all round, a key is half as long as the split and a third of the
wood deep, a patch covers what is seen and a little more.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry.alike import at_least, at_most
from ..geometry.distance import longest_of
from ..geometry.path import Path
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from ..geometry.turned_box import TurnedBox
from ..panel.build import Kind
from ..panel.defect import Defect, Mend, rectangular_place, round_place
from ..panel.panel import Panel
from ..units import MM_PER_INCH, Tape, nearest_whole

PLUG_BITS = (8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75, 80)
"""Diameters of plug cutters and flat-bottomed bits that are sold, mm (common practice)."""

PLUG_BITS_IMPERIAL = (6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 34, 36, 40, 48)
"""The same where the maker's tape is in inches, sixteenths of an inch."""

BORED_CLEAN = 1.0
"""Taken off all round a hole before it is plugged, mm (common practice)."""

LEAST_PLUG = 8.0
"""A thinner plug has too little glue on its side, mm deep (common practice)."""

THIN_FLOOR = 3.0
"""Wood thinner than this under a plug gives way: it is bored through, mm (common practice)."""

PROUD = 1.0
"""Plugs and patches stand out by this until the glue is hard, mm (common practice)."""

WAIT = 24.0
"""Before a mend is levelled, hours (common practice)."""

KEY_SHARE = 0.5
"""A key is half as long as the split that it holds (common practice)."""

LEAST_KEY, LONGEST_KEY = 60.0, 120.0
"""A shorter key holds nothing and a longer one shows more than it holds, mm (our choice)."""

KEY_WIDTH = 0.4
"""Width of a key at its ends, as a share of its length (common practice)."""

KEY_DEPTH = 1 / 3
"""How deep it goes, as a share of the thickness (common practice)."""

KEY_EVERY = 100.0
"""A split takes a key in each stretch of this length, and two at least, mm (common practice); one
that is shorter than a key takes one."""

PATCH_MORE = 3.0
"""A patch reaches this much past what it covers all round, mm (common practice)."""

PATCH_DEPTH, VENEER_PATCH = 8.0, 1.0
"""How deep a patch goes in solid wood at most, and in a veneer, mm (common practice)."""


@dataclass(frozen=True, slots=True)
class Mended:
    """One mend."""

    defect: str
    """What is mended."""
    how: Mend
    places: tuple[Placement, ...]
    """The middle of each plug, key or patch on the panel, turned as its length lies."""
    length: float
    width: float
    depth: float
    """Of each, mm; a plug is as wide as long: its diameter."""
    through: bool
    """Whether it goes right through."""
    proud: float = PROUD
    """How far it stands out until it is levelled, mm."""
    wait: float = WAIT
    """Until then, hours."""

    @property
    def prints(self) -> tuple[Path, ...]:
        """The outline of each plug, key or patch on the panel."""
        return tuple(self._print(place) for place in self.places)

    def _print(self, place: Placement) -> Path:
        if self.how is Mend.PLUG:
            return round_place(place.centre, self.length)
        if self.how is Mend.PATCH:
            return rectangular_place(place.centre, self.length, self.width, place.turn)
        x, y, waist = self.length / 2, self.width / 2, self.width / 4
        corners = [(-x, -y), (0, -waist), (x, -y), (x, y), (0, waist), (-x, y)]
        return Path.through((Point(*c) for c in corners), closed=True).placed(place)


def mends_for(panel: Panel, kept: Region, tape: Tape) -> tuple[Mended, ...]:
    """Return the mends of the defects that lie in what is kept of a panel, in their order.

    Parameters
    ----------
    kept : Region
        What lies within the line that is cut.
    tape : Tape
        Sizes are whole steps of 5 mm, or of 1/4 in, and bits those sold in the tape's unit.

    Raises
    ------
    LayoutError
        If a hole is too large for any plug.
    """
    return tuple(_mends(panel, kept, tape))


def _mends(panel: Panel, kept: Region, tape: Tape) -> Iterator[Mended]:
    for defect in panel.defects:
        if defect.mend is None or not kept.touches_or_crosses(defect.extent):
            continue
        if defect.mend is Mend.PLUG:
            yield _plug(panel, defect, tape)
        elif defect.mend is Mend.PATCH:
            yield _patch(panel, defect, tape)
        else:
            yield from _keys(panel, defect, kept, tape)


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


def _plug(panel: Panel, defect: Defect, tape: Tape) -> Mended:
    bore = plug_bore(hole_diameter(defect), tape)
    if bore is None:
        raise LayoutError(f"{defect.name}: too large for any plug; mend it by a patch")
    depth, through = _depth(panel, defect, LEAST_PLUG)
    place = Placement(defect.place.bounds.middle, panel.grain)
    return Mended(defect.name, Mend.PLUG, (place,), bore, bore, depth, through)


def _depth(panel: Panel, defect: Defect, least: float) -> tuple[float, bool]:
    """Return how deep to go, and whether that is right through."""
    thickness = panel.made_thickness
    if defect.depth is None:
        return thickness, True
    depth = max(defect.depth + BORED_CLEAN, least)
    through = not at_most(depth, thickness - THIN_FLOOR)
    return (thickness, True) if through else (depth, False)


def _keys(panel: Panel, defect: Defect, kept: Region, tape: Tape) -> Iterator[Mended]:
    """Yield the keys over the stretch of a split that stays in the top."""
    box = TurnedBox.around(defect.place.points(CHORD, "inside"))
    half = box.along * max(box.length / 2 - defect.drawn_out, 0.0)
    spans = kept.chord(box.centre - half, box.centre + half)
    if not spans:
        return
    start, end = longest_of(spans)
    run = start.distance_to(end)
    step = _step(tape)
    length = _down(min(max(LEAST_KEY, KEY_SHARE * run), LONGEST_KEY), step)
    count = max(2 if at_least(run, LEAST_KEY) else 1, nearest_whole(run / KEY_EVERY))
    places = tuple(
        Placement(start + (end - start) * ((i + 0.5) / count), box.turn + math.pi / 2)
        for i in range(count)
    )
    yield Mended(
        defect.name,
        Mend.KEY,
        places,
        length,
        _down(KEY_WIDTH * length, step),
        KEY_DEPTH * panel.made_thickness,
        through=False,
    )


def _patch(panel: Panel, defect: Defect, tape: Tape) -> Mended:
    box = TurnedBox.turned(defect.place.points(CHORD, "outside"), panel.grain)
    step = _step(tape)
    length, width = (_up(side + 2 * PATCH_MORE, step) for side in (box.length, box.width))
    most = VENEER_PATCH if panel.build.kind is Kind.VENEERED else PATCH_DEPTH
    wanted = most if defect.depth is None else max(defect.depth + BORED_CLEAN, most)
    depth = min(wanted, panel.made_thickness)
    place = Placement(box.centre, box.turn)
    return Mended(
        defect.name, Mend.PATCH, (place,), length, width, depth, depth >= panel.made_thickness
    )


def _step(tape: Tape) -> float:
    return MM_PER_INCH / 4 if tape.imperial else 5.0


def _down(size: float, step: float) -> float:
    return max(1, math.floor(size / step + 1e-9)) * step


def _up(size: float, step: float) -> float:
    return math.ceil(size / step - 1e-9) * step
