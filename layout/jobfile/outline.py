"""[panel.outline]: from sides or corners to one closed line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry import ORIGIN, Bounds, Path, Point
from ..geometry.tolerance import SAME_POINT
from ..keys.figures import ANY_LENGTH
from ..keys.key import Values
from ..keys.place import UNREADABLE, Place, shown
from ..keys.plane import Four, is_simple
from ..panel.outline import bowed, four_sided, oval_outline
from .sections import BOW, OUTLINE, read_section

_BY_SIDES = ("width", "radius", "radii", "clip", "clips")
_ROUND = ("diameter", "axes")


@dataclass(frozen=True, slots=True)
class OutlineRead:
    """An outline as far as it could be read."""

    path: Path | None
    around: Path | None
    """The same; or where it cannot be true, a box that holds it, so that what lies off the panel
    can be told all the same."""


def read_outline(raw: object, place: Place) -> OutlineRead:
    """Return the outline of the panel."""
    values = read_section(raw, OUTLINE, place)
    points = values["points"]
    if not isinstance(raw, dict):
        return OutlineRead(None, None)
    if any(values.has(name) for name in _ROUND):
        path = _round(values)
        return OutlineRead(path, path)
    if values.has("points"):
        apart = values.not_with("points", ("length", *_BY_SIDES), "the points say it all")
        bows = _bows(values, len(points)) if points else None
        path = None
        if apart and bows is not None and is_simple(points, values.at("points")):
            path = _through(points, bows, values)
        return OutlineRead(path, path or _box(points or ()))
    path = _by_sides(values)
    length, width = values["length"], values["width"]
    known = length is not None and width is not None
    return OutlineRead(path, path or (_box((ORIGIN, Point(length, width))) if known else None))


def _round(values: Values) -> Path | None:
    """Return a round or an oval outline, its box at the origin."""
    name = next(name for name in _ROUND if values.has(name))
    others = (*_ROUND, "length", *_BY_SIDES, "points", "bows")
    why = f"{name} says it all"
    sizes = (values[name],) * 2 if name == "diameter" else values[name]
    apart = values.not_with(name, (other for other in others if other != name), why)
    if not apart or sizes is None or None in sizes:
        return None
    return oval_outline(*sizes)


def _box(points: Sequence[Point]) -> Path | None:
    """Return a box that holds the points with room for any bow; None where there are none."""
    if not points:
        return None
    bounds = Bounds.around(points)
    return Path.round_box(bounds.grown(max(bounds.width, bounds.height) / 2 + SAME_POINT))


def _by_sides(values: Values) -> Path | None:
    if not values.given & {"length", "width"} and values.lacks("points"):
        values.place.wrong(
            "it has neither length and width nor points: give what you measured, or the diameter "
            "of a round panel"
        )
        return None
    missing = [name for name in ("length", "width") if not values.has(name)]
    for name in filter(values.lacks, missing):
        values.at(name).wrong(f"{name} is missing: give both length and width, or points")
    apart = values.only_one_of("radius", "radii") & values.only_one_of("clip", "clips")
    bows = _bows(values, 4)
    if missing or not apart or bows is None or not values.sound(*values.given):
        return None
    radii = values["radii"] or (values["radius"],) * 4
    clips = values["clips"] or (values["clip"],) * 4
    sides = (values["length"], values["width"])
    corners = [name for name in ("radii", "radius", "clips", "clip") if values.has(name)]
    return values.place.made(four_sided, values.place, sides, radii, clips, bows, corners)


def _through(points: tuple[Point, ...], bows: dict[int, float], values: Values) -> Path | None:
    try:
        return bowed(values.place, points, bows)
    except LayoutError as error:  # straight it is simple, so a bow crosses another edge
        values.at("bows").wrong(f"with its bows {error}")
        return None


def _bows(values: Values, corners: int) -> dict[int, float] | None:
    """Return the rise of each bowed edge by its index from 0; None where it could not be read."""
    raw, place = values["bows"], values.at("bows")
    if raw is None or raw == UNREADABLE:
        return {} if raw is None else None
    if not isinstance(raw, list):
        place.wrong(f"{shown(raw)} is not a list: write [{{ from = 2, rise = -8 }}]")
        return None
    if raw and not any(isinstance(item, dict) for item in raw):
        return _four_bows(raw, place, corners)
    rises: dict[int, float] = {}
    sound = True
    for i, item in enumerate(raw):
        bow = read_section(item, BOW, place / i)
        edge, rise = bow["from"], bow["rise"]
        for name in ("from", "rise"):
            if isinstance(item, dict) and bow.lacks(name):
                bow.at(name).wrong(f"{name} is missing: write {{ from = 2, rise = -8 }}")
        if edge is None or rise is None:
            sound = False
        elif edge > corners:
            bow.at("from").wrong(f"{edge} is no corner: there are {corners}, counted from 1")
            sound = False
        elif edge - 1 in rises:
            bow.at("from").wrong(f"the edge from corner {edge} bows twice: keep one of them")
            sound = False
        else:
            rises[edge - 1] = rise
    return rises if sound else None


def _four_bows(raw: list[object], place: Place, corners: int) -> dict[int, float] | None:
    if corners != 4 or len(raw) != 4:
        place.wrong(
            f"{len(raw)} bows for {corners} edges: write four lengths for AB, BC, CD, DA of a "
            "panel with four corners, or [{ from = 2, rise = -8 }]"
        )
        return None
    four = Four(ANY_LENGTH, "AB, BC, CD, DA").read(raw, place)
    return None if four is None else dict(enumerate(four))
