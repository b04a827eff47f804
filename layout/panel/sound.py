"""Sound wood: what is left of a panel for a purpose, never one polygon but two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import PanelError
from ..geometry import Line, Path, Region
from ..geometry.polygon import Polygon
from ..geometry.tolerance import CHORD


@dataclass(frozen=True, slots=True)
class SoundWood:
    """What is left of a panel for a purpose, between two polygons."""

    inner: Region
    """Lies wholly in the true sound wood; what is proved inside it is proved."""
    outer: Region
    """Contains the true sound wood; what cannot fit in it cannot fit."""

    @property
    def polygon(self) -> Polygon:
        """What is proved to be sound, as a shapely geometry, mm."""
        return self.inner.shape

    def meet(self, other: SoundWood) -> SoundWood:
        """Return what is sound for both of two purposes."""
        return SoundWood(self.inner.meet(other.inner), self.outer.meet(other.outer))

    @classmethod
    def exact(cls, region: Region) -> SoundWood:
        """Return the sound wood of a straight-edged panel, where both polygons are the same."""
        return cls(region, region)


def face_with_kept(
    boundary: Path, cut_outs: Sequence[Path], kept: Sequence[Path], margin: float
) -> SoundWood:
    """Return what of a face lies at least `margin`, mm, from all of its edges that are not kept.

    What must stay clear is not all that lies near the boundary, but what lies near those parts of
    it that are not kept: strips round these, and cut-outs grown by the margin, are taken away. A
    strip ends in a half circle, so that the corner of a neighbour keeps its distance. A
    `PanelError` is raised if what is kept is no part of the boundary.
    """
    held = {segment for path in kept for segment in path.segments}
    if not held <= set(boundary.segments):
        raise PanelError("what is kept is no edge of this panel: name one of its own edges")
    inner = Region.of(boundary)
    outer = Region.of(boundary, "outside")
    for cut_out in cut_outs:
        inner = inner.minus(Region.of(cut_out, "outside").grown(margin, around=True))
        outer = outer.minus(Region.of(cut_out, "inside").grown(margin, around=False))
    for path in boundary.runs(lambda segment: segment not in held) if margin > 0 else ():
        off = 0.0 if all(isinstance(segment, Line) for segment in path.segments) else CHORD
        near = Region.along(path.points(CHORD, "inside"), margin + off, around=True)
        inner = inner.minus(near)
        if margin > off:
            surely = Region.along(path.points(CHORD, "outside"), margin - off, around=False)
            outer = outer.minus(surely)
    return SoundWood(inner, outer)
