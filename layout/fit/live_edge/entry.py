"""The family of pieces as found."""

from __future__ import annotations

from collections.abc import Sequence

from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..entry import Entry
from ..wish import Wish
from .pieces import Pieces


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the pieces that a wish asks for."""
    pieces = Pieces(wood, wish, held)
    return Entry(pieces, pieces.finish)
