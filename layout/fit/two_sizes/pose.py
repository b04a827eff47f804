"""A top in a search: where its centre lies, how it is turned, and half of each size."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from ..wish import Span, Wish
    from .aims import Figures
    from .boxes import Box
    from .relaxed import Edges, HalfPlanes, Patch

Array = NDArray[np.float64]
"""Edges are (n, 2, 2): edge, start or end, x or y; mm, the wood to their left."""


class Pose(NamedTuple):
    """A core within a search; mm and radians, in the frame of the search."""

    x: float
    y: float
    turn: float
    half_length: float
    half_width: float


class Contacts(NamedTuple):
    """How far a top stands from what it must not cross, and how that changes as it moves."""

    clear: Array
    """(m,) array: distance left, mm; negative where it crosses."""
    slopes: Array
    """(m, 5) array: change of `clear` with each number of the pose."""
    places: Array
    """(m, 2) array: the nearest points of the edges."""
    edges: NDArray[np.intp]
    """(m,) array of int: which edge each belongs to."""


class Kind(Protocol):
    """What the search must know of one kind of outline.

    A kind has one number p for its shape besides its turn; for given turn, p and centre the largest
    one that fits is given by one more number, its radius.
    """

    name: str
    ratio: float | None
    """Length over width, where a core of this kind has but one."""

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping adds to half the length and half the width, mm.

        Raises
        ------
        LayoutError
            If no lipping goes round this kind.
        """
        ...

    def origin(self, pose: Pose) -> tuple[float, float]:
        """Return where the origin of the outline's own frame lies, in the frame of the search."""
        ...

    def drawn_in(self, pose: Pose, by: float) -> tuple[float, float]:
        """Return half sizes of a top with its edge at least about `by` farther in, mm."""
        ...

    def sizes(self, p: float, radius: float) -> tuple[float, float]:
        """Return half the length and half the width, mm."""
        ...

    def shape_of(self, pose: Pose) -> float:
        """Return the logarithm of the ratio."""
        ...

    def area(self, half_length: float, half_width: float) -> float:
        """Return the area, mm²."""
        ...

    def distances(self, turn: float, p: float, edges: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres touch the edges, (m, n)."""
        ...

    def holding(self, turn: float, p: float, points: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres hold all the points, (m,)."""
        ...

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        ...

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        ...

    def period(self, p: float) -> float:
        """Return the least turn that brings shape p onto itself; 0 where any turn does."""
        ...

    def anchor(self, low: float, high: float) -> float:
        """Return the shape that stands for all between `low` and `high`."""
        ...

    def growth(self, low: float, high: float, half_turn: float) -> tuple[float, float]:
        """Return factor and addend that make a radius for the whole box of that at the anchor."""
        ...

    def shape_slack(self, box: Box) -> float:
        """Return the change of radius, mm, that is worth as much as the box's shapes, unbounded."""
        ...

    def looseness(self, box: Box) -> tuple[float, float]:
        """Return how far, as angles, the spans of turns and of shapes let contacts wander."""
        ...

    def across(self, p: float, patch: Patch, radius: float) -> tuple[float, float]:
        """Return how far, as angles, the patch lets contacts wander, along and across."""
        ...

    def half_planes(self, box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
        """Return half-planes that all tops of a box obey whose centres lie in a patch."""
        ...

    def figures(self, box: Box, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops of a box."""
        ...

    def at(self, box: Box, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        ...

    def greatest_sizes(self, low: float, high: float, radius: Array) -> tuple[Array, Array]:
        """Return half length and width that none of these shapes, of these radii, exceeds."""
        ...

    def greatest_area(self, low: float, high: float, radius: Array, lipping: float) -> Array:
        """Return the area that none of these, lipped, exceeds."""
        ...

    def radius_of_length(self, p: float, half_length: float) -> float:
        """Return the radius of the shape with that half length."""
        ...

    def radius_of_width(self, p: float, half_width: float) -> float:
        """Return the radius of the shape with that half width."""
        ...

    def ratio_radius(self, low: float, high: float, span: Span, lipping: float) -> float:
        """Return a radius above which no shape of the box, lipped, keeps its ratio within `span`.

        A lipping makes every ratio smaller, the more the smaller the oval is.
        """
        ...

    def least_ratio(self, low: float, radius: Array, lipping: float) -> Array:
        """Return the least ratio of lipped tops of shape `low` or more and at most these radii."""
        ...

    def shape_miss(self, low: float, high: float, length: float, width: float) -> float:
        """Return how far, mm, all sizes of these shapes lie from the given length and width."""
        ...

    def nearest_radius(self, p: float, half_length: float, half_width: float) -> float:
        """Return the radius of the top of shape p whose sizes are nearest to the given ones."""
        ...

    def shape_span(self, wish: Wish) -> tuple[float, float]:
        """Return the least and greatest ln(length / width) of a core within the limits."""
        ...

    def longest_shape(self, high: float, diameter: float) -> float:
        """Return the greatest shape number that can occur in wood of that diameter."""
        ...

    def first_shapes(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return spans that together hold all shapes; the last may be endless."""
        ...

    def drift(self, box: Box) -> float:
        """Return what a radius can change, mm, within the box beyond its growth."""
        ...

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely the top stands to each edge."""
        ...


def turned(edges: Array, turn: float) -> Array:
    """Return points, (…, 2), seen from a frame that is turned by `turn`."""
    cos, sin = math.cos(turn), math.sin(turn)
    seen: Array = edges @ np.array([[cos, -sin], [sin, cos]])
    return seen


def segment_distances(starts: Array, ends: Array, points: Array) -> Array:
    """Return the distance from each of m points to each of n segments, (m, n) mm.

    The way from a segment is split in two: across its line, and along it beyond its ends.
    """
    way = (ends - starts) / 2
    half = np.hypot(way[:, 0], way[:, 1])
    unit = way / np.maximum(half, 1e-300)[:, None]
    unit[half == 0] = (1.0, 0.0)  # a point: any way will do
    middle = starts + way
    across = np.stack([-unit[:, 1], unit[:, 0]])
    away = points @ across
    away -= np.einsum("ji,ij->i", across, middle)
    beyond = points @ unit.T
    beyond -= np.einsum("ij,ij->i", unit, middle)
    np.abs(beyond, out=beyond)
    beyond -= half
    np.maximum(beyond, 0.0, out=beyond)
    beyond *= beyond
    away *= away
    away += beyond
    distance: Array = np.sqrt(away, out=away)
    return distance
