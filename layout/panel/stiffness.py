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
    """The elastic figures of a plate.

    Attributes
    ----------
    along, across : float
        Moduli of elasticity along and across the grain, N/mm².
    shear : float
        Shear modulus in the plane, N/mm².
    poisson : float
        Share by which it narrows across when stretched along.
    source : str
    """

    along: float = field(metadata={"unit": "N/mm2"})
    across: float = field(metadata={"unit": "N/mm2"})
    shear: float = field(metadata={"unit": "N/mm2"})
    poisson: float = field(metadata={"unit": ""})
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


_READ = "Wood Handbook (2010), Table 5-3"
_QUOTED = "Wood Handbook (2010), Table 5-3, quoted"
_BOARDS = "Wood Handbook (2010), Table 12-1, middle of the range"
_MEMORY = "from memory"

_WOOD = {
    "white oak": (12_270, _READ),
    "oak": (12_270, _READ),
    "red oak": (12_500, _QUOTED),
    "red maple": (11_310, _READ),
    "maple": (12_600, _QUOTED),
    "sugar maple": (12_600, _QUOTED),
    "douglas fir": (13_440, _READ),
    "pine": (8_900, _READ),
    "ponderosa pine": (8_900, _READ),
    "longleaf pine": (13_650, _READ),
    "ash": (12_000, _QUOTED),
    "white ash": (12_000, _QUOTED),
    "beech": (11_900, _QUOTED),
    "birch": (13_900, _QUOTED),
    "yellow birch": (13_900, _QUOTED),
    "cherry": (10_300, _QUOTED),
    "black cherry": (10_300, _QUOTED),
    "walnut": (11_600, _QUOTED),
    "black walnut": (11_600, _QUOTED),
    "teak": (10_700, _READ),
    "mahogany": (10_300, _QUOTED),
    "iroko": (9_400, _MEMORY),
    "elm": (9_200, _MEMORY),
    "spruce": (10_000, _MEMORY),
    "solid wood": (10_000, "common practice"),
}

_BOARD = {
    "plywood": (7_750, _BOARDS),
    "MDF": (3_590, _BOARDS),
    "particleboard": (3_450, _BOARDS),
    "hardboard": (4_210, _BOARDS),
    "OSB": (5_340, _BOARDS),
    "solid-core door": (3_450, "as particleboard"),
}

STIFFNESS: dict[str, Stiffness] = {
    **{name: Stiffness.of_wood(float(e), source) for name, (e, source) in _WOOD.items()},
    **{name: Stiffness.alike_both_ways(float(e), source) for name, (e, source) in _BOARD.items()},
    "blockboard": Stiffness(7_000.0, 3_500.0, 600.0, 0.2, "common practice"),
}
"""By the name of the material; hollow and framed doors have no single figure and are left out."""
