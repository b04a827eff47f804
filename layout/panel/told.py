"""Where a cut-out or a defect is, and what a defect is, as the maker tells of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..errors import LayoutError, PanelError
from ..geometry import ORIGIN, Bounds, Path, Placement, Point, array_of, circle
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD
from ..keys.figures import ABOVE_0, FROM_0, degrees
from ..keys.key import Values, hold, key, take
from ..keys.kinds import Choice, Kind, Text, names
from ..keys.place import Place
from ..keys.plane import At, Boundary, Pair, Ring, Table, polygon
from .defect_kinds import (
    ALIASES,
    DEFECT_KINDS,
    FACE,
    MEND,
    NOT_KINDS,
    SPOILS,
    Face,
    Mend,
    Spoils,
)  # fmt: skip


def round_place(at: Point, diameter: float) -> Path:
    """Return the boundary of a round place; raise a `PanelError` unless its diameter is above 0."""
    return circle(at, take(ABOVE_0, diameter, "diameter", error=PanelError) / 2)


def rectangular_place(at: Point, length: float, width: float, turn: float = 0.0) -> Path:
    """Return the boundary of a rectangle about `at`, its length at `turn`, radians from x."""
    length, width = take(Pair(ABOVE_0), (length, width), "size", error=PanelError)
    box = Bounds.about(ORIGIN, length / 2, width / 2)
    return Path.round_box(box).placed(Placement(at, turn))


def polygonal_place(points: tuple[Point, ...]) -> Path:
    """Return the boundary through corners, whichever way they run; it may not cross itself."""
    path: Path = take(Boundary(""), points, "points", error=PanelError)
    return path


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place on a panel; a `PanelError` is raised if it has no place or size, or more than one."""

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
        None, ABOVE_0, "How deep it goes, where it does not go through", "12", usual="not known"
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


def path_of(values: Values, ends: float = 0.0, grain: float = 0.0) -> Path | None:
    """Return the boundary that the keys of a spot give, or note what is wrong with them.

    It is made longer by `ends` at both ends, mm: along the longer side of an oblong `size`, else
    along the grain, radians from x, for wood splits along it.
    """
    place, sizes = values.place, {"points", "size", "diameter"}
    whole = values.only_one_of("points", "size", "diameter")
    whole &= values.not_with("points", ("at", "turn"), "the points say where it is")
    whole &= values.not_with("diameter", ("turn",), "a round thing has no direction")
    if not values.given & sizes:
        if not values.meant & sizes:
            place.wrong("it has no size: give at with size or diameter, or points")
        return None
    if not values.given & {"points", "at"}:
        if values.lacks("at"):
            place.wrong("at is missing: give the middle of it as at = [x, y]")
        return None
    if not whole or not values.sound(*sizes, "at", "turn"):
        return None
    try:
        if values.has("points"):
            path = polygon(values["points"], values.at("points"))
        elif values.has("diameter"):
            path = round_place(values["at"], values["diameter"])
        else:
            length, width = values["size"][0], values["size"][-1]
            longer, wider = (2 * ends * (a > b) for a, b in ((length, width), (width, length)))
            turn = math.radians(values["turn"])
            path = rectangular_place(values["at"], length + longer, width + wider, turn)
            ends = 0.0 if length != width else ends
    except LayoutError as error:
        place.wrong(str(error))
        return None
    if path is None or ends <= 0:
        return path
    # All that it sweeps when it is moved so far both ways along the grain.
    way, ring = array_of([Point.polar(ends, grain)]), path.points(CHORD, "outside")
    return Path.through_ring(convex_hull(np.vstack((ring - way, ring + way))))


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
class Places(Table):
    """Any number of places: tables of a job file; of a program what `one` makes of each."""

    one: Kind

    def _parse(self, value: object, at: Place) -> object:
        if not at.held:
            return value
        listed = value if isinstance(value, list) else [value]
        are_too_many(listed, at)
        return tuple(self.one.read(item, at / i) for i, item in enumerate(listed))


@dataclass(frozen=True, slots=True)
class SpotLine(Boundary):
    """The closed line of a spot, or another one."""

    def _parse(self, value: object, at: Place) -> object:
        return value.path() if isinstance(value, Spot) else Boundary._parse(self, value, at)
