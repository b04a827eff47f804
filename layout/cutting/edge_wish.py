"""What the maker wants the edge to look like."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import LayoutError
from ..keys.figures import ABOVE_0, FROM_0, Length, Range
from ..keys.key import Key, hold, key
from ..keys.plane import Pair

INSIDE_BEVEL = 10.0
"""Fixings keep this far inside a bevel, mm (common practice)."""

BEVEL = Key(
    "bevel",
    Pair(ABOVE_0, form="[in, up]"),
    "A bevel under its edge: how far in from the edge, and how far up it; nothing is fixed nearer "
    f"to the edge than {INSIDE_BEVEL:g} mm inside it",
    None,
    "none",
    "[30, 12]",
)


@dataclass(frozen=True, slots=True)
class EdgeProfile:
    """What the maker wants the edge to look like.

    Raises
    ------
    LayoutError
        If a length is below 0, or only one of a bevel's two is given.
    """

    round_over: float = key(
        0.0,
        Length(Range(0.0, 100.0), "give the radius of the bit"),
        "Radius of its upper arris; 0 leaves it broken only",
        "3",
    )
    bevel_in: float = key(0.0, FROM_0, also=(BEVEL,), in_file=False)
    bevel_up: float = key(0.0, FROM_0, in_file=False)
    """How far a bevel under the top runs in from the edge, and up it, mm; both 0 for none."""

    def __post_init__(self) -> None:
        hold(self, "top")
        if (self.bevel_in == 0) != (self.bevel_up == 0):
            raise LayoutError(
                f"a bevel runs in and up: {self.bevel_in:g} mm in and {self.bevel_up:g} mm up "
                "make none; give both"
            )

    @property
    def keep_in(self) -> float:
        """Nothing is fixed from below nearer to the edge than this, mm; 0 for none."""
        return self.bevel_in + INSIDE_BEVEL if self.bevel_in else 0.0

    def edge_left(self, thickness: float) -> float:
        """Return what is left of the edge above the bevel, mm; the round-over comes out of it."""
        return thickness - self.bevel_up
