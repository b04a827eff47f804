"""[[panel.defects]]: what is wrong with the panel, and whether it can be so."""

from __future__ import annotations

import math

from ..cutting.mendable import why_not
from ..cutting.tools import Tools
from ..geometry.polygon import Region
from ..keys.place import UNREADABLE, Place, shown
from ..keys.values import Values
from ..panel.defect import Defect
from ..panel.spot import are_too_many
from ..panel.told import Told, check_depth, check_name, check_on_panel, settled
from ..plan.job import STAND_IN_THICKNESS
from ..units import Tape
from .section import read_section
from .sections import DEFECT


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
    blades = tools.reach(panel["flattened"] or panel["thickness"] or STAND_IN_THICKNESS)
    found = [_defect(item, place / i, panel, face, blades, names) for i, item in enumerate(raw)]
    return tuple(defect for defect in found if defect is not None)


def _defect(
    raw: object,
    place: Place,
    panel: Values,
    face: Region | None,
    blades: float,
    names: dict[str, int],
) -> Defect | None:
    values = read_section(raw, DEFECT, place)
    if not isinstance(raw, dict):
        return None
    number = int(place.trail[-1]) + 1
    called = " ".join(raw["kind"].split()).casefold() if values["kind"] else ""
    name = values["name"] or f"{called or 'defect'} {number}"
    check_name(values, name, number, names)
    told = values.made(Told, called=called)
    found = settled(values, name, math.radians(panel["grain"] or 0.0), blades, told=told)
    check_depth(values, panel["thickness"])
    if found is None:
        return None
    check_on_panel(values, found.place, face)
    if found.mend is not None and panel.sound("build", "finish"):
        tape = Tape.for_units(place.units)
        refused = why_not(found, panel["build"], panel["finish"], tape)
        if refused:
            values.at("mend").wrong(refused)
    return found
