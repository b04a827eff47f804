"""[panel.outline]: from sides or corners to one closed line."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from ..geometry import ORIGIN, Bounds, Path, Point
from ..geometry.tolerance import SAME_POINT
from ..keys.figures import ANY_LENGTH
from ..keys.key import Values
from ..keys.place import UNREADABLE, Place, shown
from ..keys.plane import Four
from ..panel.outline import outline_of
from .sections import BOW, OUTLINE, read_section


def read_outline(raw: object, place: Place) -> tuple[Path | None, Path | None]:
    """Return the outline of the panel, and again.

    Where it cannot be true, the second is a box that holds it, so that what lies off the panel can
    be told all the same.
    """
    values = read_section(raw, OUTLINE, place)
    if not isinstance(raw, dict):
        return None, None
    path = outline_of(values, partial(_bows, values))
    length, width, points = values["length"], values["width"], values["points"] or ()
    if not points and length is not None and width is not None:
        points = (ORIGIN, Point(length, width))
    return path, path or _box(points)


def _box(points: Sequence[Point]) -> Path | None:
    """Return a box that holds the points with room for any bow; None where there are none."""
    if not points:
        return None
    bounds = Bounds.around(points)
    return Path.round_box(bounds.grown(max(bounds.width, bounds.height) / 2 + SAME_POINT))


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
