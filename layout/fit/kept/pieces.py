"""The families of pieces as found: square ends or half-round ones."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..wish import Ends, Wish
from .half_round import HalfRoundPieces
from .square import SquarePieces


def piece_family(
    wood: SoundWood, wish: Wish, held: Sequence[Region] = ()
) -> SquarePieces | HalfRoundPieces:
    """Return the family of pieces that a wish asks for.

    Raises
    ------
    LayoutError
        If it keeps no edge, or one that no piece can have.
    """
    if wish.keeping is None:
        raise LayoutError("a piece as found needs an edge to keep: name one edge, or two opposite")
    rounded = wish.keeping.ends is Ends.HALF_ROUND
    return (HalfRoundPieces if rounded else SquarePieces)(wood, wish, held)
