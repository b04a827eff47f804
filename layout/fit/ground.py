"""Where tops may lie on a panel: its sound wood, and the parts that no edge of a top may cross."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.polygon import Region
from ..panel.sound import SoundWood


@dataclass(frozen=True, slots=True)
class Ground:
    """Where tops may lie on a panel."""

    wood: SoundWood
    islands: tuple[Region, ...] = ()
    """Parts that the edge of a top may not cross."""
