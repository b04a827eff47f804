"""The outline of an old panel, from what the maker can measure: sides, corners, bows."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from ..errors import PanelError
from ..geometry import Arc, Bounds, Line, Path, Placement, Point, Region, Segment, circle
from ..geometry.tolerance import CHORD, SAME_POINT
from ..keys.figures import ABOVE_0, ANY_LENGTH, FROM_0
from ..keys.key import take
from ..keys.plane import Four as FourFigures
from ..keys.plane import Pair, Points
from ..outlines import Oval

Four = tuple[float, float, float, float]
"""One figure for each corner A, B, C, D: anticlockwise from the datum corner."""

NONE: Four = (0.0, 0.0, 0.0, 0.0)


def rectangular_outline(
    length: float,
    width: float,
    *,
    radii: Four = NONE,
    clips: Four = NONE,
    bows: Four = NONE,
) -> Path:
    """Return the outline of a panel with four sides, its datum corner A at the origin.

    Parameters
    ----------
    length, width : float
        Along x and along y, mm.
    radii : four floats
        Radius of a rounded corner A, B, C, D, mm; 0 for a square one.
    clips : four floats
        What a clipped corner has lost along both its edges, mm.
    bows : four floats
        Rise of the edges AB, BC, CD, DA between their corners, mm: positive outwards.

    Raises
    ------
    PanelError
        If a size is not above 0, or corners and bows do not fit on their edges.
    """
    length, width = take(Pair(ABOVE_0), (length, width), "panel.outline", error=PanelError)
    radii = take(FourFigures(FROM_0), radii, "panel.outline", "radii", error=PanelError)
    clips = take(FourFigures(FROM_0), clips, "panel.outline", "clips", error=PanelError)
    bows = take(FourFigures(ANY_LENGTH), bows, "panel.outline", "bows", error=PanelError)
    taken = [r + c for r, c in zip(radii, clips, strict=True)]
    if min(*radii, *clips) < 0 or any(r and c for r, c in zip(radii, clips, strict=True)):
        raise PanelError("a corner is square, or rounded, or clipped by a length above 0")
    corners = Bounds(0, 0, length, width).corners
    segments: list[Segment] = []
    for i, corner in enumerate(corners):
        after = (i + 1) % 4
        along = (corners[after] - corner).unit()
        start, end = corner + along * taken[i], corners[after] + along * -taken[after]
        room = (end - start).dot(along)
        if room < -SAME_POINT:
            raise PanelError(
                f"corners {'ABCD'[i]} and {'ABCD'[after]} take {taken[i] + taken[after]:g} mm of "
                f"an edge of {corner.distance_to(corners[after]):g} mm: make them smaller"
            )
        if room > SAME_POINT:
            segments.append(_edge(start, end, bows[i], f"{'ABCD'[i]}{'ABCD'[after]}"))
        segments.extend(_corner(corners[after], along, radii[after], clips[after]))
    return _simple(Path(tuple(segments)))


def round_outline(diameter: float) -> Path:
    """Return the outline of a round panel, its box at the origin.

    Raises
    ------
    PanelError
        If the diameter, mm, is not above 0.
    """
    radius = take(ABOVE_0, diameter, "diameter", error=PanelError) / 2
    return circle(Point(radius, radius), radius)


def oval_outline(along: float, up: float) -> Path:
    """Return the outline of an oval panel by its axes along x and along y, its box at the origin.

    Raises
    ------
    PanelError
        If an axis, mm, is not above 0.
    """
    x, y = take(Pair(ABOVE_0), (along, up), "axes", error=PanelError)
    if x == y:
        return round_outline(x)
    turn = 0.0 if x > y else math.pi / 2
    return Oval(max(x, y), min(x, y)).path().placed(Placement(Point(x / 2, y / 2), turn))


def _corner(corner: Point, along: Point, radius: float, clip: float) -> list[Segment]:
    """Return what joins the edge that arrives `along` at a corner with the one that leaves it."""
    if radius:
        centre = corner + along * -radius + along.left * radius
        return [Arc(centre, radius, (-along.left).angle, math.pi / 2)]
    if clip:
        return [Line(corner + along * -clip, corner + along.left * clip)]
    return []


def outline_through(points: Sequence[Point], bows: Mapping[int, float] | None = None) -> Path:
    """Return the outline through corner points, whichever way they run.

    Parameters
    ----------
    points : sequence of Point
        At least three, in order round the panel.
    bows : mapping of int to float, optional
        Rise of the edge that starts at the point of this index (from 0), mm: positive outwards.

    Raises
    ------
    PanelError
        If there are too few points, two neighbours are one, or the outline crosses itself.
    """
    corners = list(take(Points(), list(points), "panel.outline", "points", error=PanelError))
    if len(corners) > 1 and corners[0].distance_to(corners[-1]) <= SAME_POINT:
        corners.pop()
    if len(corners) < 3:
        raise PanelError(f"an outline needs at least 3 different points, not {len(corners)}")
    rises = dict(bows or {})
    count = len(corners)
    for i, corner in enumerate(corners):
        if corner.distance_to(corners[(i + 1) % count]) <= SAME_POINT:
            raise PanelError(
                f"points {i + 1} and {(i + 1) % count + 1} are the same: leave one out"
            )
    doubled = sum(a.cross(b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    outwards = 1.0 if doubled > 0 else -1.0
    edges = [
        _edge(corner, corners[(i + 1) % count], outwards * rises.get(i, 0.0), f"from point {i + 1}")
        for i, corner in enumerate(corners)
    ]
    path = Path(tuple(edges))
    return _simple(path if doubled > 0 else path.reversed())


def _edge(start: Point, end: Point, rise: float, name: str) -> Line | Arc:
    if abs(rise) <= CHORD:  # a flatter arc has a radius too large for its ends to meet the others
        return Line(start, end)
    chord = start.distance_to(end)
    if abs(rise) > chord / 2:
        raise PanelError(
            f"edge {name} rises {abs(rise):g} mm over {chord:g} mm: "
            "a bow rises half its chord at most"
        )
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
