"""Convex outlines of one form: the turn outside, place and size inside.

The tops of a box are {c + s R(φ) x : x in the form}; u = s cos φ and v = s sin φ are the unknowns,
in the frame of the box. A line on whose inner side a top lies is kept by every corner w:

    ν·c + u (ν·w) + v (ν·w⊥) <= ν·point,    w⊥ = (−w₂, w₁),

which is no approximation at all. A point P outside, which lies beyond the side with normal y (of
reach 1) in the whole box, keeps y·R(−φ)(P − c) >= s; where it may also lie beyond a neighbour, the
left side is still at least κ s, κ being the least of y·z over the gauge of z, for all z towards
which P may be seen: that is at an end of their span. Divided by cos φ, and with D the way to P from
the middle of the patch,

    y·(D − c) + y⊥·D tan φ + |y⊥·c| tan δ >= κ u,        y⊥ here (−y₂, y₁) with y⊥·D = y₁D₂ − y₂D₁.

A point P to be held keeps y·R(−φ)(P − c) <= s for the normals y of all sides, and s / cos φ is at
most u / cos² δ. The tangent is v / u, and with u₀ the most that u can be it is off v / u₀ by no
more than tan δ (u₀ − u) / u₀: a small share of a small angle.
"""

from __future__ import annotations

import math

import numpy as np

from ...errors import LayoutError
from ...geometry import Line, Region
from ...geometry.polygon import convex_hull
from ...outlines import Outline, RegularPolygon
from ..goal import Figure
from ..wood.edges import Array, repeats, turned
from .boxes import Pose
from .gauge import SAME, PolygonBody
from .kind import Axes, Growth, Kind
from .lift import BodyLift, Figures, Rows
from .sight import directions, wandering

_CURVES = 1e-4
"""Farthest that the body stands off the curves of an outline, as a share of area over way round
(half a radius or more): far below the gap that a search leaves."""
_NOTCH = 1e-5
"""Depth, as a share of the radius, of what is no dent but rounding."""
_BESIDE = np.array([[-1], [0], [1]])
"""Corners that are looked at, about the one that reaches farthest to a line."""
_MOST_SIDES = 24
"""Sides that a point is held within: those of a curve are hundreds, and neighbours say the same."""


class ConvexLift(BodyLift):
    """Tops of one form by u and v."""

    kind: ConvexKind
    body: PolygonBody

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return what keeps tops within the turns, and the bounds of u and v."""
        lean = math.tan(self.box.half_turn)
        rows = np.array([[0.0, 0.0, -lean, 1.0], [0.0, 0.0, -lean, -1.0]])
        swing = cap * math.sin(self.box.half_turn)
        return Rows(rows, np.zeros(2)), np.array([0.0, -swing]), np.array([cap, swing])

    def line_rows(self, normal: Array, points: Array) -> Rows:
        """Return rows that keep the corners about the farthest one within each line."""
        corner = (self.body.corner_towards(normal) + _BESIDE).ravel() % len(self.body.corners)
        place = self.kind.held * self.body.corners[corner]
        normal, points = (np.tile(rows, (len(_BESIDE), 1)) for rows in (normal, points))
        rows = np.column_stack([normal, (normal * place).sum(axis=1), _cross(place, normal)])
        return Rows(rows, (normal * points).sum(axis=1))

    def point_rows(self, places: Array, cap: float) -> Rows:
        """Return rows that keep points beyond the sides that they are seen through."""
        y, half_turn = self.body.normals(places), self.box.half_turn
        first, last, known = directions(self.patch, places)
        kappa = np.minimum(self._share(y, first - half_turn), self._share(y, last + half_turn))
        use = known & (kappa > 0) & (last - first + 2 * half_turn < math.pi / 2)
        y, points, kappa = y[use], places[use], kappa[use]
        cross, off, loose = self._turning(y, points)
        rows = np.column_stack([y, kappa * self.kind.held + off / cap, -cross / cap])
        return Rows(rows, (y * points).sum(axis=1) + loose)

    def held(self, seen: Array) -> Rows:
        """Return rows that keep points within the sides.

        Within all of them, or of very many those all round and the one that each is seen through.
        """
        body, count = self.body, len(self.body.sides)
        few = min(count, _MOST_SIDES)
        about = np.arange(few) * (count // few)
        y = body.slopes[(body.side_towards(seen)[:, None] + about).ravel() % count]
        points, cap = np.repeat(seen, few, axis=0), max(self.box.most, 1e-9)
        cross, off, loose = self._turning(y, points)
        grown = 1 / math.cos(self.box.half_turn) ** 2
        rows = np.column_stack([-y, off / cap - grown, cross / cap])
        return Rows(rows, loose - (y * points).sum(axis=1))

    def _turning(self, y: Array, points: Array) -> tuple[Array, Array, Array]:
        """Return y⊥·D, that at the greatest turn, and with it what the place adds to it there."""
        cross, lean = _cross(y, points), math.tan(self.box.half_turn)
        off, aside = np.abs(cross) * lean, np.stack([-y[:, 1], y[:, 0]], axis=1)
        return cross, off, off + wandering(aside, self.patch.sides) * lean

    def _share(self, y: Array, angle: Array) -> Array:
        """Return how much of the gauge towards each direction a normal of reach 1 tells."""
        z = np.stack([np.cos(angle), np.sin(angle)], axis=1)
        share: Array = (y * z).sum(axis=1) / self.body.gauge(z)
        return share

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area: s cos δ <= u <= s."""
        under, _, one = np.eye(3)
        over, sizes = under / math.cos(self.box.half_turn), self.kind.axes(0.0)[1::2]
        root = (over + lipping * one) * math.sqrt(self.kind.unit_area)
        return Figures(np.outer(sizes, over), np.outer(sizes, under), root)

    def pose(self, step: Array) -> tuple[float, float]:
        """Return how far a solution of the half-planes leans off the box's turn, and its shape."""
        ahead, aside = float(step[2]), float(step[3])
        return math.atan2(aside, ahead) if ahead > 0 else 0.0, 0.0


def _cross(ways: Array, others: Array) -> Array:
    cross: Array = ways[:, 0] * others[:, 1] - ways[:, 1] * others[:, 0]
    return cross


class ConvexKind(Kind):
    """Tops of one form; the radius is the distance from their middle to their nearest side.

    Their middle is that of their area. The body holds the outline, which holds the body scaled by
    `held`: 1 where the sides are straight.
    """

    name = "convex form"
    takes_disks = False
    pace = 1.5
    lifted = ConvexLift
    body: PolygonBody

    def __init__(self, outline: Outline, farthest: float = math.inf) -> None:
        """Take it, convex and of any size; the body stands off its curves by no more, mm."""
        straight = all(isinstance(segment, Line) for segment in outline.path().segments)
        tolerance = min(_CURVES * outline.area / outline.perimeter, farthest)
        points = outline.outer(tolerance)
        hull = convex_hull(points)
        centre = np.array([*Region.from_rings(hull).centroid])
        self.body = body = PolygonBody(hull - centre, outline.width)
        size = body.scale
        depth = (body.heights * size - (points - centre) @ body.sides.T).min(axis=1).max()
        if depth > _NOTCH * size:
            raise LayoutError(
                f"the {outline.name}, {outline.length:g} by {outline.width:g} mm, has a dent "
                f"{depth:.3g} mm deep: only a convex one can be scaled to the largest that fits; "
                "ask for it at its own size"
            )
        times = repeats(body.corners, SAME)
        loose = depth + (0.0 if straight else tolerance) + (size * SAME if times > 1 else 0.0)
        self.held = 1 - loose / size
        self.periods = (math.tau / times, math.tau / times)
        self.unit_area = outline.area / size**2
        self._axes = Axes(
            0.0, outline.length / 2 / size, 0.0, min(outline.width, outline.length) / 2 / size
        )
        self._outline, self._origin = outline, -centre / size

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping, mitred at the corners, adds to half the length and width, mm."""
        if lipping > 0 and not isinstance(self._outline, RegularPolygon):
            raise LayoutError(
                f"a lipping of {lipping:g} mm cannot be bent or mitred round an "
                f"{self._outline.name}: leave it out"
            )
        return self.sizes(0.0, lipping)

    def origin(self, pose: Pose) -> tuple[float, float]:
        """Return where the origin of the outline's own frame lies, in the frame of the search."""
        x, y = turned(self.radius_of(pose) * self._origin[None], -pose.turn)[0]
        return pose.x + float(x), pose.y + float(y)

    def drawn_in(self, pose: Pose, by: float) -> tuple[float, float]:
        """Return half sizes of a top drawn in about its middle: its sides move by `by` or more."""
        return self.sizes(0.0, self.radius_of(pose) - by)

    def axes(self, p: float) -> Axes:
        """Return how the half sizes grow: as those of the form."""
        return self._axes

    def box(self, p: float, radius: float) -> tuple[float, float]:
        """Return half the sizes of a box about its middle that a top does not leave, mm."""
        return self.body.far * radius, self.body.far * radius

    def shape_of(self, pose: Pose) -> float:
        """Return the only shape number there is."""
        return 0.0

    def radius_of(self, pose: Pose) -> float:
        """Return the radius of a top, which may be wider than long."""
        return pose.half_length / self._axes.lengthens

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return self.unit_area * half_length * half_width / (self._axes[1] * self._axes[3])

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return the place along the long axis, and radius, of the disk about the middle, mm."""
        return np.zeros(1), np.full(1, self.held * radius)

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all so far turned."""
        return Growth(0.0, self.body.swelling(half_turn) / self.held, 0.0)
