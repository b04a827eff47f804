"""Kinds of places and of lists: points, rings, sizes, figures for each corner, rows of names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from typing import Any

from ..errors import GeometryError
from ..geometry import Path, Point, Region, array_of, first_of_best
from ..geometry.distance import nearest
from ..geometry.tolerance import SAME_POINT
from ..units import Units
from .figures import ANY_LENGTH, Length, Number
from .kinds import Choice, Held, Kind, Spelt, each
from .place import Place


@dataclass(frozen=True, slots=True)
class At(Kind):
    """A point, held in mm like all places and lengths here."""

    def _parse(self, value: object, at: Place) -> Point | None:
        held = each(ANY_LENGTH, value, at, "a point: write [x, y]", 2)
        return None if held is None else Point(*held)

    def spelt(self, held: Iterable[float], units: Units) -> Spelt:
        """Return a list of two."""
        return [ANY_LENGTH.spelt(figure, units) for figure in held]


MOST_POINTS = 5_000
"""Points of one list: on an outline three metres long one a millimetre (our choice)."""


@dataclass(frozen=True, slots=True)
class Points(Kind):
    """Any number of points."""

    least: int = 1
    """How many there are at least."""

    def _parse(self, value: object, at: Place) -> tuple[Point, ...] | None:
        if isinstance(value, list) and len(value) > MOST_POINTS:
            at.wrong(
                f"{len(value):,} points are more than the {MOST_POINTS:,} that are worked with: "
                "leave out those that lie on a straight line between others"
            )
            return None
        points: tuple[Point, ...] | None = each(
            At(), value, at, "a list of points: write [[x, y], [x, y], …]"
        )
        if points is not None and len(points) < self.least:
            at.wrong(f"the list holds {len(points)} of at least {self.least} points: give them all")
            return None
        return points

    def spelt(self, held: Iterable[Iterable[float]], units: Units) -> Spelt:
        """Return a list of points."""
        return [At().spelt(point, units) for point in held]


@dataclass(frozen=True, slots=True)
class Pairs(Points):
    """Any number of pairs of lengths."""

    def _parse(self, value: object, at: Place) -> Any:  # noqa: ANN401 - pairs in place of points
        points = Points._parse(self, value, at) if value or not at.held else ()
        return None if points is None else tuple((point.x, point.y) for point in points)


@dataclass(frozen=True, slots=True)
class Ring(Points):
    """Corners in order round something, all different; the first may be repeated as the last."""

    def _parse(self, value: object, at: Place) -> tuple[Point, ...] | None:
        points = Points._parse(self, value, at)
        if points is None:
            return None
        if len(points) > 1 and points[0].distance_to(points[-1]) <= SAME_POINT:
            points = points[:-1]
        if len(points) < 3:
            at.wrong(f"the ring has {len(points)} of at least 3 different points: give them all")
            return None
        near = [a.distance_to(b) <= SAME_POINT for a, b in pairwise(points)]
        same = [i for i, is_near in enumerate(near, start=1) if is_near]
        for i in same:
            (at / i).wrong(f"points {i} and {i + 1} are the same: leave one out")
        return None if same else tuple(points)


@dataclass(frozen=True, slots=True)
class Pair(Kind):
    """Two lengths, or one where a side, a diameter or a square is enough."""

    kind: Length
    """Of each."""
    one_will_do: bool = False
    form: str = "[length, width]"
    """How the two are written."""

    def _parse(self, value: object, at: Place) -> tuple[float, ...] | None:
        if at.held and isinstance(value, list) and len(value) == 1:
            value = value[0]
        if self.one_will_do and not isinstance(value, list):
            one = self.kind.read(value, at)
            return None if one is None else (one,)
        sides: tuple[float, ...] | None = each(
            self.kind, value, at, f"a size: write {self.form}", 2
        )
        return sides

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return a list, or the one figure that will do."""
        sides = [self.kind.spelt(side, units) for side in held]
        return sides if len(sides) > 1 else sides[0]


@dataclass(frozen=True, slots=True)
class Four(Kind):
    """A length for each of the corners A, B, C, D, or for each edge AB, BC, CD, DA."""

    kind: Length | Number
    order: str = "A, B, C, D"

    def _parse(self, value: object, at: Place) -> tuple[float, ...] | None:
        wanted = f"a list of four lengths, for {self.order}"
        four: tuple[float, ...] | None = each(self.kind, value, at, wanted, 4)
        return four

    def spelt(self, held: Iterable[float], units: Units) -> Spelt:
        """Return a list of four."""
        return [self.kind.spelt(figure, units) for figure in held]


@dataclass(frozen=True, slots=True)
class Choices(Kind):
    """A list of names, each held once."""

    choice: Choice
    """The names."""
    one_will_do: bool = False
    """Whether a single name may stand for a list of it."""
    into: type = tuple
    """What the library holds: a tuple, or a set where the order tells nothing."""

    def _parse(self, value: object, at: Place) -> Any:  # noqa: ANN401 - `into`
        if self.one_will_do and isinstance(value, str | Enum):
            one = self.choice.read(value, at)
            return None if one is None else self.into((one,))
        held = each(self.choice, value, at, 'a list of names: write ["…", "…"]')
        if held == () and not at.held:
            at.wrong("the list is empty: name one at least, or leave the key out")
            return None
        return None if held is None else self.into(dict.fromkeys(held))

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return their names, of a set in the order of the options."""
        rows = self.choice.options.values() if isinstance(held, frozenset) else held
        return [self.choice.spelt(one, units) for one in rows if one in held]


@dataclass(frozen=True, slots=True)
class Table(Kind):
    """A table, or a list of them, whose own reader says what is wrong with it."""

    described: str

    def _parse(self, value: object, at: Place) -> object:
        return value


@dataclass(frozen=True, slots=True)
class Boundary(Table):
    """A closed line: a table of a job file; of a program a path, its corners, or a polygon."""

    def _parse(self, value: object, at: Place) -> object:
        if not at.held:
            return value
        if isinstance(value, Path):
            if not value.is_closed:
                at.wrong("the path ends elsewhere than it starts: close it")
            return value if value.area > 0 else value.reversed()
        return polygon(Ring().read(value, at), at)


def polygon(points: Sequence[Point], place: Place) -> Path | None:
    """Return the closed line through corners, anticlockwise, or note where it crosses itself."""
    if not is_simple(points, place):
        return None
    path = Path.through(points, closed=True)
    return path if path.area > 0 else path.reversed()


def holes_of(value: object) -> tuple[object, ...]:
    """Return the holes of a polygon, as other libraries tell of one; nothing of anything else."""
    shape = getattr(value, "__geo_interface__", None)
    if not isinstance(shape, dict) or shape.get("type") != "Polygon":
        return ()
    return tuple(shape["coordinates"][1:])


def is_simple(points: Sequence[Point], place: Place) -> bool:
    """Return whether a ring does not meet itself; note where round it does so first."""
    one, met = next(_meetings(points), (0, {}))
    if not met:
        return True
    other = first_of_best(met, lambda k: -points[one].distance_to(met[k]), tolerance=SAME_POINT)
    x, y = (place.length(figure) for figure in met[other])
    place.wrong(
        f"the edge from point {one + 1} meets the edge from point {other + 1} at x {x}, y {y}: "
        "give the points in order, all the way round"
    )
    return False


def _meetings(points: Sequence[Point]) -> Iterator[tuple[int, dict[int, Point]]]:
    """Yield each edge, from 0, that meets others where it should not, with those and the places.

    Most rings are simple, and that is quickly seen. Otherwise every edge is held against all that
    follow it at once. Neighbours share a point: they clash only where one runs back on the other.
    """
    ring = array_of([*points, points[0]])
    with suppress(GeometryError):
        Region.from_rings(ring)
        return
    count = len(points)
    edges = [Region.line(ring[i : i + 2]) for i in range(count)]
    for i, edge in enumerate(edges):
        after = (i + 1) % count
        first, end = i + 2, count - (i == 0)  # the last edge is a neighbour of the first
        if edge.meet(edges[after]).perimeter > SAME_POINT:
            yield i, {after: points[after]}
        elif first < end and edge.touches_or_crosses(Region.line(ring[first : end + 1])):
            met = [k for k in range(first, end) if edge.touches_or_crosses(edges[k])]
            if met:  # two that touch as a line may not touch one by one
                yield i, {k: nearest(edge, edges[k])[0] for k in met}
