"""The family of the maker's own outline: at its own size, or the largest of its form."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..entry import Entry
from ..found import Fit
from ..wish import Wish
from ..wood.edges import Array
from .alternatives import OwnElsewhere
from .places import OwnPlaces, proved


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

    def finish(pose: Array) -> Fit | None:
        return proved(own, family.shape.placement(pose), wood, held)

    return Entry(
        family, finish, OwnElsewhere(family, finish), family.base, family.gap, family.enough
    )
