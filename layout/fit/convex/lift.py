"""A second, sharper bound for small boxes: every contact taken as a half-plane, all at once.

At the best top its contacts hold each other in balance: what one gives when the top moves, another
takes. So the best top of a box is bounded by a small linear program, in the way from the middle of
a patch of centres, along the turn of the box and across, and numbers of size, shape and turn in
which an edge that a top lies along is a half-plane: its lift. It loses only in proportion to the
square of the box's size. A bound may only ask too little: a least size is held against a figure
above it, a greatest one against a figure below it.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..goal import nearness, wanted
from ..linear_program import Program
from ..wish import Goal, Wish
from ..wood.edges import Array, turned
from .boxes import Box, Patch
from .gauge import nearest_places
from .sight import angle_of, facing, near_angle, nearest_all_round, outward, stays_between

if TYPE_CHECKING:
    from .kind import Kind

_HAIR = 1e-9
"""Radians by which spans of turns are widened, so that rounding cannot leave a corner out."""

Linear = Array
"""A linear figure of the shape unknowns, mm: its slopes, and last its value where all are 0."""


class Edges(NamedTuple):
    """Edges of the wood, and what is known of their lines."""

    starts: Array
    """(n, 2) array: where each begins, mm."""
    lines: Array
    """(n, 2, 2) array: mm, drawn out as far as no wood lies in the way; wood to the left."""
    outermost: NDArray[np.bool_]
    """(n,) array of bool: which lie on the hull, so that their line bounds all of the wood."""


class Rows(NamedTuple):
    """Half-planes ``rows @ x <= limits``."""

    rows: Array
    limits: Array

    @classmethod
    def joined(cls, *parts: Rows) -> Rows:
        """Return all of them; what some say nothing of comes last."""
        limits = np.concatenate([limits for _, limits in parts])
        all_rows, first = np.zeros((len(limits), max(rows.shape[1] for rows, _ in parts))), 0
        for rows, _ in parts:
            all_rows[first : first + len(rows), : rows.shape[1]] = rows
            first += len(rows)
        return cls(all_rows, limits)


class Figures(NamedTuple):
    """Figures that hold the half sizes of the core between them, and one above its area."""

    over: Linear
    under: Linear
    """(2, k) arrays: half the length and half the width lie below these, and above those."""
    root_area: Linear
    """The area of the finished top is at most the square of this."""

    def within(self, limits: Array) -> Rows:
        """Return rows of limits on the half sizes of the core, as `Sizing.half_planes`."""
        asked = limits[..., None]
        sides = np.where(asked[:, :2] > 0, self.under, self.over)
        rows = (asked[:, :2] * sides).sum(axis=1)
        scale = np.abs(rows[:, :-1]).max(axis=1)
        asks = scale > 0  # what is as long as wide is so at every size: that row asks nothing
        rows, most = rows[asks] / scale[asks, None], asked[asks, 2, 0] / scale[asks]
        rows, level = np.column_stack([np.zeros((len(rows), 2)), rows[:, :-1]]), rows[:, -1]
        return Rows(rows, most - level)


class Aim(NamedTuple):
    """What is to be maximised: a linear figure of the shape unknowns, and its worth."""

    figure: Linear
    worth: Callable[[float], float]
    """From the figure to a score; it never falls."""
    needed: Callable[[float], float]
    """From a score to a figure that is worth no more."""

    @classmethod
    def of(
        cls, wish: Wish, figures: Figures, rim: tuple[float, float], likely: tuple[float, float]
    ) -> Aim:
        """Return what is to be maximised for the goal of a wish.

        `rim` is added to half the length and width of a core, mm; those of the box's best are about
        `likely`, mm: the nearer, the sharper.
        """
        over, under = 2 * figures.over, 2 * figures.under
        for finished in (over, under):
            finished[:, -1] += 2 * np.array(rim)
        match wish.goal:
            case Goal.AREA:
                return cls(figures.root_area, lambda root: max(root, 0.0) ** 2, math.sqrt)
            case Goal.LENGTH:
                return cls(over[0], float, float)
            case Goal.WIDTH:
                return cls(over[1], float, float)
        # minus the miss, as far as it lies on the way from the wanted size to the likely
        asked = np.array(wanted(wish))
        way, size = 2 * np.add(likely, rim) - asked, math.hypot(*asked)
        way = way / math.hypot(*way) if way.any() else np.array([-1.0, 0.0])
        nearest = np.where(way[:, None] > 0, under, over)
        nearest[:, -1] -= asked
        return cls(
            -(way @ nearest),
            lambda value: nearness(wish, max(0.0, -value)),
            lambda score: size - size / score,
        )


class HalfPlanes(NamedTuple):
    """What every top of a box obeys: ``rows @ x <= limits`` and ``low <= x <= high``.

    x holds the way from the middle of the patch, along and across, and the shape unknowns.
    """

    rows: Array
    limits: Array
    low: Array
    high: Array

    def best(self, aim: Aim) -> tuple[float, Array, Callable[[float], Array]]:
        """Return a score that nothing within beats, where it is reached, and what tells of centres.

        The last tells where centres lie of what is worth more than a score: least and greatest,
        (2, 2).
        """
        slope, start = aim.figure[:-1], float(aim.figure[-1])
        scale = float(np.abs(slope).max())
        objective = np.zeros(len(self.low))
        objective[2 : 2 + len(slope)] = slope / scale
        program = Program(*self)
        end = program.best(objective)

        def places(enough: float) -> Array:
            least = (aim.needed(enough) - start) / scale
            ways = np.eye(2, len(objective))
            far = program.ranges(objective, least, np.vstack([-ways, ways]))
            return np.array([-far[:2], far[2:]])

        return aim.worth(end.value * scale + start), end.step, places


class Lift(ABC):
    """The tops of one kind in a box whose centres lie in a patch."""

    def __init__(self, kind: Kind, box: Box, patch: Patch) -> None:
        self.kind, self.box, self.patch = kind, box, patch

    @abstractmethod
    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows that keep tops of at most a radius, mm, clear of edges; more are sharper.

        These are seen from the middle of the patch, along the turn.
        """

    @abstractmethod
    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return what turns, shapes and a greatest radius leave of the shape unknowns.

        Rows of all the unknowns, and the least and greatest shape unknowns.
        """

    @abstractmethod
    def held(self, seen: Array) -> Rows:
        """Return rows by which tops hold points, seen from the middle of the patch.

        A convex top holds a point P when in every direction n it reaches as far as P does:
        ``n·(P − c) <= reach(n)``. One direction gives one half-plane, and the direction in which
        the middle top of the box meets P loses least. The reach of a top is no linear figure of its
        unknowns, but over a small box it lies close under one.
        """

    @abstractmethod
    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops."""

    @abstractmethod
    def pose(self, step: Array) -> tuple[float, float]:
        """Return how far a solution of the half-planes leans off the box's turn, and its shape."""

    def planes(self, edges: Edges, cap: float, points: Array, *more: Rows) -> HalfPlanes:
        """Return half-planes that tops obey which are clear of edges and hold points, (n, 2)."""
        turn, middle = self.box.turn, self.patch.middle
        starts, lines, outermost = edges
        local = Edges(turned(starts - middle, turn), turned(lines - middle, turn), outermost)
        rows, low, high = self.span(cap)
        held = [self.held(turned(points - middle, turn))] if len(points) else []
        every = Rows.joined(self.contacts(local, cap), rows, *held, *more)
        place = np.array(self.patch.sides)
        return HalfPlanes(*every, np.append(-place, low), np.append(place, high))


class BodyLift(Lift):
    """Tops that are one body, squeezed and turned, in whichever unknowns."""

    def __init__(self, kind: Kind, box: Box, patch: Patch) -> None:
        super().__init__(kind, box, patch)
        self.body, self.p = kind.body, box.middle
        self.squeeze = kind.squeeze(self.p)

    @abstractmethod
    def line_rows(self, normal: Array, points: Array) -> Rows:
        """Return rows that keep tops within lines through points, with unit normals out of them."""

    @abstractmethod
    def point_rows(self, places: Array, cap: float) -> Rows:
        """Return rows that keep tops clear of points, given as the body sees them, (n, 2)."""

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows for each of the nearest edges all round: of its line, or of a point."""
        places = nearest_places(self.body, local.lines * self.squeeze)
        chosen = nearest_all_round(places, self.body.gauge(places))
        ends, places, normal = local.lines[chosen], places[chosen], facing(local.lines[chosen])
        bound = local.outermost[chosen] & (ends[:, 0] != ends[:, 1]).any(axis=1)
        normal[bound] = outward(ends[bound])
        lines = bound | self._lies_along(ends, normal)
        points = ~lines & (np.hypot(places[:, 0], places[:, 1]) > 1e-6)
        rows = self.line_rows(normal[lines], ends[lines, 0])
        return Rows.joined(rows, self.point_rows(places[points], cap))

    def _lies_along(self, local: Array, normal: Array) -> NDArray[np.bool_]:
        """Return which edges a top of the box can only touch between their ends.

        Seen in the frame of the top the touching point turns as the normal does, and one way with
        the shape.
        """
        delta, lean = self.box.half_turn + _HAIR, angle_of(normal)
        seen = np.stack([turned(normal, delta), turned(normal, -delta)])
        ends = [self.kind.squeeze(p) for p in (self.box.low, self.box.high)]
        squeezes = np.array(ends)[:, None, None]
        places = self.body.touch(seen / squeezes).places / squeezes
        off = near_angle(angle_of(places), lean) - lean
        slides = off[:, 0].min(axis=0) - delta, off[:, 1].max(axis=0) + delta
        return stays_between(local, normal, slides, self.patch)
