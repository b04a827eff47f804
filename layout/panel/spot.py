"""Where a cut-out or a defect is: round, rectangular, or by its corners; and lists of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..errors import LayoutError, PanelError
from ..geometry import Path, Point, array_of
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD
from ..keys.figures import ABOVE_0, degrees
from ..keys.key import Values, hold, key
from ..keys.place import Place, shown
from ..keys.plane import At, Boundary, Pair, Ring, Table, is_simple
from .defect import Defect, polygonal_place, rectangular_place, round_place


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place on a panel, as the maker tells of it.

    Raises
    ------
    PanelError
        If it has no place or no size, or more than one.
    """

    at: Point | None = key(None, At(), "Its middle, with `diameter` or `size`", "[990, 300]")
    diameter: float | None = key(None, ABOVE_0, "Of a round one", "35", mistaken=("radius",))
    size: tuple[float, ...] | None = key(
        None,
        Pair(ABOVE_0, one_will_do=True),
        "Of a rectangular one; a single length is the side of a square",
        "[250, 40]",
        mistaken=("length", "width"),
    )
    turn_deg: float = key(
        0.0, degrees(-360, 360), "Of the length of a rectangular one, from x", "30", name="turn"
    )
    points: tuple[Point, ...] | None = key(
        None, Ring(), "Its corners, in place of all that", "[[0, 0], [80, 0], [0, 60]]"
    )

    def __post_init__(self) -> None:
        hold(self, "spot", error=PanelError)
        self.path()

    def path(self) -> Path:
        """Return its boundary."""
        path = path_of(Values.of(self, "spot", error=PanelError))
        assert path is not None  # or something was raised
        return path


def path_of(values: Values, ends: float = 0.0, grain: float = 0.0) -> Path | None:
    """Return the boundary that `at` with `diameter` or `size`, or `points`, give.

    Parameters
    ----------
    ends : float
        What it is made longer by at both ends, mm: along the longer side of an oblong `size`, and
        along the grain where no length is given, for wood splits along it.
    grain : float
        Direction of the grain, radians from x.
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
        return _shape(values, ends, grain)
    except LayoutError as error:
        place.wrong(str(error))
        return None


def _shape(values: Values, ends: float, grain: float) -> Path | None:
    if values.has("points"):
        path = polygon(values["points"], values.at("points"))
        return None if path is None else _run_on(path, ends, grain)
    if values.has("diameter"):
        return _run_on(round_place(values["at"], values["diameter"]), ends, grain)
    length, width = values["size"][0], values["size"][-1]
    turn = math.radians(values["turn"])
    if length == width:
        return _run_on(rectangular_place(values["at"], length, width, turn), ends, grain)
    if length > width:
        return rectangular_place(values["at"], length + 2 * ends, width, turn)
    return rectangular_place(values["at"], length, width + 2 * ends, turn)


def _run_on(path: Path, by: float, grain: float) -> Path:
    """Return a place and all that it sweeps when it is moved so far both ways along the grain."""
    if by <= 0:
        return path
    way, ring = array_of([Point.polar(by, grain)]), path.points(CHORD, "outside")
    return Path.through_ring(convex_hull(np.vstack((ring - way, ring + way))))


def polygon(points: tuple[Point, ...], place: Place) -> Path | None:
    """Return the boundary through corners, or note where it crosses itself."""
    if not is_simple(points, place):
        return None
    try:
        return polygonal_place(points)
    except LayoutError as error:
        place.wrong(str(error))
        return None


MOST_PLACES = 300
"""Defects or cut-outs that are worked with: an old bench top has some dozen, and every search looks
at each of them thousands of times."""


def are_too_many(raw: Sequence[object], place: Place) -> bool:
    """Return whether a list holds more places than are worked with; note it."""
    if len(raw) > MOST_PLACES:
        place.wrong(
            f"{len(raw):,} places are more than the {MOST_PLACES} that are worked with: give those "
            "that lie close together as one"
        )
    return len(raw) > MOST_PLACES


@dataclass(frozen=True, slots=True)
class Boundaries(Table):
    """Any number of closed lines: tables of a file; of a program paths, rings, polygons, spots."""

    def parse(self, value: object, at: Place) -> object:
        """Return the closed paths, mm; of a file, what stands there."""
        if not at.held:
            return value
        if not isinstance(value, list):
            value = [value]
        are_too_many(value, at)
        return tuple(
            item.path() if isinstance(item, Spot) else Boundary("").read(item, at / i)
            for i, item in enumerate(value)
        )


@dataclass(frozen=True, slots=True)
class Defects(Table):
    """Any number of defects: tables of a job file, or values of a program."""

    def parse(self, value: object, at: Place) -> object:
        """Return the defects; of a file, what stands there."""
        if not at.held:
            return value
        listed = value if isinstance(value, list) else [value]
        are_too_many(listed, at)
        for i, item in enumerate(listed):
            if not isinstance(item, Defect):
                (at / i).wrong(f"{shown(item)} is no defect: make it by its kind and place")
        return tuple(listed)
