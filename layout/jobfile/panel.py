"""[panel]: the old panel and its defects, and whether its parts can be true of one panel."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..cutting.mending import why_not
from ..cutting.tools import Tools
from ..geometry import Path, Point, Region
from ..geometry.tolerance import CHORD, SAME_POINT
from ..geometry.turned_box import narrowest_strip
from ..keys.key import Values
from ..keys.place import UNREADABLE, Place, shown
from ..keys.plane import Ring, polygon
from ..panel.build import Build
from ..panel.defect import Defect, check_depth, check_on_panel, settled
from ..panel.edges import LETTERS, edges_of
from ..panel.panel import Panel, check_faces
from ..panel.told import Told, are_too_many, path_of
from ..plan.job import STAND_IN_THICKNESS
from ..units import Tape
from .outline import read_outline
from .sections import CUT_OUT, DATUM, DEFECT, PANEL, read_section


@dataclass(frozen=True, slots=True)
class PanelRead:
    """[panel] as far as it could be read."""

    values: Values
    outline: Path | None
    cut_outs: tuple[Path, ...]
    defects: tuple[Defect, ...]
    build: Build | None
    datum: tuple[Point, Point] | None

    @property
    def narrow(self) -> float:
        """No top of it is wider than this, mm."""
        return math.inf if self.outline is None else narrowest_strip(self.outline.points(CHORD))

    def panel(self) -> Panel | None:
        """Return the panel of a file in which nothing was wrong."""
        values = self.values
        return values.made(
            Panel,
            boundary=self.outline,
            thickness=values["thickness"] or values["flattened"] or STAND_IN_THICKNESS,
            cut_outs=self.cut_outs,
            defects=self.defects,
            build=self.build,
        )


def read_panel(raw: object, place: Place, tools: Tools) -> PanelRead:
    """Return the panel as far as it can be read."""
    values = read_section(raw, PANEL, place)
    outline = around = None
    if values.has("outline"):
        outline, around = read_outline(values["outline"], values.at("outline"))
    elif isinstance(raw, dict) and values.lacks("outline"):
        values.at("outline").wrong(
            "the outline is missing: write outline = { length = 1981, width = 838 }, or give points"
        )
    cut_outs = _cut_outs(values["cutouts"], values.at("cutouts"))
    face = _face(around, cut_outs, values.at("cutouts"))
    if outline is not None:
        _check_damaged(values, outline)
    build = _build(values, outline)
    check_faces(values, None if build is None else build.kind)
    return PanelRead(
        values=values,
        outline=outline,
        cut_outs=tuple(path for path in cut_outs if path is not None),
        defects=read_defects(values, face, tools),
        build=build,
        datum=_datum(values),
    )


def thickness_of(values: Values) -> float:
    """Return that of the top that is made of a panel, mm; of none, one that stands in for it."""
    return values["flattened"] or values["thickness"] or STAND_IN_THICKNESS


def _cut_outs(raw: object, place: Place) -> list[Path | None]:
    """Return the boundary of each cut-out; None for one that could not be read."""
    rows = [item for item in raw if isinstance(item, list)] if isinstance(raw, list) else []
    if any(not any(isinstance(i, list) for i in row) for row in rows):
        place.wrong(
            "cutouts is a list of rings, and a ring a list of points: write "
            "[[[x, y], [x, y], [x, y]]], three brackets"
        )
        return []
    listed = _listed(raw, place, "cut-outs: write [[[x, y], …], …]")
    return [_cut_out(item, place / i) for i, item in enumerate(listed)]


def _listed(raw: object, place: Place, written: str) -> Sequence[object]:
    """Return the items of a list; none, and a note, where it is none or holds too many."""
    if isinstance(raw, list | tuple):
        return () if are_too_many(raw, place) else raw
    if raw is not None and raw != UNREADABLE:
        place.wrong(f"{shown(raw)} is not a list of {written}")
    return ()


def _cut_out(raw: object, place: Place) -> Path | None:
    if isinstance(raw, dict):
        return path_of(read_section(raw, CUT_OUT, place))
    ring = Ring().read(raw, place)
    return None if ring is None else polygon(ring, place)


def _face(outline: Path | None, cut_outs: list[Path | None], place: Place) -> Region | None:
    """Return what the cut-outs leave; note those that take nothing, or all together everything."""
    if outline is None:
        return None
    whole = Region.of(outline)
    face = whole
    for i, path in enumerate(cut_outs):
        if path is None:
            continue
        hole = Region.of(path)
        if whole.meet(hole).area <= 0:
            (place / i).wrong("it lies wholly off the panel: leave it out, or look at its points")
        face = face.minus(hole)
    if face.area <= 0:
        place.wrong("the cut-outs leave nothing of the panel: look at their points")
        return None
    return face


def _build(values: Values, outline: Path | None) -> Build | None:
    if not values.sound("build", "stile", "rail", "between"):
        return None
    told = [values[name] for name in ("build", "stile", "rail", "between")]
    name = next((n for n in ("between", "stile") if values[n]), "rail")
    build = values.at(name).made(Build, *told)
    if outline is not None and build is not None:
        bounds = outline.bounds
        for name, across in (("stile", bounds.height), ("rail", bounds.width)):
            if 2 * values[name] > across:
                values.at(name).wrong(
                    f"two of {values.place.length(values[name])} are wider than the panel's "
                    f"{values.place.length(across)}: give the width of one"
                )
    return build and build.of(values["material"] or "")


def _datum(values: Values) -> tuple[Point, Point] | None:
    if values["datum"] is None:
        return None
    datum = read_section(values["datum"], DATUM, values.at("datum"))
    if not isinstance(values["datum"], dict):
        return None
    for name in ("from", "to"):
        if datum.lacks(name):
            datum.at(name).wrong(f"{name} is missing: give both, {{ from = [x, y], to = [x, y] }}")
    start, end = datum["from"], datum["to"]
    if start is None or end is None:
        return None
    if start.distance_to(end) <= SAME_POINT:
        datum.at("to").wrong("it is the same point as from: strike them far apart")
        return None
    return start, end


def _check_damaged(values: Values, outline: Path) -> None:
    count = len(edges_of(outline))
    if count > len(LETTERS):
        told = f"the panel has {count} edges, so its corners go without letters: give a datum"
    elif count:
        told = f"the panel has {count} corners, A to {LETTERS[count - 1]}"
    else:
        told = "the panel has no corners"
    for i, letter in enumerate(values["damaged"] or ()):
        if not LETTERS.index(letter) < count <= len(LETTERS):
            (values.at("damaged") / i).wrong(f"there is no corner {letter}: {told}")


def read_defects(panel: Values, face: Region | None, tools: Tools) -> tuple[Defect, ...]:
    """Return the defects of [panel] that could be read; blades are usually kept clear of them."""
    raw, place = panel["defects"], panel.at("defects")
    if isinstance(raw, dict):
        place.wrong("it is one table: open each defect with [[panel.defects]], two brackets")
        return ()
    listed = _listed(raw, place, "defects: open each with [[panel.defects]]")
    names, blades = dict[str, int](), tools.reach(thickness_of(panel))
    found = (_defect(item, place / i, panel, face, blades, names) for i, item in enumerate(listed))
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
    earlier = names.setdefault(name.casefold(), number)
    if earlier != number:
        values.at("name").wrong(
            f"defect {earlier} is called {shown(name)} too: give each a name of its own"
        )
    told = values.made(Told, called=called)
    found = settled(values, name, told, math.radians(panel["grain"] or 0.0), blades)
    check_depth(values, panel["thickness"])
    if found is None:
        return None
    check_on_panel(values, found.place, face)
    if found.mend is not None and panel.sound("build", "finish"):
        tape = Tape(place.units.is_imperial)
        refused = why_not(found, panel["build"], panel["finish"], tape)
        if refused:
            values.at("mend").wrong(refused)
    return found
