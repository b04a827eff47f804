"""[[panel.defects]]: what is wrong with the panel, and whether it can be so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...cutting.mendable import why_not
from ...cutting.tools import Tools
from ...errors import LayoutError
from ...geometry.path import Path
from ...geometry.polygon import Region
from ...keys.place import UNREADABLE, Place, shown
from ...panel.defect import Defect, Face, Spoils
from ...units import Tape
from ..job import STAND_IN_THICKNESS
from ..keys.defect_kinds import DEFECT_KINDS, UNNAMED, DefectKind
from ..keys.places import DEFECT
from .place import read_place
from .section import Values, read_section

MOST_PLACES = 300
"""Defects or cut-outs that are worked with: an old bench top has some dozen, and every search looks
at each of them thousands of times."""


def read_defects(panel: Values, face: Region | None, tools: Tools) -> tuple[Defect, ...]:
    """Return the defects that could be read.

    Parameters
    ----------
    panel : Values
        [panel].
    face : Region or None
        What there is of the panel, where that is known.
    tools : Tools
        What no blade may cross is usually kept clear of them.
    """
    raw, place = panel["defects"], panel.at("defects")
    if raw is None or raw == UNREADABLE:
        return ()
    if isinstance(raw, dict):
        place.wrong("it is one table: open each defect with [[panel.defects]], two brackets")
        return ()
    if not isinstance(raw, list | tuple):
        place.wrong(f"{shown(raw)} is not a list of defects: open each with [[panel.defects]]")
        return ()
    if are_too_many(raw, place):
        return ()
    names: dict[str, int] = {}
    about = _Panel(panel, face, tools.reach(_thickness(panel)))
    found = [_defect(item, place / i, about, names) for i, item in enumerate(raw)]
    return tuple(defect for defect in found if defect is not None)


def are_too_many(raw: Sequence[object], place: Place) -> bool:
    """Return whether a list holds more places than are worked with; note it."""
    if len(raw) > MOST_PLACES:
        place.wrong(
            f"{len(raw):,} places are more than the {MOST_PLACES} that are worked with: give those "
            "that lie close together as one"
        )
    return len(raw) > MOST_PLACES


@dataclass(frozen=True, slots=True)
class _Panel:
    """What is known of the panel that the defects are in."""

    values: Values
    face: Region | None
    blades: float
    """How far outside the line of a top blades and bit may come, mm."""


def _thickness(panel: Values) -> float:
    return panel["flattened"] or panel["thickness"] or STAND_IN_THICKNESS


def _defect(raw: object, place: Place, panel: _Panel, names: dict[str, int]) -> Defect | None:
    values = read_section(raw, DEFECT, place)
    if not isinstance(raw, dict):
        return None
    number = int(place.trail[-1]) + 1
    name = values["name"] or f"{values['kind'] or 'defect'} {number}"
    earlier = names.setdefault(name.casefold(), number)
    if earlier != number:
        values.at("name").wrong(
            f"defect {earlier} is called {shown(name)} too: give each a name of its own"
        )
    usual = DEFECT_KINDS[values["kind"]] if values["kind"] else UNNAMED
    side = _side(values)
    spoils = _spoils(values, usual.spoils, side)
    clear = _clear(values, usual, panel.blades if Spoils.CUTTING in (spoils or ()) else 0.0)
    drawn_out = _drawn_out(values, clear, usual.ends)
    path = read_place(values, drawn_out, panel.values["grain"] or 0.0)
    _check_depth(values, panel.values)
    _check_on_panel(path, panel.face, place)
    if path is None or clear is None or spoils is None:
        return None
    if not values.sound("depth", "face", "mend"):
        return None
    mend, depth = values["mend"], values["depth"]
    try:
        defect = Defect(name, path, frozenset(spoils), clear, side, depth, mend, drawn_out)
    except LayoutError as error:
        place.wrong(str(error))
        return None
    _check_mend(values, panel.values, defect)
    return defect


def _check_mend(values: Values, panel: Values, defect: Defect) -> None:
    """Note what cannot be mended as it is meant to be."""
    if defect.mend is None or not panel.sound("build", "finish"):
        return
    tape = Tape.for_units(values.place.notes.units)
    refused = why_not(defect, panel["build"], panel["finish"], tape)
    if refused:
        values.at("mend").wrong(refused)


def _side(values: Values) -> Face:
    if values["face"] is not None:
        face: Face = values["face"]
        return face
    return Face.UP if values.has("depth") else Face.THROUGH


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


def _drawn_out(values: Values, clear: float | None, usual_ends: float) -> float:
    """Return what a place is drawn out by, so that `ends` is kept past both its ends."""
    ends = usual_ends if not values.has("ends") else (values["ends"] or 0.0)
    return max(0.0, ends - (clear or 0.0))


def _check_depth(values: Values, panel: Values) -> None:
    depth, thickness = values["depth"], panel["thickness"]
    if depth is None:
        return
    if values["face"] is Face.THROUGH:
        values.at("depth").wrong('it goes through: leave depth out, or say face = "up" or "down"')
    elif thickness is not None and depth > thickness:
        values.at("depth").wrong(
            f"{values.place.length(depth)} is deeper than the panel is thick, "
            f'{values.place.length(thickness)}: give at most that, or face = "through"'
        )


def _check_on_panel(path: Path | None, face: Region | None, place: Place) -> None:
    if path is None or face is None:
        return
    middle = path.bounds.middle
    if face.meet(Region.of(path, tolerance=0.01)).area <= 0:
        place.wrong(
            f"it lies off the panel: its middle is at x {place.length(middle.x)}, "
            f"y {place.length(middle.y)}, from corner A; look at the figures"
        )
