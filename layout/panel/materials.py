"""What panels are made of: how heavy, how stiff, and how it moves with moisture.

Mostly from the USDA Forest Products Laboratory's *Wood Handbook*, FPL-GTR-190 (2010): specific
gravities (ovendry mass, volume at 12 %) and moduli in bending in Table 5-3, coefficients of change
in Table 13-5, panel boards in Table 12-1. Densities at a moisture M in % follow from
1000·G·(1 + M/100). Shares across the grain are round figures between those of Table 5-1 for
flat-sawn boards (from memory), good to a third, which moves the sag of a top on legs far less.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from ..geometry.tolerance import ROUNDING

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


MOISTURE = 12.0
"""Moisture content at which densities are stated, %."""

_HANDBOOK = "Wood Handbook (2010), Table "
_READ, _QUOTED, _MEMORY = "", ", quoted", ", from memory"
_PARTLY = ", quoted; radial computed"
_COMPUTED = ", by way of the shrinkages of Table 4-3, from memory"
_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Movement:
    """Dimensional change across the grain, as a share for each 1 % of moisture.

    Between 6 and 14 % moisture a board of width D becomes D·C·ΔM wider, C its coefficient across
    the growth rings (radial) or along them (tangential): *Wood Handbook* (2010), eq. 13-2.
    """

    radial: float = field(metadata={"unit": "1/%"})
    tangential: float = field(metadata={"unit": "1/%"})
    """Of quarter-sawn and of flat-sawn boards."""
    source: str


@dataclass(frozen=True, slots=True)
class Material:
    """A species of wood or a kind of board."""

    name: str
    """As a job file writes it."""
    density: float
    """kg/m³ at 12 % moisture."""
    source: str
    """Where the density comes from."""
    movement: Movement | None = None
    """How it moves with its moisture; None where that is not known or not worth a figure."""
    stiffness: Stiffness | None = None
    """How it bends; None where there is no single figure for it."""

    def mass(self, area: float, thickness: float) -> float:
        """Return the mass, kg, of so much of it: mm² and mm."""
        return area * thickness * self.density * 1e-9


# names; specific gravity; modulus along the grain, N/mm²; radial and tangential change for 1 %
_HANDBOOK_WOODS = (
    ("white oak, oak", (0.68, _READ), (12_270, _READ), (0.00180, 0.00365, _READ)),
    ("red oak", (0.63, _READ), (12_500, _QUOTED), (0.00158, 0.00369, _READ)),
    ("red maple", (0.54, _READ), (11_310, _READ), (0.00137, 0.00289, _COMPUTED)),
    ("sugar maple, maple", (0.63, _READ), (12_600, _QUOTED), (0.00165, 0.00353, _READ)),
    ("ash, white ash", (0.60, _READ), (12_000, _QUOTED), (0.00169, 0.00274, _READ)),
    ("beech", (0.64, _READ), (11_900, _QUOTED), (0.00190, 0.00431, _READ)),
    ("yellow birch, birch", (0.62, _READ), (13_900, _QUOTED), (0.00256, 0.00338, _READ)),
    ("paper birch", (0.55, _MEMORY), (11_000, _MEMORY), (0.00219, 0.00304, _MEMORY)),
    ("black cherry, cherry", (0.50, _READ), (10_300, _QUOTED), (0.00126, 0.00248, _READ)),
    ("black walnut, walnut", (0.55, _READ), (11_600, _QUOTED), (0.00190, 0.00274, _READ)),
    ("hickory", (0.72, _MEMORY), (14_900, _MEMORY), (0.00259, 0.00411, _MEMORY)),
    ("yellow-poplar, poplar", (0.42, _MEMORY), (10_900, _MEMORY), (0.00158, 0.00289, _MEMORY)),
    ("red alder, alder", (0.41, _MEMORY), (9_500, _MEMORY), (0.00151, 0.00256, _READ)),
    ("basswood", (0.37, _MEMORY), (10_100, _MEMORY), (0.00230, 0.00330, _MEMORY)),
    ("douglas fir", (0.48, _READ), (13_440, _READ), (0.00165, 0.00267, _PARTLY)),
    ("white fir", (0.39, _MEMORY), (10_300, _MEMORY), (0.00112, 0.00245, _READ)),
    ("ponderosa pine, pine", (0.40, _READ), (8_900, _READ), (0.00133, 0.00216, _MEMORY)),
    ("white pine", (0.35, _MEMORY), (8_500, _MEMORY), (0.00071, 0.00212, _MEMORY)),
    ("longleaf pine", (0.59, _READ), (13_650, _READ), (0.00176, 0.00263, _COMPUTED)),
    ("southern pine", (0.51, _MEMORY), (12_300, _MEMORY), (0.00165, 0.00259, _MEMORY)),
    ("redwood", (0.40, _MEMORY), (9_200, _MEMORY), (0.00120, 0.00205, _MEMORY)),
)  # fmt: skip

# name; density, kg/m³; modulus along the grain, N/mm²; radial and tangential change for 1 %
_OTHER_WOODS = (
    ("iroko", (640, "from memory"), (9_400, "from memory"), (0.00101, 0.00186, "as teak")),
    ("elm", (550, "from memory"), (9_200, "from memory"), (0.00144, 0.00338, "from memory")),
    ("teak", (650, "from memory"), (10_700, "Wood Handbook (2010), Table 5-5"),
     (0.00101, 0.00186, "Wood Handbook (2010), Table 13-5, quoted; radial from memory")),
    ("mahogany", (560, "from memory"), (10_300, "Wood Handbook (2010), Table 5-5, quoted"),
     (0.00172, 0.00238, "Wood Handbook (2010), Table 13-5, from memory")),
    ("spruce", (450, "from memory"), (10_000, "from memory"),
     (0.00148, 0.00263, "Wood Handbook (2010), Table 13-5, Sitka spruce, from memory")),
    ("sapele", (650, "from memory"), (12_000, "from memory"),
     (0.00158, 0.00259, "computed from shrinkages of 4.6 and 7.4 %, from memory")),
    ("rubberwood", (640, "from memory"), (9_000, "from memory"),
     (0.00078, 0.00176, "computed from shrinkages of 2.3 and 5.1 %, from memory")),
    ("solid wood", (650, _PRACTICE), (10_000, _PRACTICE),
     (0.00190, 0.00365, "as oak: on the safe side of most species")),
)  # fmt: skip

_RANGE = "Wood Handbook (2010), Table 12-1, middle of the range"
_WITHIN = "Wood Handbook (2010), Table 12-1, within the range; common practice"

# name; density, kg/m³; modulus, N/mm², alike both ways
_BOARDS = (
    ("plywood", (550, _WITHIN), (7_750, _RANGE)),
    ("MDF", (780, _WITHIN), (3_590, _RANGE)),
    ("particleboard", (680, _WITHIN), (3_450, _RANGE)),
    ("hardboard", (950, _RANGE), (4_310, _RANGE)),
    ("OSB", (650, _RANGE), (5_340, _RANGE)),
    ("veneered board", (600, _PRACTICE), (3_450, "as particleboard")),
    ("solid-core door", (600, _PRACTICE), (3_450, "as particleboard")),
)

_REST = (
    Material(
        "blockboard", 500.0, _PRACTICE, stiffness=Stiffness(7_000.0, 3_500.0, 600.0, 0.2, _PRACTICE)
    ),
    Material("hollow-core door", 265.0, f"{_PRACTICE}: 14 kg for 1981 × 762 × 35"),
    Material("framed door", 500.0, _PRACTICE),
)
"""Doors of which there is no single stiffness, and a board that has a grain."""


def _all() -> Iterator[Material]:
    for names, (gravity, read), (modulus, tested), (
        radial,
        tangential,
        measured,
    ) in _HANDBOOK_WOODS:
        density = 1000 * gravity * (1 + MOISTURE / 100)
        movement = Movement(radial, tangential, _HANDBOOK + "13-5" + measured)
        stiffness = Stiffness.of_wood(float(modulus), _HANDBOOK + "5-3" + tested)
        for name in names.split(", "):
            yield Material(name, density, _HANDBOOK + "5-3" + read, movement, stiffness)
    for name, (weighed, read), (modulus, tested), change in _OTHER_WOODS:
        stiffness = Stiffness.of_wood(float(modulus), tested)
        yield Material(name, float(weighed), read, Movement(*change), stiffness)
    for name, (weighed, read), (modulus, tested) in _BOARDS:
        stiffness = Stiffness.alike_both_ways(float(modulus), tested)
        yield Material(name, float(weighed), read, stiffness=stiffness)
    yield from _REST


MATERIALS: dict[str, Material] = {material.name: material for material in _all()}
"""Every material by the name that a job file uses."""

BOARD_WORDS = {"ply": "plywood", "chipboard": "particleboard", "lumber core": "blockboard"}
"""What makers call some boards."""


ONE_LIFTS = 25.0
"""Two people lift from about this mass, kg: the most that one strong person is asked to lift close
to the body (HSE, *Manual handling at work*, INDG143, from memory; local rules decide)."""


def lifters(mass: float) -> int:
    """Return how many people lift a mass, kg: the one rule for panel, top, leg and table.

    >>> lifters(24.0), lifters(44.0), lifters(60.0)
    (1, 2, 3)
    """
    return 1 + math.floor(mass / ONE_LIFTS + ROUNDING)
