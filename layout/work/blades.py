"""One rule for every blade, bit, screw and pin: through nothing that must not be cut.

Each path is held with its whole width against what is left of the wood by then: what has fallen
off with its waste is out of the way of the next tool.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import Enum

from ..concern import Concern
from ..cutting.cut import JigsawCut, Kerf, RouterCut
from ..cutting.plan import CutPlan
from ..geometry import Point, Region, array_of, union
from ..panel import Panel, Spoils

_FINE, _CRUMB = 0.02, 0.01
"""How near a polygon follows the line here, mm; what of a piece holds it to the top, mm²."""


class BladeMatter(Enum):
    """What a blade, bit, screw or pin does to what must not be cut."""

    CROSSES = "runs through it"
    NEAR = "passes closer than its clearance"


def blades_through(cuts: CutPlan, panel: Panel, bores: Iterable[Kerf] = ()) -> tuple[Concern, ...]:
    """Return what each cut, screw and pin meets or comes near to: its label, then the defect."""
    if not panel.spoiling(Spoils.CUTTING):
        return ()
    found = [*_mended(cuts, panel), *_cut(cuts, panel)]
    for bore in bores:
        found += _met(bore, panel)
    return tuple(dict.fromkeys(found))


def pins_of(cuts: CutPlan, places: dict[str, Point], diameter: float) -> tuple[Kerf, ...]:
    """Return the pins that jigsaw and router are swung about; marks are found by their labels."""
    swung = (cut.radii for cut in cuts.curve_cuts if isinstance(cut, JigsawCut | RouterCut))
    names = dict.fromkeys(name for radii in swung for held in radii for name in held.centres)
    return tuple(Kerf.bored(f"The pin at {name}", places[name], diameter) for name in names)


def _mended(cuts: CutPlan, panel: Panel) -> Iterator[Concern]:
    """Yield what the bits of a mend meet besides what is mended."""
    for mend in cuts.mends:
        others = panel.without_defect(mend.defect)
        for place in mend.prints:
            yield from _met(Kerf(f"The mend of {mend.defect}", Region.of(place, "outside")), others)


def _cut(cuts: CutPlan, panel: Panel) -> Iterator[Concern]:
    wood, core = panel.region("outside"), Region.of(cuts.core, tolerance=_FINE)
    straight = {cut.label for cut in (*cuts.trims, *cuts.corner_cuts)}
    for kerf in _bands(cuts, core):
        yield from _met(Kerf(kerf.label, kerf.band.meet(wood)), panel, near=kerf.label in straight)
        left = wood.minus(kerf.band)
        wood = union(piece for piece in left.pieces if piece.meet(core).area > _CRUMB)


def _bands(cuts: CutPlan, core: Region) -> Iterator[Kerf]:
    """Yield what every blade and bit sweeps, in the order of the work."""
    straight = len(cuts.trims) + len(cuts.corner_cuts)
    yield from cuts.kerfs[:straight]
    for cut in cuts.curve_cuts:
        if isinstance(cut, JigsawCut):
            for line in cut.relief:
                yield Kerf(cut.label, Region.along(array_of(line), cut.kerf / 2, around=True))
            yield from cuts.kerfs[straight:]
        else:
            wide = cut.bit if isinstance(cut, RouterCut) else cut.most_waste
            yield Kerf(cut.label, core.grown(max(wide, _FINE)).minus(core))


def _met(kerf: Kerf, panel: Panel, *, near: bool = False) -> Iterator[Concern]:
    """Yield what a blade meets, or comes near to: the line of the top keeps the clearance."""
    crossed = panel.crossed_by(kerf.band)
    for defect in panel.spoiling(Spoils.CUTTING):
        who = kerf.label, defect.name
        if defect in crossed:
            yield Concern(BladeMatter.CROSSES, who, 0.0, defect.clear)
        elif near and defect.reach().touches_or_crosses(kerf.band):
            distance = defect.extent.distance_to(kerf.band)
            yield Concern(BladeMatter.NEAR, who, distance, defect.clear)
