"""[panel.outline], [[panel.cutouts]] and where a defect is: closed lines on the panel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...errors import LayoutError
from ...geometry.bounds import Bounds
from ...geometry.path import Path
from ...geometry.point import ORIGIN, Point
from ...geometry.tolerance import SAME_POINT
from ...panel.defect import polygonal_place, rectangular_place, round_place
from ...panel.outline import outline_through, rectangular_outline
from ..keys.figures import ANY_LENGTH
from ..keys.places import BOW, OUTLINE
from ..keys.plane import Four
from ..text.mending import UNREADABLE
from ..text.notes import Place, shown
from .crossing import first_crossing
from .section import Values, read_section

_BY_SIDES = ("width", "radius", "radii", "clip", "clips")


@dataclass(frozen=True, slots=True)
class OutlineRead:
    """An outline as far as it could be read.

    Attributes
    ----------
    path : Path or None
    around : Path or None
        The same; or where it cannot be true, a box that holds it, so that what lies off the panel
        can be told all the same.
    """

    path: Path | None
    around: Path | None


def read_outline(raw: object, place: Place) -> OutlineRead:
    """Return the outline of the panel."""
    values = read_section(raw, OUTLINE, place)
    points = values["points"]
    if not isinstance(raw, dict):
        return OutlineRead(None, None)
    if values.has("points"):
        apart = values.not_with("points", ("length", *_BY_SIDES), "the points say it all")
        bows = _bows(values, len(points)) if points else None
        if not apart or points is None or bows is None or not _is_simple(points, values):
            return OutlineRead(None, _box(points or ()))
        path = _through(points, bows, place)
        return OutlineRead(path, path or _box(points))
    path = _by_sides(values)
    length, width = values["length"], values["width"]
    known = length is not None and width is not None
    return OutlineRead(path, path or (_box((ORIGIN, Point(length, width))) if known else None))


def _box(points: Sequence[Point]) -> Path | None:
    """Return a box that holds the points with room for any bow; None where there are none."""
    if not points:
        return None
    bounds = Bounds.around(points)
    box = bounds.grown(max(bounds.width, bounds.height) / 2 + SAME_POINT)
    corners = (
        Point(box.left, box.bottom),
        Point(box.right, box.bottom),
        Point(box.right, box.top),
        Point(box.left, box.top),
    )
    return Path.through(corners, closed=True)


def _by_sides(values: Values) -> Path | None:
    if not values.given & {"length", "width"} and values.lacks("points"):
        values.place.wrong("it has neither length and width nor points: give what you measured")
        return None
    missing = [name for name in ("length", "width") if not values.has(name)]
    for name in filter(values.lacks, missing):
        values.at(name).wrong(f"{name} is missing: give both length and width, or points")
    apart = values.only_one_of("radius", "radii") & values.only_one_of("clip", "clips")
    bows = _bows(values, 4)
    if missing or not apart or bows is None or len(values.held) < len(values.given - {"bows"}):
        return None
    radii = values["radii"] or (values["radius"],) * 4
    clips = values["clips"] or (values["clip"],) * 4
    if any(radius and clip for radius, clip in zip(radii, clips, strict=True)):
        name = "clips" if values.has("clips") else "clip"
        values.at(name).wrong("a corner is both rounded and clipped: give 0 for one of them")
        return None
    rises = tuple(bows.get(i, 0.0) for i in range(4))
    try:
        return rectangular_outline(
            values["length"],
            values["width"],
            radii=radii,
            clips=clips,
            bows=(rises[0], rises[1], rises[2], rises[3]),
        )
    except LayoutError as error:
        values.place.wrong(str(error))
        return None


def _through(points: tuple[Point, ...], bows: dict[int, float], place: Place) -> Path | None:
    try:
        return outline_through(points, bows)
    except LayoutError as error:
        (place / ("bows" if bows else "points")).wrong(str(error))
        return None


def _is_simple(points: tuple[Point, ...], values: Values) -> bool:
    crossing = first_crossing(points)
    if crossing is None:
        return True
    x, y = (values.place.length(figure) for figure in crossing.at)
    values.at("points").wrong(
        f"the edge from point {crossing.one} meets the edge from point {crossing.other} at "
        f"x {x}, y {y}: give the points in order round the panel"
    )
    return False


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


def read_place(values: Values, ends: float = 0.0) -> Path | None:
    """Return the boundary that `at` with `diameter` or `size`, or `points`, give.

    Parameters
    ----------
    ends : float
        What a length given by `size` is made longer by at both ends, mm.
    """
    place = values.place
    whole = values.only_one_of("points", "size", "diameter")
    whole &= values.not_with("points", ("at", "turn"), "the points say where it is")
    whole &= values.not_with("diameter", ("turn",), "a round thing has no direction")
    if not values.given & {"points", "size", "diameter"}:
        if not values.meant & {"points", "size", "diameter"}:
            place.wrong("it has no size: give at with size or diameter, or points")
        whole = False
    elif not values.given & {"points", "at"}:
        if values.lacks("at"):
            place.wrong("at is missing: give the middle of it as at = [x, y]")
        whole = False
    if not whole or not values.sound("points", "size", "diameter", "at", "turn"):
        return None
    try:
        if values.has("points"):
            return polygon(values["points"], values.at("points"))
        if values.has("diameter"):
            return round_place(values["at"], values["diameter"])
        size = values["size"]
        length, width = size[0], size[-1]
        if length >= width:
            return rectangular_place(values["at"], length + 2 * ends, width, values["turn"])
        return rectangular_place(values["at"], length, width + 2 * ends, values["turn"])
    except LayoutError as error:
        place.wrong(str(error))
        return None


def polygon(points: tuple[Point, ...], place: Place) -> Path | None:
    """Return the boundary through corners, or note where it crosses itself."""
    crossing = first_crossing(points)
    if crossing is not None:
        x, y = (place.length(figure) for figure in crossing.at)
        place.wrong(
            f"the edge from point {crossing.one} meets the edge from point {crossing.other} at "
            f"x {x}, y {y}: give the points in order"
        )
        return None
    try:
        return polygonal_place(points)
    except LayoutError as error:
        place.wrong(str(error))
        return None
