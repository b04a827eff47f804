"""Quick answers for the bench, without a panel: how to draw this, in numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from ..errors import LengthError, OutlineError
from ..outlines import Capsule, Circle, Outline, Oval, RoundedRectangle
from ..units import Tape
from .arcs import LargeArc
from .instruments import DrawnOval, Ordinate, StringLoop, oval_checks
from .method import Method, Workshop, ranked
from .methods import arc_ways, methods_for
from .oval_methods import OvalOrdinates


@dataclass(frozen=True, slots=True)
class MarkedOval:
    """An oval, and the ways to draw it."""

    shape: str
    length: float
    width: float
    end_radius: float
    side_radius: float
    perimeter: float
    bare_loop: float
    """mm: the radii of curvature W²/(2L) and L²/(2W), and the loop for nails and a pencil of no
    thickness, L + √(L² − W²)."""
    slip_of_1_mm: DrawnOval
    slip_of_1_percent: DrawnOval
    """What the string draws when its loop is so much too long."""
    checks: tuple[Ordinate, ...]
    """Points of a quarter that prove the drawn line."""
    methods: tuple[Method, ...]
    """The first is the one to use."""
    outline: Outline = field(metadata={"json": False})


@dataclass(frozen=True, slots=True)
class MarkedArcs:
    """A circle, a capsule or a rounded rectangle, mm, and the ways to draw its arcs."""

    shape: str
    length: float
    width: float
    radius: float
    centres_apart: float
    centres_across: float
    """Along the length, 0 for a circle, and across it, 0 but for a rounded rectangle."""
    diagonal: float
    """Between tangent points or opposite centres: equal both ways, or it is out of square."""
    perimeter: float
    methods: tuple[Method, ...]
    outline: Outline = field(metadata={"json": False})


@dataclass(frozen=True, slots=True)
class MarkedArc:
    """A large arc, mm, and the ways to draw it."""

    shape: str
    chord: float
    rise: float
    radius: float
    centre_below: float
    length: float
    ordinates: tuple[Ordinate, ...]
    """From the middle to the end of the chord; empty for more than half a circle."""
    methods: tuple[Method, ...]


@dataclass(frozen=True, slots=True)
class MarkedSuperellipse:
    """A superellipse by ordinates: |2x/L|ⁿ + |2y/W|ⁿ = 1; mm."""

    shape: str
    length: float
    width: float
    exponent: float = field(metadata={"unit": ""})
    ordinates: tuple[Ordinate, ...]


def mark_oval(length: float, width: float, workshop: Workshop | None = None) -> MarkedOval:
    """Return how to draw an oval, mm; an OutlineError if not ``0 < width < length``."""
    if not 0 < width < length < math.inf:
        raise OutlineError(
            f"an oval needs 0 < width < length, not {width:g} by {length:g} mm; "
            "as long as wide it is a circle"
        )
    oval, bare = Oval(length, width), StringLoop.for_oval(length, width)
    return MarkedOval(
        oval.name,
        length,
        width,
        end_radius=oval.tightest_radius,
        side_radius=length**2 / (2 * width),
        perimeter=oval.perimeter,
        bare_loop=bare.loop,
        slip_of_1_mm=bare.slipped(1.0),
        slip_of_1_percent=bare.slipped(0.01 * bare.loop),
        checks=oval_checks(length, width),
        methods=methods_for(oval, workshop),
        outline=oval,
    )


def mark_circle(diameter: float) -> MarkedArcs:
    """Return how to draw a circle, mm; an OutlineError if the diameter is not above 0."""
    return _arcs(Circle(diameter), diameter / 2, 0.0, 0.0)


def mark_capsule(length: float, width: float) -> MarkedArcs:
    """Return how to draw a capsule, mm; an OutlineError if not ``0 < width <= length``."""
    capsule = Capsule(length, width)
    marked = _arcs(capsule, capsule.radius, capsule.straight, 0.0)
    return replace(marked, diagonal=math.hypot(capsule.straight, width))


def mark_rounded(length: float, width: float, radius: float) -> MarkedArcs:
    """Return how to draw a rounded rectangle, mm; an OutlineError if the corners do not fit."""
    rounded = RoundedRectangle.with_radius(length, width, radius)
    return _arcs(rounded, radius, length - 2 * radius, width - 2 * radius)


def _arcs(
    outline: Circle | Capsule | RoundedRectangle, radius: float, apart: float, across: float
) -> MarkedArcs:
    """Return the arcs of an outline whose centres lie so far apart along and across it, mm."""
    sizes = (outline.length, outline.width, radius, apart, across, math.hypot(apart, across))
    return MarkedArcs(outline.name, *sizes, outline.perimeter, methods_for(outline), outline)


def mark_arc(arc: LargeArc, stations: int = 6) -> MarkedArc:
    """Return how to draw an arc; an OutlineError if there is no station."""
    shop = Workshop()
    figures = (arc.chord, arc.rise, arc.radius, arc.centre_below, arc.length)
    ordinates = arc.ordinates(stations) if arc.is_flat else ()
    return MarkedArc("arc", *figures, ordinates, ranked(arc_ways(arc, stations, shop), shop))


def mark_superellipse(length: float, width: float, exponent: float) -> MarkedSuperellipse:
    """Return ordinates, mm; an OutlineError if not ``1 < exponent``, ``0 < width <= length``."""
    table = OvalOrdinates.for_oval(length, width, exponent)
    return MarkedSuperellipse("superellipse", length, width, exponent, table.ordinates)


LONGEST = 1e9
"""mm that are divided: far beyond any tape, and every mark can be reckoned with."""


@dataclass(frozen=True, slots=True)
class DivisionMark:
    """One mark: its true distance from the start, as the tape reads it, what that misses; mm."""

    exact: float
    rounded: float
    error: float


@dataclass(frozen=True, slots=True)
class Division:
    """A length in equal parts."""

    total: float
    parts: int
    spacing: float
    """Of one part, mm, exact: not to be stepped off, for its rounding would add up."""
    marks: tuple[DivisionMark, ...]
    """Without the ends."""

    @classmethod
    def of(cls, total: float, parts: int, tape: Tape | None = None) -> Division:
        """Return the marks that divide a length above 0 in 2 parts or more, else a LengthError; mm.

        >>> [m.rounded for m in Division.of(100.0, 3).marks]
        [33.0, 67.0]
        """
        if parts < 2 or not 0 < total <= LONGEST:
            raise LengthError(
                f"{total:g} mm in {parts} parts: divide a length above 0, at most {LONGEST:g} mm, "
                "in 2 parts or more"
            )
        tape = tape or Tape()
        exact = (total * i / parts for i in range(1, parts))
        rounded = ((mark, tape.nearest(mark)) for mark in exact)
        marks = tuple(DivisionMark(mark, near, near - mark) for mark, near in rounded)
        return cls(total, parts, total / parts, marks)
