"""The family of the maker's own outline: at its own size, or the largest of its form."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..entry import Entry
from ..wish import Wish
from .alternatives import OwnElsewhere
from .places import OwnPlaces


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the places of the outline."""
    own = wish.own
    if own is None:
        raise LayoutError("a top of the maker's own outline needs that outline: say its points")
    if wish.lipping:
        raise LayoutError(
            f"a lipping of {wish.lipping:g} mm cannot be put round an outline of the maker's own: "
            "draw the core and leave the lipping out"
        )
    if wish.scaled:
        from ..convex.entry import make as make_scaled

        return make_scaled(wood, wish, shape, held)
    family = OwnPlaces(wood, wish, own, held)
    elsewhere = OwnElsewhere(family, held)
    finish = partial(elsewhere.finished, rests=True)
    return Entry(family, finish, elsewhere, family.base, family.gap, family.enough)
