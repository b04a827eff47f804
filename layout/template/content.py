"""What a template shows, in the frame of the top, its length along x; its line in figures."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import reduce

from ..drawing.scene import Sign
from ..geometry import Bounds, Path, Point, at_most, circle
from ..geometry.intersect import crossings
from ..geometry.stepping import swapped
from ..geometry.tolerance import SAME_POINT
from ..top.runs import HollowCorner
from ..units import MM_PER_INCH, Tape

_RIGHT, _UP = Point(1.0, 0.0), Point(0.0, 1.0)
_STATIONS = 12  # about as many stations from the middle to an end as a batten is bent round
_STEPS_MM = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0)
_STEPS_INCH = tuple(MM_PER_INCH * n for n in (0.25, 0.5, 1.0, 2.0, 3.0, 6.0))


@dataclass(frozen=True, slots=True)
class TemplateMark:
    """A place to prick or drill through the paper."""

    label: str
    """``C1``, ``N2``, ``foot 3``."""
    at: Point
    diameter: float = 0.0
    """Of the hole, nail or pin drawn round it, mm; 0 for a bare point."""
    sign: Sign = "point"

    @property
    def reach(self) -> float:
        """How far its lines reach from its middle, mm."""
        return max(3.0, self.diameter / 2 + 1.5)  # past a ring, so that one sees where they cross

    @property
    def ring(self) -> Path:
        """The circle that must be on paper for it to be found."""
        return circle(self.at, self.reach)


@dataclass(frozen=True, slots=True)
class TemplateContent:
    """Everything that may be drawn on a full-size template."""

    title: str
    finish: Path
    """What it is: ``Capsule 1200 × 700``; the finish line, closed."""
    core: Path | None = None
    rough: Path | None = None
    """The line under the lipping, and the rough-cut line."""
    marks: tuple[TemplateMark, ...] = ()
    feet: tuple[Path, ...] = ()
    """Centres, nails, fixings; where legs or their plates stand."""
    symmetric_x: bool = False
    symmetric_y: bool = False
    """Whether the left half mirrors the right one, and the lower the upper: it can be flipped."""
    tape: Tape = field(default_factory=Tape)
    """What the maker reads the check bars with."""
    mirrored: bool = False
    """Whether this is the view from the underside."""
    kept: tuple[Path, ...] = ()
    """The panel's own edge where the top has that: the template is laid on it."""
    unlined: tuple[Path, ...] = ()
    """Parts of the lines that this edge stands for: they are not drawn."""
    below: bool = False
    """Whether the work is marked on its underside."""
    hollows: tuple[HollowCorner, ...] = ()
    """Where a router's bit stays out of the finish line; none without a router."""

    @property
    def has_legs(self) -> bool:
        """Whether legs or their screws are shown, which belong on the underside."""
        return bool(self.feet) or any(mark.sign == "hole" for mark in self.marks)

    @property
    def outlines(self) -> tuple[Path, ...]:
        """The lines that are cut along: finish, core and rough-cut line, where there are any."""
        return tuple(path for path in (self.finish, self.core, self.rough) if path is not None)

    @property
    def paths(self) -> tuple[Path, ...]:
        """Every line that must be on paper: outlines, feet, and a circle round each mark."""
        return self.outlines + self.feet + tuple(mark.ring for mark in self.marks)

    @property
    def bounds(self) -> Bounds:
        """The box round everything."""
        return reduce(Bounds.joined, (path.bounds for path in self.paths))

    def drawn(self, path: Path) -> tuple[Path, ...]:
        """Return what is drawn of one of its lines: all but what a kept edge stands for."""
        return path.without((*self.kept, *self.unlined))

    def from_underside(self) -> TemplateContent:
        """Return the same template seen from the other face: left and right swapped."""

        def seen(paths: tuple[Path, ...]) -> tuple[Path, ...]:
            return tuple(path.mirrored() for path in paths)

        return replace(
            self,
            finish=self.finish.mirrored(),
            core=self.core and self.core.mirrored(),
            rough=self.rough and self.rough.mirrored(),
            marks=tuple(replace(m, at=swapped(m.at)) for m in self.marks),
            feet=seen(self.feet),
            mirrored=not self.mirrored,
            kept=seen(self.kept),
            unlined=seen(self.unlined),
            hollows=tuple(replace(h, at=swapped(h.at)) for h in self.hollows),
        )


@dataclass(frozen=True, slots=True)
class Station:
    """Where the outline stands on a line square to a centreline."""

    at: float
    """How far along the centreline it is from the middle, mm; left and below are negative."""
    low: float
    high: float
    """Where the outline lies below and above (or left and right of) the centreline, mm from it."""
    between: tuple[float, ...] = ()
    """Where a hollow outline crosses the line between these, mm, from the lowest."""


@dataclass(frozen=True, slots=True)
class Ordinates:
    """An outline by stations along both centrelines: what runs steeply to one, the other fixes."""

    along: tuple[Station, ...]
    across: tuple[Station, ...]
    """Along the long centreline, offsets up and down; along the cross one, left and right."""


def ordinates(
    outline: Path, tape: Tape, *, symmetric_x: bool = False, symmetric_y: bool = False
) -> Ordinates:
    """Return the stations of an outline round the origin, at even steps of the maker's tape.

    Of alike halves only the right or the upper is given; the last station is the end itself.
    """
    box, steps = outline.bounds, _STEPS_INCH if tape.imperial else _STEPS_MM
    reach = max(box.right, box.top, -box.left, -box.bottom)
    step = next((step for step in steps if at_most(reach / step, _STATIONS + 1)), steps[-1])
    return Ordinates(
        _stations(outline, 0, 0.0 if symmetric_x else box.left, box.right, step),
        _stations(outline, 1, 0.0 if symmetric_y else box.bottom, box.top, step),
    )


def _stations(path: Path, axis: int, low: float, high: float, step: float) -> tuple[Station, ...]:
    within = (k * step for k in range(math.ceil(low / step), math.floor(high / step) + 1))
    inner = [w for w in within if low + SAME_POINT < w < high - SAME_POINT]
    found = []
    for level in (low, *inner, high):
        start, way = (Point(level, 0.0), _UP) if axis == 0 else (Point(0.0, level), _RIGHT)
        reaches = [crossing.reach for crossing in crossings(path, start, way)]
        if reaches:
            found.append(Station(level, reaches[0], reaches[-1], tuple(reaches[1:-1])))
    return tuple(found)
