"""Whether a corner is square, from two sides and the diagonal between their ends."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from ..errors import PanelError
from ..geometry.alike import at_most

ACCEPTED = 1.5
"""A corner that leans by no more than this over its shorter side is taken for square, mm: two
diagonals then differ by 3 at most (common practice)."""


@dataclass(frozen=True, slots=True)
class Squareness:
    """How a corner stands."""

    angle: float = field(metadata={"unit": "rad"})
    """Of the corner, radians."""
    out_by: float
    """How far the end of the second side lies from the square line, mm: positive where it leans
    outwards, over the first side's end."""
    square_diagonal: float
    """What the diagonal would be if the corner were square, mm."""
    is_square: bool
    """Whether it may be worked from as it is."""

    @classmethod
    def of_corner(cls, first: float, second: float, diagonal: float) -> Squareness:
        """Return how the corner between two sides stands, from the diagonal across them, mm.

        By the law of cosines. Equal diagonals of a panel do not prove it square (sides 90, 40, 90,
        48 have them too): take this at both ends of the reference edge.

        Raises
        ------
        PanelError
            If the three lengths make no triangle.

        Examples
        --------
        >>> Squareness.of_corner(1200.0, 900.0, 1500.0).is_square
        True
        """
        longest = max(first, second, diagonal)
        if min(first, second, diagonal) <= 0 or 2 * longest >= first + second + diagonal:
            raise PanelError(
                f"sides {first:g} and {second:g} and a diagonal of {diagonal:g} mm meet in no "
                "corner: measure again"
            )
        cosine = (first**2 + second**2 - diagonal**2) / (2 * first * second)
        out_by = -second * cosine
        true = math.hypot(first, second)
        return cls(math.acos(cosine), out_by, true, at_most(abs(out_by), ACCEPTED))
