"""Sound wood: what is left of a panel for a purpose, never one polygon but two."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.polygon import Polygon, Region


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
        return self.inner.polygon

    def meet(self, other: SoundWood) -> SoundWood:
        """Return what is sound for both of two purposes."""
        return SoundWood(self.inner.meet(other.inner), self.outer.meet(other.outer))

    @classmethod
    def exact(cls, region: Region) -> SoundWood:
        """Return the sound wood of a straight-edged panel, where both polygons are the same."""
        return cls(region, region)
