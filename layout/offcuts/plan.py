"""What is left of the panel when the top is cut out, piece by piece, and proof that it adds up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..geometry.alike import ranked
from ..geometry.path import Path
from ..geometry.polygon import Region, union
from ..geometry.tolerance import ALIKE_AREA, SAME_PLACE
from ..geometry.turned_box import TurnedBox
from ..panel import Panel
from .clean import largest_clean_rectangle
from .wish import OffcutWish

_FINE = 0.0001
"""How near a polygon of the top follows it here, mm: its area is then right to 3e-7."""

_CRUMB = 1.0
"""A piece smaller than this, mm², is dust."""

_TOUCH = 0.01
"""A defect that lies in less of a piece than this only touches it, mm²."""


@dataclass(frozen=True, slots=True)
class Offcut:
    """One piece that falls off."""

    number: int
    """From 1, largest clean rectangle first, then largest; alike ones along the panel, then up."""
    cut: int
    """Which of the kerfs freed it, from 1; 0 where it was loose from the start."""
    piece: Region
    """On the panel."""
    area: float = field(metadata={"unit": "mm2"})
    """mm²."""
    mass: float = field(metadata={"unit": "kg"})
    """When it falls off, kg."""
    clean: TurnedBox | None
    """The largest found in it that is clear of every defect; None where none was found."""
    defects: tuple[str, ...]
    """Names of the defects that lie in it."""
    kept: bool
    """Whether it is worth keeping; the rest is scrap."""


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
    """Sawdust."""
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


@dataclass(frozen=True, slots=True)
class _Fallen:
    cut: int
    piece: Region


def offcuts_of(
    panel: Panel,
    core: Path,
    kerfs: Sequence[Region],
    wish: OffcutWish | None = None,
    *,
    rough: int = 0,
) -> OffcutPlan:
    """Return the pieces that fall off when the kerfs are cut in their order.

    A kerf may overrun: it takes only what still hangs on the top, never a piece that an earlier
    cut has freed.

    Parameters
    ----------
    core : Path
        On the panel, closed: the line of what stays, which is the finished top or, where it is
        lipped, its core.
    kerfs : sequence of Region
        What each saw cut turns to dust, on the panel, in the order of cutting.
    wish : OffcutWish, optional
        What is worth keeping.
    rough : int
        So many of the first cuts are made before the panel is flattened: what they free, or was
        loose before, is as thick as it was found.
    """
    wish = wish or OffcutWish()
    face = panel.region()
    top = Region.of(core, tolerance=_FINE)
    blank, fallen, dust = _cut(face, top, kerfs)
    uncut = Region.of(panel.boundary).area
    defects = [(defect.name, defect.reach()) for defect in panel.defects]
    found = []
    for item in fallen:
        thickness = panel.thickness if item.cut <= rough else panel.made_thickness
        weight = panel.substance.mass(1.0, thickness)
        found.append(_offcut(item, defects, weight, wish))
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
        "offcuts": sum(item.piece.area for item in fallen),
        "cut_outs": uncut - face.area,
    }
    balance = Balance(panel=uncut, error=(uncut - sum(parts.values())) / uncut, **parts)
    numbered = (
        Offcut(n, o.cut, o.piece, o.area, o.mass, o.clean, o.defects, o.kept)
        for n, o in enumerate(found, start=1)
    )
    return OffcutPlan(tuple(numbered), balance)


def _cut(face: Region, top: Region, kerfs: Sequence[Region]) -> tuple[Region, list[_Fallen], float]:
    """Return what hangs on the top in the end, what fell off at which cut, and the dust's area."""
    held, fallen = _parted(face, top)
    loose = [_Fallen(0, piece) for piece in fallen]
    dust = 0.0
    for number, kerf in enumerate(kerfs, start=1):
        left = held.minus(kerf)
        dust += held.area - left.area
        held, fallen = _parted(left, top)
        loose += [_Fallen(number, piece) for piece in fallen if piece.area > _CRUMB]
        dust += sum(piece.area for piece in fallen if piece.area <= _CRUMB)
    return held, loose, dust


def _parted(wood: Region, top: Region) -> tuple[Region, list[Region]]:
    """Return the pieces that the top lies in, and the others."""
    pieces = wood.pieces
    if len(pieces) == 1:
        return wood, []
    hanging = [piece for piece in pieces if piece.meet(top).area > _CRUMB]
    return union(hanging), [piece for piece in pieces if piece not in hanging]


def _offcut(
    fallen: _Fallen, defects: Sequence[tuple[str, Region]], weight: float, wish: OffcutWish
) -> Offcut:
    piece = fallen.piece
    within = [(name, reach) for name, reach in defects if reach.meet(piece).area > _TOUCH]
    clean = piece
    for _, reach in within:
        clean = clean.minus(reach)
    rectangle = largest_clean_rectangle(clean)
    kept = rectangle is not None and (
        rectangle.length >= wish.least_length - SAME_PLACE
        and rectangle.width >= wish.least_width - SAME_PLACE
    )
    return Offcut(
        number=0,
        cut=fallen.cut,
        piece=piece,
        area=piece.area,
        mass=piece.area * weight,
        clean=rectangle,
        defects=tuple(name for name, _ in within),
        kept=kept,
    )
