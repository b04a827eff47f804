"""How much solid wood swells and shrinks with its moisture.

Between 6 and 14 % moisture a board of width D becomes D·C·ΔM wider, C its coefficient across the
growth rings (radial) or along them (tangential): *Wood Handbook* (2010), eq. 13-2 and Table 13-5.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Movement:
    """Dimensional change across the grain, as a share for each 1 % of moisture.

    Attributes
    ----------
    radial, tangential : float
        Of quarter-sawn and of flat-sawn boards.
    source : str
    """

    radial: float = field(metadata={"unit": "1/%"})
    tangential: float = field(metadata={"unit": "1/%"})
    source: str


def coefficient_from_shrinkage(shrinkage: float) -> float:
    """Return the coefficient for each 1 % of moisture from the shrinkage green to ovendry, %.

    The relation that links Table 13-5 with the shrinkages of Table 4-3.

    >>> round(coefficient_from_shrinkage(7.8), 5)
    0.00274
    """
    share = shrinkage / 30
    return share / (100 - 20 * share)
