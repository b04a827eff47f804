"""The family of tops with a long side on a kept edge."""

from __future__ import annotations

from collections.abc import Sequence

from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..entry import Entry
from ..wish import Wish
from .tops import KeptTops


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the tops of a shape."""
    family = KeptTops(wood, wish, shape, held)
    return Entry(family, family.finish)
