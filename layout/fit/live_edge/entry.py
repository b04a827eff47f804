"""The families of pieces as found: with square ends or half-round ones."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..families import Entry
from ..wish import Ends, Wish
from .round_ends import HalfRoundPieces
from .square_ends import SquarePieces


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the pieces that a wish asks for; raise a `LayoutError` for edges no piece can have."""
    if wish.keeping is None:
        raise LayoutError("a piece as found needs an edge to keep: name one edge, or two opposite")
    pieces = HalfRoundPieces if wish.keeping.ends is Ends.HALF_ROUND else SquarePieces
    family = pieces(wood, wish, held)
    return Entry(family, family.finish)
