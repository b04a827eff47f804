"""The families that keep an edge: tops with a long side on it, and pieces as found."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...outlines import PIECE_AS_FOUND
from ...panel.sound import SoundWood
from ..entry import Entry
from ..wish import Ends, Wish


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the tops of a shape, or the pieces with square ends or half-round ones.

    Raises
    ------
    LayoutError
        If no edge is kept, or one that no top or piece can have.
    """
    if shape != PIECE_AS_FOUND:
        from .tops import KeptTops

        tops = KeptTops(wood, wish, shape, held)
        return Entry(tops, tops.finish)
    if wish.keeping is None:
        raise LayoutError("a piece as found needs an edge to keep: name one edge, or two opposite")
    if wish.keeping.ends is Ends.HALF_ROUND:
        from .half_round import HalfRoundPieces

        rounded = HalfRoundPieces(wood, wish, held)
        return Entry(rounded, rounded.finish)
    from .square import SquarePieces

    square = SquarePieces(wood, wish, held)
    return Entry(square, square.finish)
