"""Defects: what is wrong with a panel where, and what it spoils."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from ..errors import PanelError
from ..geometry import Path, Region
from ..geometry.stepping import Side
from ..geometry.tolerance import CHORD
from ..keys.figures import ABOVE_0, FROM_0
from ..keys.key import Values, fills, hold, key
from ..keys.kinds import Only, Text
from ..keys.plane import Boundary
from .defect_kinds import DEFECT_KINDS, FACE, MEND, SPOILS, UNNAMED, Face, Mend, Spoils
from .told import Places, Told, path_of


@dataclass(frozen=True, slots=True)
class Defect:
    """One defect; a `PanelError` is raised if a length is out of its limits."""

    name: str = field(metadata=fills(Text(), in_file=False))
    """As the maker calls it, unique on its panel."""
    place: Path = field(metadata=fills(Boundary(""), in_file=False))
    """Its closed boundary on the panel, anticlockwise, mm."""
    spoils: frozenset[Spoils] = field(
        metadata=fills(replace(SPOILS, into=frozenset), in_file=False)
    )
    """None of a sound glue line, and of a stain that the finish alone has: it is only told."""
    clear: float = key(0.0, FROM_0, in_file=False)
    """How far the top, the cut or the foot stays away from it, mm."""
    face: Face = key(Face.THROUGH, FACE, in_file=False)
    depth: float | None = key(None, ABOVE_0, in_file=False)
    """How deep it goes, mm, where it does not go through; None where nobody knows."""
    mend: Mend | None = key(None, MEND, in_file=False)
    """How it is mended; then it may lie inside the top, and a leg may stand where it bears."""
    drawn_out: float = key(0.0, FROM_0, in_file=False)
    """How far its place runs on past each end of what can be seen, mm."""
    told: Told | None = field(default=None, metadata={"json": False}, repr=False, compare=False)
    blades: float | None = field(default=None, metadata={"json": False}, repr=False, compare=False)
    """What was told of it, where it was made from that; and what blades take outside the line, mm,
    that it is kept clear by: None until it is put on a panel."""

    def __post_init__(self) -> None:
        hold(self, str(self.name), error=PanelError)

    @property
    def shows(self) -> bool:
        """Whether it must lie outside the top: it would be seen, and nobody mends it."""
        return Spoils.SHOWING in self.spoils and self.mend is None

    def reach(self, extra: float = 0.0) -> Region:
        """Return a polygon that contains the defect, its clearance and `extra` mm round it."""
        return _polygon(self.place, "outside", self.chord, self.clear + extra)

    def heart(self, extra: float = 0.0) -> Region:
        """Return a polygon that lies within the defect, its clearance and `extra` mm round it."""
        return _polygon(self.place, "inside", self.chord, self.clear + extra)

    @property
    def extent(self) -> Region:
        """The defect itself, without clearance."""
        return _polygon(self.place, "outside", self.chord, 0.0)

    @property
    def chord(self) -> float:
        """How far polygons of it may lie from its curves, mm: of metres less finely than a knot."""
        box = self.place.bounds
        return max(CHORD, _FINE * max(box.width, box.height))


_FINE = 2e-6
"""Share of its size that the outline of a large defect is followed to."""


@lru_cache(maxsize=1024)
def _polygon(place: Path, side: Side, chord: float, by: float) -> Region:
    """Return a place grown, on one side of the true one; many ask for the same."""
    return Region.of(place, side, chord).grown(by, around=side == "outside")


def defect(kind: str | None = None, **told: Any) -> Defect:  # noqa: ANN401 - the keys of a defect
    """Return a defect by its kind and place, with what that kind usually spoils and keeps clear.

    Its kind is any word that a job file takes, and `told` the keys of ``[[panel.defects]]``: ``at``
    with ``diameter`` or ``size`` (and ``turn_deg``), or ``points``; ``name``, ``spoils``,
    ``clear``, ``ends``, ``face``, ``depth``, ``mend``. On a panel it goes by that panel's grain and
    thickness, and is numbered if it has no name. A `PanelError` is raised if a word is not known, a
    figure out of its limits, or it has no place.

    >>> hole = defect("screw hole", at=(60, 400), diameter=8)
    >>> hole.clear, sorted(spoilt.value for spoilt in hole.spoils)
    (6.0, ['bearing', 'showing'])
    """
    said = Told(kind=kind, **told)
    values = Values.of(said, "defect", error=PanelError)
    found = settled(values, said.name or said.called or "defect", said)
    assert found is not None  # or something was raised
    return found


def settled(
    values: Values, name: str, told: Told | None, grain: float = 0.0, blades: float | None = None
) -> Defect | None:
    """Return the defect that was told of by its keys, or note what is wrong with them."""
    usual = DEFECT_KINDS[values["kind"]] if values["kind"] else UNNAMED
    side = values["face"] or (Face.UP if values.has("depth") else Face.THROUGH)
    spoils: tuple[Spoils, ...] | None = values["spoils"]
    if not values.has("spoils"):
        under = side is Face.DOWN
        spoils = tuple(s for s in usual.spoils if not under or s is not Spoils.SHOWING)
        if usual.spoils and not spoils:
            values.at("spoils").wrong(
                "on the underside this spoils nothing: leave the defect out, or say what it spoils"
            )
            spoils = None
    clear: float | None = values["clear"]
    if not values.has("clear"):
        # With points nobody knows which way the harm runs on; blades need what they take outside.
        every_way = usual.ends if values.has("points") else 0.0
        cut = (blades or 0.0) if Spoils.CUTTING in (spoils or ()) else 0.0
        clear = max(usual.clear, every_way, cut)
    ends = values["ends"] or 0.0 if values.has("ends") else usual.ends
    drawn_out = max(0.0, ends - (clear or 0.0))
    path = path_of(values, drawn_out, grain)
    if path is None or clear is None or spoils is None or told is None:
        return None
    return Defect(
        name, path, frozenset(spoils), clear, side, told.depth, told.mend, drawn_out, told, blades
    )


def on_panel(
    defects: Sequence[Defect], grain: float, thickness: float, face: Region
) -> tuple[Defect, ...]:
    """Return defects as they are on a panel: by its grain, and by number where they have no name.

    A `PanelError` is raised if one lies off its face or is deeper than it is thick.
    """
    found = []
    for number, one in enumerate(defects, start=1):
        said = one.told
        if said is None or one.blades is not None:
            found.append(one)
            continue
        name = said.name or f"{said.called or 'defect'} {number}"
        values = Values.of(said, name, error=PanelError)
        placed = replace(one, name=name, blades=0.0)
        if said.ends is not None or (said.kind and DEFECT_KINDS[said.kind].ends):
            placed = settled(values, name, said, grain) or placed
        check_depth(values, thickness)
        check_on_panel(values, one.place, face)
        found.append(placed)
    return tuple(found)


def clear_of_blades(one: Defect, grain: float, blades: float) -> Defect:
    """Return a defect kept so far clear of blades, mm, where nothing else was said of it."""
    if one.told is None or one.blades == blades or Spoils.CUTTING not in one.spoils:
        return one
    values = Values.of(one.told, one.name, error=PanelError)
    return settled(values, one.name, one.told, grain, blades) or one


def check_depth(values: Values, thickness: float | None) -> None:
    """Note a depth that goes through a panel, as far as its thickness is known."""
    depth = values["depth"]
    if depth is None:
        return
    if values["face"] is Face.THROUGH:
        values.at("depth").wrong('it goes through: leave depth out, or say face = "up" or "down"')
    elif thickness is not None and depth > thickness:
        values.at("depth").wrong(
            f"{values.place.length(depth)} is deeper than the panel is thick, "
            f'{values.place.length(thickness)}: give at most that, or face = "through"'
        )


def check_on_panel(values: Values, path: Path | None, face: Region | None) -> None:
    """Note a defect that lies off a panel's face, as far as both are known."""
    if path is None or face is None:
        return
    box, place = path.bounds, values.place
    middle, about = box.middle, max(0.01, 1e-5 * max(box.width, box.height))
    if face.meet(Region.of(path, tolerance=about)).area <= 0:
        place.wrong(
            f"it lies off the panel: its middle is at x {place.length(middle.x)}, "
            f"y {place.length(middle.y)}, from corner A; look at the figures"
        )


DEFECTS = Places("list of tables, see `[[panel.defects]]`", Only(Defect, "make it a defect(…)"))
