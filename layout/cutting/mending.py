"""Mending: what can be mended how, and plugs, keys, patches, filler, resin, sanding by their sizes.

What is mended may lie inside the top; what bears a leg is another matter. A plug is bored clean all
round, a key is half as long as the split and a third of the wood deep, a patch covers what is seen
and a little more, filler and resin go in by layers, and a spot that is sanded out is faded so far
that nobody feels the hollow.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..errors import LayoutError
from ..geometry import Path, Placement, Point, Region, at_least, at_most
from ..geometry.distance import longest_of
from ..geometry.tolerance import CHORD
from ..geometry.turned_box import TurnedBox
from ..panel import Coat, Defect, Kind, Mend, Panel, rectangular_place, round_place
from ..units import MM_PER_INCH, Tape, nearest_whole

_MM = (8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75, 80)
_SIXTEENTHS = (6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 34, 36, 40, 48)
PLUG_BITS = tuple(map(float, _MM))
PLUG_BITS_IMPERIAL = tuple(n * (MM_PER_INCH / 16) for n in _SIXTEENTHS)
"""Diameters of plug cutters and bits that are sold, mm, for either tape (common practice)."""

BORED_CLEAN = 1.0
"""Taken off all round a hole before it is plugged, mm (common practice)."""

WIDEST_FILLER = 15.0
"""Across a hole that filler holds in; over a wider one it falls out, mm (common practice)."""

VENEERS = frozenset({Kind.VENEERED, Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.HOLLOW})
"""Builds whose face is a thin sheet."""

SANDED_WOOD, SANDED_VENEER = 1.0, 0.2
"""How deep a spot is sanded at most, mm: in solid wood, where more takes a plane to the whole face
(our choice), and in veneer, which is 0.5 to 0.6 mm thick when new (common practice)."""

LEAST_PLUG, THIN_FLOOR = 8.0, 3.0
"""A thinner plug has too little glue on its side, and thinner wood under it gives way: it is bored
through; mm (common practice)."""

PROUD, WAIT = 1.0, 24.0
"""Plugs and patches stand out by so much, mm, until they are levelled, h (common practice)."""

KEY_SHARE, KEY_WIDTH, KEY_DEPTH = 0.5, 0.4, 1 / 3
"""How long a key is as a share of the split that it holds, how wide at its ends of its own length,
how deep of the thickness (common practice)."""

LEAST_KEY, LONGEST_KEY = 60.0, 120.0
"""A shorter key holds nothing and a longer one shows more than it holds, mm (our choice)."""

KEY_EVERY = 100.0
"""A split takes a key in each stretch of this length, and two at least, mm (common practice); one
that is shorter than a key takes one."""

PATCH_MORE = 3.0
"""A patch reaches this much past what it covers all round, mm (common practice)."""

PATCH_DEPTH, VENEER_PATCH = 8.0, 1.0
"""How deep a patch goes in solid wood at most, and in a veneer, mm (common practice)."""

GRAINLESS = frozenset({Kind.MDF, Kind.PARTICLEBOARD, Kind.HOLLOW})
"""Builds whose face shows no grain; a hollow door is mostly painted."""

FILLER_LAYER, RESIN_LAYER = 5.0, 10.0
"""Filler that is thicker at once shrinks and cracks, resin gets too hot, mm (common practice; the
makers' instructions go before it)."""

FADED = 100.0
"""A spot is sanded so many times wider all round than deep: 1 in 100 is not felt (ours)."""


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
    bits = PLUG_BITS_IMPERIAL if tape.imperial else PLUG_BITS
    large = (bit for bit in bits if bit >= found + 2 * BORED_CLEAN - 1e-9)
    return next(large, None)


def hole_diameter(defect: Defect) -> float:
    """Return the diameter of the circle about a defect's middle that holds all of it, mm."""
    middle = defect.place.bounds.middle
    points = defect.place.points(CHORD, "inside")
    return 2 * max(middle.distance_to(Point.of(row)) for row in points)


def box_of(defect: Defect) -> TurnedBox:
    """Return the least box round a defect, one of metres less finely than a knot."""
    return TurnedBox.around(defect.place.points(defect.chord, "outside"))


@dataclass(frozen=True, slots=True)
class Mended:
    """One mend."""

    defect: str
    how: Mend
    places: tuple[Placement, ...]
    """The middle of each plug, key or patch on the panel, turned as its length lies."""
    length: float
    width: float
    depth: float
    """Of each, mm; a plug is as wide as long: its diameter."""
    through: bool
    grained: bool = True
    """Whether the face about it has a grain to follow."""
    layers: int = 1
    """Filler and resin go in by so many."""
    proud: float = PROUD
    """How far it stands out until it is levelled, mm; 0 where nothing is put in."""
    wait: float = WAIT
    """Until then, hours."""

    @property
    def prints(self) -> tuple[Path, ...]:
        """The outline of each plug, key or patch on the panel."""
        return tuple(self._print(place) for place in self.places)

    def _print(self, place: Placement) -> Path:
        if self.how is Mend.PLUG:
            return round_place(place.centre, self.length)
        if self.how is not Mend.KEY:
            return rectangular_place(place.centre, self.length, self.width, place.turn)
        x, y, waist = self.length / 2, self.width / 2, self.width / 4
        corners = [(-x, -y), (0, -waist), (x, -y), (x, y), (0, waist), (-x, y)]
        return Path.through((Point(*c) for c in corners), closed=True).placed(place)


def mends_for(panel: Panel, kept: Region, tape: Tape) -> Iterator[Mended]:
    """Yield the mends of the defects that lie within the line that is cut, in their order.

    Raises a LayoutError if one cannot be mended in that way. Sizes are whole steps, and bits those
    sold, in the unit of the tape.
    """
    mended = [d for d in panel.defects if d.mend and kept.touches_or_crosses(d.extent)]
    grained = panel.build.kind not in GRAINLESS
    # a face is sanded when nothing stands out of it any more
    for defect in sorted(mended, key=lambda d: d.mend is Mend.SAND):
        if refused := why_not(defect, panel.build.kind, panel.finish, tape):
            raise LayoutError(f"{defect.name}: {refused}")
        yield from (replace(m, grained=grained) for m in _mended(panel, defect, kept, tape))


def _mended(panel: Panel, defect: Defect, kept: Region, tape: Tape) -> Iterator[Mended]:
    if defect.mend is Mend.PLUG:
        yield _plug(panel, defect, tape)
    elif defect.mend is Mend.PATCH:
        yield _patch(panel, defect, tape)
    elif defect.mend is Mend.KEY:
        yield from _keys(panel, defect, kept, tape)
    elif defect.mend is Mend.SAND:
        yield _sanded(panel, defect)
    else:
        yield _filled(panel, defect)


def _plug(panel: Panel, defect: Defect, tape: Tape) -> Mended:
    bore, depth = plug_bore(hole_diameter(defect), tape), panel.made_thickness
    assert bore is not None  # or it was refused
    if defect.depth is not None:
        bored = max(defect.depth + BORED_CLEAN, LEAST_PLUG)
        depth = bored if at_most(bored, depth - THIN_FLOOR) else depth
    place = Placement(defect.place.bounds.middle, panel.grain)
    through = depth == panel.made_thickness
    return Mended(defect.name, Mend.PLUG, (place,), bore, bore, depth, through)


def _keys(panel: Panel, defect: Defect, kept: Region, tape: Tape) -> Iterator[Mended]:
    """Yield the keys over the stretch of a split that stays in the top."""
    box, step = TurnedBox.around(defect.place.points(CHORD, "inside")), tape.step
    half = box.along * max(box.length / 2 - defect.drawn_out, 0.0)
    spans = kept.chord(box.centre - half, box.centre + half)
    if not spans:
        return
    start, end = longest_of(spans)
    run = start.distance_to(end)
    length = _down(min(max(LEAST_KEY, KEY_SHARE * run), LONGEST_KEY), step)
    count = max(2 if at_least(run, LEAST_KEY) else 1, nearest_whole(run / KEY_EVERY))
    places = tuple(
        Placement(start + (end - start) * ((i + 0.5) / count), box.turn + math.pi / 2)
        for i in range(count)
    )
    width, depth = _down(KEY_WIDTH * length, step), KEY_DEPTH * panel.made_thickness
    yield Mended(defect.name, Mend.KEY, places, length, width, depth, through=False)


def _patch(panel: Panel, defect: Defect, tape: Tape) -> Mended:
    box = TurnedBox.turned(defect.place.points(CHORD, "outside"), panel.grain)
    step, thick = tape.step, panel.made_thickness
    length, width = (
        math.ceil((side + 2 * PATCH_MORE) / step - 1e-9) * step for side in (box.length, box.width)
    )
    most = VENEER_PATCH if panel.build.kind is Kind.VENEERED else PATCH_DEPTH
    wanted = most if defect.depth is None else max(defect.depth + BORED_CLEAN, most)
    depth, place = min(wanted, thick), (Placement(box.centre, box.turn),)
    return Mended(defect.name, Mend.PATCH, place, length, width, depth, depth >= thick)


def _filled(panel: Panel, defect: Defect) -> Mended:
    """Return what fills a defect as it is."""
    assert defect.mend is not None
    box, through = box_of(defect), defect.depth is None
    depth = panel.made_thickness if defect.depth is None else defect.depth
    layer = FILLER_LAYER if defect.mend is Mend.FILLER else RESIN_LAYER
    place, size = (Placement(box.centre, box.turn),), (box.length, box.width, depth)
    layers = math.ceil(depth / layer - 1e-9)
    return Mended(defect.name, defect.mend, place, *size, through, layers=layers)


def _sanded(panel: Panel, defect: Defect) -> Mended:
    """Return the spot that is sanded, with what it fades out in."""
    assert defect.depth is not None  # or it was refused
    box = TurnedBox.turned(defect.place.points(CHORD, "outside"), panel.grain)
    more, place = 2 * FADED * defect.depth, (Placement(box.centre, box.turn),)
    size = (box.length + more, box.width + more, defect.depth)
    return Mended(defect.name, Mend.SAND, place, *size, through=False, proud=0.0, wait=0.0)


def _down(size: float, step: float) -> float:
    return max(1, math.floor(size / step + 1e-9)) * step
