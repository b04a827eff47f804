"""What legs are made of: wood and board as tops, metal, masonry."""

from __future__ import annotations

from ..panel.materials import MATERIALS, Material

_MEMORY = "from memory"

METALS = {
    "steel": Material("steel", 7850.0, _MEMORY),
    "aluminium": Material("aluminium", 2700.0, _MEMORY),
}
"""By the name that a job file uses."""

MASONRY = {
    "concrete": Material("concrete", 2350.0, "from memory: 2300 to 2400"),
    "brick": Material("brick", 1900.0, "from memory: 1800 to 2000"),
    "fired clay": Material("fired clay", 1900.0, "from memory: 1800 to 2000"),
}
"""What takes no wood screw, is hard and uneven on top, and weighs much."""

LEG_MATERIALS: dict[str, Material] = {**MATERIALS, **METALS, **MASONRY}
"""Every material of legs by the name that a job file uses."""


def is_wooden(name: str) -> bool:
    """Return whether legs of this material are wood or board; so are legs of unnamed material."""
    return name not in METALS and name not in MASONRY
