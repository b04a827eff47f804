"""What is left of the panel when the top is cut out, piece by piece, and proof that it adds up."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum

import numpy as np

from ..fit.families import answered
from ..fit.wish import Wish
from ..geometry import Path, Region, at_least, ranked, union
from ..geometry.polygon import Polygon
from ..geometry.tolerance import ALIKE_AREA, SAME_PLACE
from ..geometry.turned_box import TurnedBox, half_turn
from ..panel import Kind, Panel, SoundWood
from .wish import Make, OffcutWish, fit_for_food, makes_of

_FINE = 0.0001
"""How near a polygon of the top follows it here, mm: its area is then right to 3e-7."""

_CRUMB, _TOUCH = 1.0, 0.01
"""A smaller piece is dust, and a defect that lies in less of a piece only touches it, mm²."""

BOXES = 512
"""Boxes looked at at most. Of 60 offcuts of random jobs that could be worth keeping, 32 boxes found
the best of 500 in every one; of four right triangles one needs 170 to be found
(`tests/benchmarks/clean_rectangles.py`). A search ends at its gap: most take far fewer."""

_GAP, _EFFORT = 0.05, 3e7
"""The search ends where nothing can be larger by more than this share, for what is cut from an
offcut leaves more: a long strip is proved to 5 % in 48 boxes, to 3 % in 456; and after so many
looks at an edge, a second or two, for offcuts among hundreds of holes."""

_STEP = 0.1
"""mm to which its sizes are rounded down: so few boxes leave them open in the third figure."""


class Worth(Enum):
    """What an offcut is good for."""

    BOARD = "board"
    LEGS = "legs"
    BATTENS = "battens"
    SCRAP = "scrap"


@dataclass(frozen=True, slots=True)
class Offcut:
    """One piece that falls off."""

    number: int
    """From 1, largest clean rectangle first, then largest; alike ones along the panel, then up."""
    cut: int
    """Which of the kerfs freed it, from 1; 0 where it was loose from the start."""
    freed_by: str
    """What that cut is called; empty where it was loose, or the cuts have no names."""
    piece: Region
    area: float = field(metadata={"unit": "mm2"})
    mass: float = field(metadata={"unit": "kg"})
    """When it falls off, kg."""
    clean: TurnedBox | None
    """The largest found clear of every defect; None where none is, or is worth keeping."""
    most: float = field(metadata={"unit": "mm2"})
    """No clean rectangle in it is larger than this, mm²; proved."""
    defects: tuple[str, ...]
    """Names of the defects that lie in it."""
    worth: Worth
    makes: tuple[Make, ...] = ()
    """Of what the maker asks for, what a piece worth keeping makes."""

    @property
    def polygon(self) -> Polygon:
        """The piece where it lay on the panel, as a shapely geometry, mm."""
        return self.piece.shape

    @property
    def kept(self) -> bool:
        """Whether it is worth keeping."""
        return self.worth is not Worth.SCRAP


@dataclass(frozen=True, slots=True)
class Balance:
    """Where the panel's area goes: the parts add up to the whole."""

    panel: float = field(metadata={"unit": "mm2"})
    """As bounded outside, cut-outs not taken away, mm²."""
    top: float = field(metadata={"unit": "mm2"})
    """What of the panel stays in the top (its core, where it is lipped)."""
    trimming: float = field(metadata={"unit": "mm2"})
    """The strip outside the line that the router takes off, or that clings to the top."""
    kerf: float = field(metadata={"unit": "mm2"})
    offcuts: float = field(metadata={"unit": "mm2"})
    cut_outs: float = field(metadata={"unit": "mm2"})
    """What had been cut out of the panel before."""
    error: float
    """What is missing, as a share of the panel."""


@dataclass(frozen=True, slots=True)
class OffcutPlan:
    """What is left, and the balance."""

    pieces: tuple[Offcut, ...]
    balance: Balance


_Fallen = tuple[int, Region]
"""The number of the cut that freed a piece, and the piece."""


def offcuts_of(
    panel: Panel,
    core: Path,
    kerfs: Sequence[Region],
    wish: OffcutWish | None = None,
    *,
    names: Sequence[str] = (),
    rough: int = 0,
) -> OffcutPlan:
    """Return the pieces that fall off when the kerfs, named so, are cut in their order.

    A kerf may overrun: it takes only what still hangs on the top, never a piece that an earlier cut
    has freed. What the first `rough` cuts free, or was loose before, is as thick as the panel was
    found. `core` is the closed line of what stays.
    """
    wish = wish or OffcutWish()
    face = panel.region()
    top = Region.of(core, tolerance=_FINE)
    blank, fallen, dust = _cut(face, top, kerfs)
    uncut = Region.of(panel.boundary).area
    ground = _Ground(
        panel, wish, tuple((d.name, d.reach()) for d in panel.defects if d.spoils), tuple(names)
    )
    found = [
        ground.offcut(cut, piece, panel.thickness if cut <= rough else panel.made_thickness)
        for cut, piece in fallen
    ]
    found = ranked(
        found,
        lambda o: (o.clean.area if o.clean else 0.0, o.area),
        lambda o: tuple(o.piece.centroid),
        tolerance=(ALIKE_AREA, ALIKE_AREA),
    )
    parts = {
        "top": core.area - top.minus(face).area,
        "trimming": blank.minus(top).area,
        "kerf": dust,
        "offcuts": sum(piece.area for _, piece in fallen),
        "cut_outs": uncut - face.area,
    }
    balance = Balance(panel=uncut, error=(uncut - sum(parts.values())) / uncut, **parts)
    numbered = (replace(offcut, number=n) for n, offcut in enumerate(found, start=1))
    return OffcutPlan(tuple(numbered), balance)


def _cut(face: Region, top: Region, kerfs: Sequence[Region]) -> tuple[Region, list[_Fallen], float]:
    """Return what hangs on the top in the end, what fell off at which cut, and the dust's area."""
    held, fallen = _parted(face, top)
    loose = [(0, piece) for piece in fallen]
    dust = 0.0
    for number, kerf in enumerate(kerfs, start=1):
        left = held.minus(kerf)
        dust += held.area - left.area
        held, fallen = _parted(left, top)
        loose += [(number, piece) for piece in fallen if piece.area > _CRUMB]
        dust += sum(piece.area for piece in fallen if piece.area <= _CRUMB)
    return held, loose, dust


def _parted(wood: Region, top: Region) -> tuple[Region, list[Region]]:
    """Return the pieces that the top lies in, and the others."""
    pieces = wood.pieces
    if len(pieces) == 1:
        return wood, []
    hanging = [piece for piece in pieces if piece.meet(top).area > _CRUMB]
    return union(hanging), [piece for piece in pieces if piece not in hanging]


@dataclass(frozen=True, slots=True)
class _Ground:
    """What every piece is judged by."""

    panel: Panel
    wish: OffcutWish
    defects: tuple[tuple[str, Region], ...]
    names: tuple[str, ...]

    def offcut(self, cut: int, piece: Region, thickness: float) -> Offcut:
        """Return a piece that fell off so thick, not numbered yet."""
        within = [(name, reach) for name, reach in self.defects if reach.meet(piece).area > _TOUCH]
        clean = piece.minus(*(reach for _, reach in within))
        may_do = any(may_hold(clean, *least) for _, *least in self._ways(thickness))
        found = largest_clean_rectangle(clean) if may_do else None
        worth = self._worth(found, thickness)
        makes: tuple[Make, ...] = ()
        if found is not None and worth is not Worth.SCRAP:
            solid, food = self._is_solid(found.box.width), fit_for_food(self.panel)
            makes = makes_of(found.box, thickness, self.wish.makes, solid=solid, food=food)
        return Offcut(
            number=0,
            cut=cut,
            freed_by=dict(enumerate(self.names, start=1)).get(cut, ""),
            piece=piece,
            area=piece.area,
            mass=self.panel.substance.mass(piece.area, thickness),
            clean=None if found is None else found.box,
            most=clean.area if found is None else found.most,
            defects=tuple(name for name, _ in within),
            worth=worth,
            makes=makes,
        )

    def _ways(self, thickness: float, wide: float = 0.0) -> Iterator[tuple[Worth, float, float]]:
        """Yield what a piece so thick and wide may be good for, best first, and its least sizes."""
        wish = self.wish
        yield Worth.BOARD, wish.least_length, wish.least_width
        for worth, length, width, thick in (
            (Worth.LEGS, wish.leg_length, wish.leg_side, wish.leg_side),
            (Worth.BATTENS, wish.least_length, wish.batten_width, wish.batten_thickness),
        ):
            if self._is_solid(max(width, wide)) and at_least(thickness, thick, SAME_PLACE):
                yield worth, length, width

    def _worth(self, found: Clean | None, thickness: float) -> Worth:
        if found is not None:
            box = found.box
            for worth, *least in self._ways(thickness, box.width):
                sizes = zip((box.length, box.width), least, strict=True)
                if all(at_least(size, needed, SAME_PLACE) for size, needed in sizes):
                    return worth
        return Worth.SCRAP

    def _is_solid(self, wide: float) -> bool:
        """Return whether a strip so wide is of solid wood: of a frame, its stiles and rails are."""
        build = self.panel.build
        if build.kind is Kind.FRAMED:
            return wide <= max(build.stile, build.rail)
        return build.kind is Kind.SOLID


@dataclass(frozen=True, slots=True)
class Clean:
    """A rectangle in a piece, proved to lie in it, and what is known of all others."""

    box: TurnedBox
    most: float
    """No rectangle in the piece is larger than this, mm²; proved."""


def may_hold(piece: Region, length: float, width: float) -> bool:
    """Return whether a rectangle so long and wide may lie in a piece; where not, it is proved.

    Of such a one the middle line, half its width short of both ends, lies as deep inside.

    >>> import numpy as np
    >>> corner = Region.from_rings(np.array([(0.0, 0.0), (400.0, 0.0), (0.0, 400.0)]))
    >>> may_hold(corner, 440.0, 60.0), may_hold(corner, 500.0, 60.0)
    (True, False)
    """
    length, width = length - _STEP, width - _STEP
    if piece.area < length * width:
        return False
    within = piece.shrunk(width / 2, around=True).pieces
    corners = (Region.hull(part.corners).corners for part in within)
    spread = (np.hypot(*(c[:, None] - c).T).max() for c in corners)
    return any(far >= length - width for far in spread)


def largest_clean_rectangle(piece: Region, boxes: int = BOXES) -> Clean | None:
    """Return the largest rectangle found inside a region; None where there is none to speak of."""
    wish = Wish(("rectangle",), gap=_GAP, most_steps=boxes, most_effort=_EFFORT)
    answer = answered(SoundWood.exact(piece), wish, "rectangle")
    if answer.fit is None:
        return None
    outline, place = answer.fit.outline, answer.fit.placement
    sizes = outline.length, outline.width
    length, width = (min(s, _STEP * math.floor(s / _STEP + 0.01)) for s in sizes)
    box = TurnedBox(place.centre, length, width, half_turn(place.turn))
    return Clean(box, min(answer.bound, piece.area))
