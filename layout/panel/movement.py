"""How much solid wood swells and shrinks with its moisture.

Between 6 and 14 % moisture a board of width D becomes D·C·ΔM wider, C its coefficient across the
growth rings (radial) or along them (tangential): *Wood Handbook* (2010), eq. 13-2 and Table 13-5.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Movement:
    """Dimensional change across the grain, as a share for each 1 % of moisture."""

    radial: float = field(metadata={"unit": "1/%"})
    tangential: float = field(metadata={"unit": "1/%"})
    """Of quarter-sawn and of flat-sawn boards."""
    source: str
