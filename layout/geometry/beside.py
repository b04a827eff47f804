"""Where along a closed line something lies beside it: stretches, by how far round they lie."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import shapely
from shapely.geometry.base import BaseGeometry

from .placement import Points
from .point import Point
from .polygon import Region, union
from .tolerance import ROUNDING

_SEGMENTS = 64
"""Chords of a quarter turn round a corner: at 20 mm off it they lie 1.5 µm within the circle."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of the way round."""

    start: float
    end: float
    """How far round it goes, mm; below 0 where it comes from before the first corner."""
    lines: Region

    @property
    def length(self) -> float:
        """How long it is, mm."""
        return self.end - self.start

    @property
    def middle(self) -> float:
        """How far round its middle lies, mm."""
        return (self.start + self.end) / 2


@dataclass(frozen=True, slots=True)
class Way:
    """The way round a ring, (n, 2) mm."""

    ring: Points
    line: shapely.LinearRing = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "line", shapely.LinearRing(self.ring))

    @property
    def whole(self) -> Stretch:
        """All of it."""
        return Stretch(0.0, float(self.line.length), Region(self.line))

    def at(self, along: float) -> Point:
        """Return the place so far round, mm."""
        place = self.line.interpolate(along % self.line.length)
        return Point(place.x, place.y)

    def beside(
        self, thing: Region, reach: float, part: Stretch, gap: float = ROUNDING
    ) -> list[Stretch]:
        """Return what of a part lies within `reach` of a thing, in the order of that part.

        Stretches less than `gap` apart, mm, are one.
        """
        if part.lines.distance_to(thing) > reach:
            return []
        near = thing.shape.buffer(reach, quad_segs=_SEGMENTS)
        met = [m for m in shapely.get_parts(part.lines.shape.intersection(near)) if m.length > 0]
        whole = self.line.length
        found: list[list[Stretch]] = []
        for own in sorted((self._stretch(m, part.start) for m in met), key=lambda s: s.start):
            if found and own.start - found[-1][-1].end <= gap:
                found[-1].append(own)
            else:
                found.append([own])
        if len(found) > 1 and found[0][0].start + whole - found[-1][-1].end <= gap:
            last = found.pop()
            found[0] = [replace(last[0], start=last[0].start - whole), *last[1:], *found[0]]
        return [Stretch(s[0].start, s[-1].end, union(one.lines for one in s)) for s in found]

    def _stretch(self, line: BaseGeometry, start: float) -> Stretch:
        """Return a part of the line as a stretch that lies past a start."""
        middle = self.line.project(line.interpolate(0.5, normalized=True))
        middle = start + (middle - start) % self.line.length
        return Stretch(middle - line.length / 2, middle + line.length / 2, Region(line))
