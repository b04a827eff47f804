"""How stiff the materials are along and across their grain.

Along the grain: modulus of elasticity in bending at 12 % moisture, *Wood Handbook* (2010),
Table 5-3, and Table 12-1 for boards, where the middle of the range is taken. Across it wood is far
softer; the shares used are round figures between those of Table 5-1 for flat-sawn boards (from
memory), good to a third, which moves the sag of a top on legs far less.
"""

from __future__ import annotations

from dataclasses import dataclass, field

ACROSS = 0.065
"""Modulus across the grain as a share of that along it, flat-sawn wood (from memory)."""

SHEAR = 0.07
"""Shear modulus in the plane of the board as a share of the modulus along (from memory)."""

POISSON = 0.37
"""How much wood narrows when it is stretched along the grain (from memory)."""

POISSON_BOARD = 0.3
"""The same for boards that are alike both ways (common practice)."""


@dataclass(frozen=True, slots=True)
class Stiffness:
    """The elastic figures of a plate."""

    along: float = field(metadata={"unit": "N/mm2"})
    across: float = field(metadata={"unit": "N/mm2"})
    """Moduli of elasticity along and across the grain, N/mm²."""
    shear: float = field(metadata={"unit": "N/mm2"})
    """Shear modulus in the plane, N/mm²."""
    poisson: float = field(metadata={"unit": ""})
    """Share by which it narrows across when stretched along."""
    source: str

    @classmethod
    def of_wood(cls, along: float, source: str) -> Stiffness:
        """Return the figures of solid wood from its modulus along the grain, N/mm²."""
        return cls(along, along * ACROSS, along * SHEAR, POISSON, source)

    @classmethod
    def alike_both_ways(cls, modulus: float, source: str) -> Stiffness:
        """Return the figures of a board that has no grain, from its modulus, N/mm²."""
        shear = modulus / (2 * (1 + POISSON_BOARD))
        return cls(modulus, modulus, shear, POISSON_BOARD, source)
