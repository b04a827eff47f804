"""The outline of an old panel, from what the maker can measure: sides, corners, bows."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from ..errors import PanelError
from ..geometry import Arc, Bounds, Line, Path, Placement, Point, Region, circle
from ..geometry.tolerance import CHORD, SAME_POINT
from ..keys.figures import ABOVE_0, ANY_LENGTH, FROM_0
from ..keys.key import Values, hold, key, take
from ..keys.place import Place
from ..keys.plane import Four as FourFigures
from ..keys.plane import Pair, Ring, Table, is_simple
from ..outlines import Oval
from ..outlines.cornered import round_cornered

Four = tuple[float, float, float, float]
"""One figure for each corner A, B, C, D: anticlockwise from the datum corner."""

NONE: Four = (0.0, 0.0, 0.0, 0.0)

Bows = Mapping[int, float]
"""How far middles of edges stand out, mm, each by the corner at which it starts, from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a maker measures of an outline."""

    length: float | None = key(None, ABOVE_0, "Along x", "1981")
    width: float | None = key(None, ABOVE_0, "Along y", "838")
    diameter: float | None = key(None, ABOVE_0, "Of a round panel, in place of both", "900")
    axes: tuple[float, ...] | None = key(
        None,
        Pair(ABOVE_0),
        "Of an oval panel, in place of both: along x and along y",
        "[1400, 800]",
    )
    radius: float = key(0.0, FROM_0, "Radius of all four corners", "25", usual="0")
    radii: Four | None = key(
        None,
        FourFigures(FROM_0),
        "Radius of each corner; 0 for a square one",
        "[0, 0, 300, 300]",
        usual="all 0",
    )
    clip: float = key(
        0.0, FROM_0, "What all four corners have lost along both edges", "40", usual="0"
    )
    clips: Four | None = key(
        None,
        FourFigures(FROM_0),
        "The same for each corner; 0 for a whole one",
        "[0, 60, 0, 0]",
        usual="all 0",
    )
    points: tuple[Point, ...] | None = key(
        None,
        Ring(),
        "Its corners in order, whichever way round",
        "[[0, 0], [1600, 0], [1580, 640], [15, 610]]",
    )
    bows: object = key(
        None,
        Table("list of four lengths: AB, BC, CD, DA; or of tables `{ from = 2, rise = -8 }`"),
        "How far edges bow outwards (negative: inwards) from the straight line between their "
        "corners; `from` is the number of the point, from 1, at which the edge starts",
        "[{ from = 2, rise = -8 }]",
        usual="none",
    )

    def __post_init__(self) -> None:
        hold(self, "panel", "outline", error=PanelError)


def rectangular_outline(
    length: float, width: float, *, radii: Four = NONE, clips: Four = NONE, bows: Four = NONE
) -> Path:
    """Return the outline of a panel with four sides, its datum corner A at the origin, in mm.

    Its length lies along x. A corner A, B, C, D has a radius, or has lost a clip along both edges;
    `bows` is how far the middles of the edges AB, BC, CD, DA stand out. A `PanelError` is raised if
    a size is not above 0, or corners and bows do not fit on their edges.
    """
    rises = take(FourFigures(ANY_LENGTH), bows, "panel", "outline", "bows", error=PanelError)
    told = Measured(length=length, width=width, radii=radii, clips=clips)
    return _told(told, dict(enumerate(rises)))


def round_outline(diameter: float) -> Path:
    """Return the outline of a round panel of a diameter above 0, mm, its box at the origin."""
    return _told(Measured(diameter=diameter))


def oval_outline(along: float, up: float) -> Path:
    """Return the outline of an oval panel by its axes above 0, mm, its box at the origin."""
    return _told(Measured(axes=(along, up)))


def outline_through(points: Sequence[Point], bows: Bows | None = None) -> Path:
    """Return the outline through corner points in order, whichever way they run.

    `bows` has how far the middle of the edge that starts at a point, counted from 0, stands out,
    mm. A `PanelError` is raised if points are too few or two neighbours one, or it crosses itself.
    """
    return _told(Measured(points=list(points)), bows or {})  # type: ignore[arg-type]


def _told(told: Measured, bows: Bows | None = None) -> Path:
    path = outline_of(Values.of(told, "panel", "outline", error=PanelError), lambda count: bows)
    assert path is not None  # or something was raised
    return path


_BY_SIDES = ("length", "width", "radius", "radii", "clip", "clips")


def outline_of(values: Values, bows_of: Callable[[int], Bows | None]) -> Path | None:
    """Return the outline that the keys of `Measured` give, or note what is wrong with them.

    Its bows are asked for by the count of its corners; they are None where they cannot be read.
    """
    name = next((name for name in ("diameter", "axes") if values.has(name)), None)
    if name is not None:
        others = (other for other in values.keys if other != name)
        if not values.not_with(name, others, f"{name} says it all") or values[name] is None:
            return None
        return _oval(*(values[name],) * 2 if name == "diameter" else values[name])
    if not values.has("points"):
        return _by_sides(values, bows_of)
    points, apart = values["points"], values.not_with("points", _BY_SIDES, "the points say it all")
    bows = bows_of(len(points)) if points else None
    if not apart or bows is None or not is_simple(points, values.at("points")):
        return None
    path = _bowed(values.place, points, bows)
    # Straight it is simple, so a bow crosses another edge where it is not.
    return path and _simple(path, values.at("bows"), "with its bows ")


def _oval(x: float, y: float) -> Path:
    if x == y:
        return circle(Point(x / 2, x / 2), x / 2)
    turn = 0.0 if x > y else math.pi / 2
    return Oval(max(x, y), min(x, y)).path().placed(Placement(Point(x / 2, y / 2), turn))


def _by_sides(values: Values, bows_of: Callable[[int], Bows | None]) -> Path | None:
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
    bows = bows_of(4)
    if missing or not apart or bows is None or not values.sound(*values.given):
        return None
    radii = values["radii"] or (values["radius"],) * 4
    clips = values["clips"] or (values["clip"],) * 4
    sides = (values["length"], values["width"])
    corners = [name for name in ("radii", "radius", "clips", "clip") if values.has(name)]
    if any(radius and clip for radius, clip in zip(radii, clips, strict=True)):
        values.at(corners[-1]).wrong("a corner is both rounded and clipped: give 0 for one of them")
        return None
    taken = [radius + clip for radius, clip in zip(radii, clips, strict=True)]
    if not _have_room(values.place, sides * 2, taken, bows, corners):
        return None

    def side(i: int, start: Point, end: Point) -> Line | Arc:
        return _edge(start, end, bows.get(i, 0.0))

    return _simple(round_cornered(Bounds(0, 0, *sides), radii, clips, side), values.place)


def _have_room(
    place: Place,
    sides: Sequence[float],
    taken: Sequence[float],
    bows: Bows,
    names: Sequence[str] = (),
) -> bool:
    """Note the first edge that its corners fill, or that bows more than a half circle."""
    for i, side in enumerate(sides):
        after = (i + 1) % len(sides)
        corners = taken[i] + taken[after]
        if corners > side + SAME_POINT:
            (place / names[0]).wrong(
                f"corners {'ABCD'[i]} and {'ABCD'[after]} take {place.length(corners)} of an edge "
                f"of {place.length(side)}: make them smaller"
            )
            return False
        if abs(bows.get(i, 0.0)) > (side - corners) / 2:
            (place / "bows").wrong(
                f"the edge from corner {i + 1} bows {place.length(abs(bows[i]))} over "
                f"{place.length(side - corners)}: a bow rises half of that at most"
            )
            return False
    return True


def _bowed(place: Place, corners: Sequence[Point], bows: Bows) -> Path | None:
    """Return the outline through corners; None where a bow was noted that is too high."""
    ends = (*corners[1:], corners[0])
    sides = [corner.distance_to(end) for corner, end in zip(corners, ends, strict=True)]
    if not _have_room(place, sides, [0.0] * len(sides), bows):
        return None
    doubled = sum(corner.cross(end) for corner, end in zip(corners, ends, strict=True))
    outwards = 1.0 if doubled > 0 else -1.0
    bowed = (outwards * bows.get(i, 0.0) for i in range(len(corners)))
    path = Path(tuple(map(_edge, corners, ends, bowed)))
    return path if doubled > 0 else path.reversed()


def _edge(start: Point, end: Point, rise: float) -> Line | Arc:
    if abs(rise) <= CHORD:  # a flatter arc has a radius too large for its ends to meet the others
        return Line(start, end)
    return Arc.from_chord_and_rise(start, end, rise)


def _simple(path: Path, place: Place, told: str = "") -> Path | None:
    """Return the path if it does not cross itself; note it otherwise."""
    try:
        Region.of(path)
    except ValueError as error:
        place.wrong(f"{told}{error}: give the points in order round the panel")
        return None
    return path
