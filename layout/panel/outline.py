"""The outline of an old panel, from what the maker can measure: sides, corners, bows."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from ..errors import PanelError
from ..geometry import Arc, Bounds, Line, Path, Placement, Point, Region, circle
from ..geometry.tolerance import CHORD, SAME_POINT
from ..keys.figures import ABOVE_0, ANY_LENGTH, FROM_0
from ..keys.key import take
from ..keys.place import Place, Refusal
from ..keys.plane import Four as FourFigures
from ..keys.plane import Pair, Ring
from ..outlines import Oval
from ..outlines.cornered import round_cornered

Four = tuple[float, float, float, float]
"""One figure for each corner A, B, C, D: anticlockwise from the datum corner."""

NONE: Four = (0.0, 0.0, 0.0, 0.0)


def rectangular_outline(
    length: float, width: float, *, radii: Four = NONE, clips: Four = NONE, bows: Four = NONE
) -> Path:
    """Return the outline of a panel with four sides, its datum corner A at the origin, in mm.

    Its length lies along x. A corner A, B, C, D has a radius, or has lost a clip along both edges;
    `bows` is how far the middles of the edges AB, BC, CD, DA stand out. A `PanelError` is raised if
    a size is not above 0, or corners and bows do not fit on their edges.
    """
    place = Place(Refusal(PanelError), ("panel", "outline"))
    sides = Pair(ABOVE_0).read((length, width), place)
    radii = FourFigures(FROM_0).read(radii, place / "radii")
    clips = FourFigures(FROM_0).read(clips, place / "clips")
    bows = FourFigures(ANY_LENGTH).read(bows, place / "bows")
    path = four_sided(place, sides, radii, clips, dict(enumerate(bows)))
    assert path is not None  # or something was raised
    return path


def four_sided(
    place: Place,
    sides: tuple[float, float],
    radii: Four,
    clips: Four,
    bows: Mapping[int, float],
    names: Sequence[str] = ("radii", "clips"),
) -> Path | None:
    """Return the outline of a panel with four sides, or note what is wrong at keys of `names`."""
    taken = [radius + clip for radius, clip in zip(radii, clips, strict=True)]
    if any(radius and clip for radius, clip in zip(radii, clips, strict=True)):
        (place / names[-1]).wrong("a corner is both rounded and clipped: give 0 for one of them")
        return None
    if not _have_room(place, sides * 2, taken, bows, names):
        return None
    box = Bounds(0, 0, *sides)
    return _simple(round_cornered(box, radii, clips, lambda i, a, b: _edge(a, b, bows.get(i, 0.0))))


def _have_room(
    place: Place,
    sides: Sequence[float],
    taken: Sequence[float],
    bows: Mapping[int, float],
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


def round_outline(diameter: float) -> Path:
    """Return the outline of a round panel of a diameter above 0, mm, its box at the origin."""
    radius = take(ABOVE_0, diameter, "diameter", error=PanelError) / 2
    return circle(Point(radius, radius), radius)


def oval_outline(along: float, up: float) -> Path:
    """Return the outline of an oval panel by its axes above 0, mm, its box at the origin."""
    x, y = take(Pair(ABOVE_0), (along, up), "axes", error=PanelError)
    if x == y:
        return round_outline(x)
    turn = 0.0 if x > y else math.pi / 2
    return Oval(max(x, y), min(x, y)).path().placed(Placement(Point(x / 2, y / 2), turn))


def outline_through(points: Sequence[Point], bows: Mapping[int, float] | None = None) -> Path:
    """Return the outline through corner points in order, whichever way they run.

    `bows` has how far the middle of the edge that starts at a point, counted from 0, stands out,
    mm. A `PanelError` is raised if points are too few or two neighbours one, or it crosses itself.
    """
    place = Place(Refusal(PanelError), ("panel", "outline"))
    corners = Ring().read(list(points), place / "points")
    path = bowed(place, corners, bows or {})
    assert path is not None  # or something was raised
    return path


def bowed(place: Place, corners: Sequence[Point], bows: Mapping[int, float]) -> Path | None:
    """Return the outline through corners; None where a bow was noted that is too high."""
    ends = (*corners[1:], corners[0])
    sides = [corner.distance_to(end) for corner, end in zip(corners, ends, strict=True)]
    if not _have_room(place, sides, [0.0] * len(sides), bows):
        return None
    doubled = sum(corner.cross(end) for corner, end in zip(corners, ends, strict=True))
    outwards = 1.0 if doubled > 0 else -1.0
    bowed = (outwards * bows.get(i, 0.0) for i in range(len(corners)))
    path = Path(tuple(map(_edge, corners, ends, bowed)))
    return _simple(path if doubled > 0 else path.reversed())


def _edge(start: Point, end: Point, rise: float) -> Line | Arc:
    if abs(rise) <= CHORD:  # a flatter arc has a radius too large for its ends to meet the others
        return Line(start, end)
    return Arc.from_chord_and_rise(start, end, rise)


def _simple(path: Path) -> Path:
    """Return the path if it does not cross itself."""
    try:
        region = Region.of(path)
    except ValueError as error:
        raise PanelError(f"{error}: give the points in order round the panel") from None
    if region.area <= 0:
        raise PanelError("the outline holds no area: its points lie on one line")
    return path
