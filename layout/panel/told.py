"""A defect as the maker tells of it: its kind, its place, and what is other than usual."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..errors import PanelError
from ..geometry import Path, Region
from ..keys.figures import ABOVE_0, FROM_0
from ..keys.key import Values, hold, key
from ..keys.kinds import Choice, Text, names
from ..keys.place import shown
from .defect import FACE, MEND, SPOILS, Defect, Face, Mend, Spoils
from .defect_kinds import ALIASES, DEFECT_KINDS, NOT_KINDS, UNNAMED, DefectKind
from .spot import Spot, path_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Told(Spot):
    """What a maker says of a defect; what is left out is as usual for its kind."""

    name: str | None = key(
        None,
        Text(),
        "What the maker calls it, each name once",
        '"letterbox"',
        usual="its kind and number",
    )
    kind: str | None = key(
        None,
        Choice(names(*DEFECT_KINDS), ALIASES, NOT_KINDS),
        "What it is; gives the usual `spoils`, `clear` and `ends`",
        '"split"',
        usual="none",
    )
    spoils: tuple[Spoils, ...] | None = key(
        None,
        SPOILS,
        "`showing`: it must lie outside the top. `cutting`: no blade, bit or screw may cross it, "
        "and it lies wholly inside or wholly outside the top. `bearing`: no leg or fixing stands "
        "there",
        '["cutting", "bearing"]',
        usual='by kind, else `["showing", "bearing"]`; without showing where `face` is `"down"`',
    )
    clear: float | None = key(
        None,
        FROM_0,
        "Kept clear all round it",
        "6",
        usual="by kind, else 0; where it spoils cutting, what blades and bit need",
    )
    ends: float | None = key(
        None,
        FROM_0,
        "Kept clear past both ends of an oblong `size`, else along the grain, where that is more "
        "than `clear`: a split runs on unseen",
        "50",
        usual="by kind, else 0",
    )
    face: Face | None = key(
        None,
        FACE,
        "The face that shows it",
        '"down"',
        usual='`"through"`; `"up"` where a depth is given',
    )
    depth: float | None = key(
        None,
        ABOVE_0,
        "How deep it goes, where it does not go through",
        "12",
        usual="not known",
    )
    mend: Mend | None = key(
        None,
        MEND,
        "How it is mended: then it may lie inside the top. A `plug`, a `patch` and `filler` stay "
        "whole; a `key` across a split, `resin` and a spot that is sanded out, for which `depth` "
        "is needed, may run out at the edge. No leg stands on filler or resin",
        '"plug"',
        usual="not at all",
    )

    called: str = ""
    """The word for its kind that the maker used: it is named by that."""

    def __post_init__(self) -> None:
        if self.kind and not self.called:
            object.__setattr__(self, "called", " ".join(str(self.kind).split()).casefold())
        hold(self, "defect", error=PanelError)

    def name_as(self, number: int) -> str:
        """Return its name, or what it is and its number on its panel."""
        return self.name or f"{self.called or 'defect'} {number}"

    @property
    def values(self) -> Values:
        """What of it is other than usual; what is wrong with it is raised."""
        return Values.of(self, "defect", error=PanelError)


def defect(kind: str | None = None, **told: Any) -> Defect:  # noqa: ANN401 - the keys of a defect
    """Return a defect by its kind and place, with what that kind usually spoils and keeps clear.

    Parameters
    ----------
    kind : str, optional
        Any name, or other word, that a job file takes: ``"screw hole"``.
    told : object
        The keys of ``[[panel.defects]]``: ``at`` with ``diameter`` or ``size`` (and ``turn_deg``),
        or ``points``; ``name``, ``spoils``, ``clear``, ``ends``, ``face``, ``depth``, ``mend``.
        On a panel it goes by that panel's grain and thickness, and is numbered if it has no name.

    Raises
    ------
    PanelError
        If a word is not known, a figure out of its limits, or it has no place.
    TypeError
        If there is no such key.

    Examples
    --------
    >>> hole = defect("screw hole", at=(60, 400), diameter=8)
    >>> hole.clear, sorted(spoilt.value for spoilt in hole.spoils)
    (6.0, ['bearing', 'showing'])
    """
    said = Told(kind=kind, **told)
    found = settled(said.values, said.name or said.called or "defect", told=said)
    assert found is not None  # or something was raised
    return found


def on_panel(
    defects: Sequence[Defect], grain: float, thickness: float, face: Region
) -> tuple[Defect, ...]:
    """Return defects as they are on a panel: by its grain, and by number where they have no name.

    Raises
    ------
    PanelError
        If one lies off its face or is deeper than it is thick.
    """
    found = []
    for number, one in enumerate(defects, start=1):
        said = one.told
        if said is None or one.blades is not None:
            found.append(one)
            continue
        name = said.name_as(number)
        placed = replace(one, name=name, blades=0.0)
        if said.ends is not None or (said.kind and DEFECT_KINDS[said.kind].ends):
            placed = settled(said.values, name, grain, told=said) or placed
        values = Values.of(said, name, error=PanelError)
        check_depth(values, thickness)
        check_on_panel(values, one.place, face)
        found.append(placed)
    return tuple(found)


def clear_of_blades(one: Defect, grain: float, blades: float) -> Defect:
    """Return a defect that keeps clear of blades where nothing else was said of it.

    Parameters
    ----------
    grain : float
        Of its panel, radians from x.
    blades : float
        How far outside the line of a top blades and bit may come, mm.
    """
    if one.told is None or one.blades == blades or Spoils.CUTTING not in one.spoils:
        return one
    return settled(one.told.values, one.name, grain, blades, told=one.told) or one


def settled(
    values: Values,
    name: str,
    grain: float = 0.0,
    blades: float | None = None,
    *,
    told: Told | None = None,
) -> Defect | None:
    """Return the defect that its keys tell of, or note what is wrong with them."""
    usual = DEFECT_KINDS[values["kind"]] if values["kind"] else UNNAMED
    side = values["face"] or (Face.UP if values.has("depth") else Face.THROUGH)
    spoils = _spoils(values, usual.spoils, side)
    clear = _clear(values, usual, (blades or 0.0) if Spoils.CUTTING in (spoils or ()) else 0.0)
    ends = values["ends"] or 0.0 if values.has("ends") else usual.ends
    drawn_out = max(0.0, ends - (clear or 0.0))
    path = path_of(values, drawn_out, grain)
    if path is None or clear is None or spoils is None:
        return None
    told = told or values.made(Told)
    if told is None:
        return None
    return Defect(
        name, path, frozenset(spoils), clear, side, told.depth, told.mend, drawn_out, told, blades
    )


def _spoils(values: Values, usual: tuple[Spoils, ...], side: Face) -> tuple[Spoils, ...] | None:
    """Return what is spoilt; None where that cannot be read, or has been refused."""
    if values.has("spoils"):
        given: tuple[Spoils, ...] | None = values["spoils"]
        return given
    left = tuple(s for s in usual if side is not Face.DOWN or s is not Spoils.SHOWING)
    if usual and not left:
        values.at("spoils").wrong(
            "on the underside this spoils nothing: leave the defect out, or say what it spoils"
        )
        return None
    return left


def _clear(values: Values, usual: DefectKind, blades: float) -> float | None:
    """Return what is kept clear all round: given, or usual and no less than the blades need.

    With points nobody knows which way the harm runs on.
    """
    if values.has("clear"):
        given: float | None = values["clear"]
        return given
    return max(usual.clear, usual.ends if values.has("points") else 0.0, blades)


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


def check_name(values: Values, name: str, number: int, names: dict[str, int]) -> None:
    """Note a name that an earlier defect has."""
    earlier = names.setdefault(name.casefold(), number)
    if earlier != number:
        values.at("name").wrong(
            f"defect {earlier} is called {shown(name)} too: give each a name of its own"
        )
