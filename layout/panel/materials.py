"""What panels are made of, and how heavy it is.

Specific gravities of species: USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190
(2010), Table 5-3 (ovendry mass, volume at 12 %). Densities at a moisture M in % follow from
1000·G·(1 + M/100). Panel boards: the middle of the ranges in Table 12-1.
"""

from __future__ import annotations

from dataclasses import dataclass

from .movement import MOVEMENT, Movement
from .stiffness import STIFFNESS, Stiffness

MOISTURE = 12.0
"""Moisture content at which densities are stated, %."""


@dataclass(frozen=True, slots=True)
class Material:
    """A species of wood or a kind of board.

    Attributes
    ----------
    name : str
        As a job file writes it.
    density : float
        kg/m³ at 12 % moisture.
    source : str
        Where the density comes from.
    """

    name: str
    density: float
    source: str

    def mass(self, area: float, thickness: float) -> float:
        """Return the mass, kg, of so much of it: mm² and mm."""
        return area * thickness * self.density * 1e-9

    @property
    def stiffness(self) -> Stiffness | None:
        """How it bends; None where there is no single figure for it."""
        return STIFFNESS.get(self.name)

    @property
    def movement(self) -> Movement | None:
        """How it moves with its moisture; None where that is not known or not worth a figure."""
        return MOVEMENT.get(self.name)


_WOOD_HANDBOOK = "Wood Handbook (2010), Table 5-3"
_BOARDS = "Wood Handbook (2010), Table 12-1, middle of the range"

_SPECIFIC_GRAVITY = {
    "white oak": 0.68,
    "red oak": 0.63,
    "oak": 0.68,
    "red maple": 0.54,
    "maple": 0.63,
    "sugar maple": 0.63,
    "douglas fir": 0.48,
    "pine": 0.40,
    "ponderosa pine": 0.40,
    "longleaf pine": 0.59,
    "ash": 0.60,
    "white ash": 0.60,
    "beech": 0.64,
    "birch": 0.62,
    "yellow birch": 0.62,
    "cherry": 0.50,
    "black cherry": 0.50,
    "walnut": 0.55,
    "black walnut": 0.55,
}

_DENSITY = {
    "plywood": (550.0, _BOARDS),
    "MDF": (780.0, _BOARDS),
    "particleboard": (680.0, _BOARDS),
    "hardboard": (950.0, _BOARDS),
    "OSB": (650.0, _BOARDS),
    "blockboard": (500.0, "common practice"),
    "iroko": (640.0, "from memory"),
    "elm": (550.0, "from memory"),
    "teak": (650.0, "from memory"),
    "mahogany": (560.0, "from memory"),
    "spruce": (450.0, "from memory"),
    "solid wood": (650.0, "common practice"),
    "solid-core door": (600.0, "common practice"),
    "hollow-core door": (265.0, "common practice: 14 kg for 1981 × 762 × 35"),
    "framed door": (500.0, "common practice"),
}

MATERIALS: dict[str, Material] = {
    **{
        name: Material(name, 1000 * gravity * (1 + MOISTURE / 100), _WOOD_HANDBOOK)
        for name, gravity in _SPECIFIC_GRAVITY.items()
    },
    **{name: Material(name, density, source) for name, (density, source) in _DENSITY.items()},
}
"""Every material by the name that a job file uses."""


def material_named(name: str) -> Material | None:
    """Return the material of that name, whatever its capitals; None where it is not known."""
    wanted = name.casefold()
    return next((m for key, m in MATERIALS.items() if key.casefold() == wanted), None)
