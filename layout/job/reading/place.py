"""Where a cut-out or a defect is: round, rectangular, or by its corners."""

from __future__ import annotations

from ...errors import LayoutError
from ...geometry.path import Path
from ...geometry.point import Point
from ...panel.defect import polygonal_place, rectangular_place, round_place
from ..text.notes import Place
from .crossing import is_simple
from .section import Values


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
    if not is_simple(points, place):
        return None
    try:
        return polygonal_place(points)
    except LayoutError as error:
        place.wrong(str(error))
        return None
