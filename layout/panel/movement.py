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


_READ = "Wood Handbook (2010), Table 13-5"
_FIGURES = {
    "red oak": (0.00158, 0.00369, _READ),
    "white oak": (0.00180, 0.00365, _READ),
    "oak": (0.00180, 0.00365, _READ),
    "sugar maple": (0.00165, 0.00353, _READ),
    "maple": (0.00165, 0.00353, _READ),
    "beech": (0.00190, 0.00431, _READ),
    "ash": (0.00169, 0.00274, _READ),
    "white ash": (0.00169, 0.00274, _READ),
    "walnut": (0.00190, 0.00274, _READ),
    "black walnut": (0.00190, 0.00274, _READ),
    "cherry": (0.00126, 0.00248, _READ),
    "black cherry": (0.00126, 0.00248, _READ),
    "birch": (0.00256, 0.00338, _READ),
    "yellow birch": (0.00256, 0.00338, _READ),
    "teak": (0.00101, 0.00186, _READ + ", quoted; radial from memory"),
    "iroko": (0.00101, 0.00186, "as teak"),
    "douglas fir": (0.00165, 0.00267, _READ + ", quoted; radial computed"),
    "pine": (0.00133, 0.00216, "from memory"),
    "ponderosa pine": (0.00133, 0.00216, "from memory"),
    "elm": (0.00144, 0.00338, "from memory"),
    "solid wood": (0.00190, 0.00365, "as oak: on the safe side of most species"),
}

MOVEMENT: dict[str, Movement] = {
    name: Movement(radial, tangential, source)
    for name, (radial, tangential, source) in _FIGURES.items()
}
"""By the name of the material."""
