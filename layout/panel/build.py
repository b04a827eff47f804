"""How a panel is built: what lies under its face decides what a cut lays bare."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..errors import PanelError


class Kind(Enum):
    """The builds; the value is the name that a job file uses."""

    SOLID = "solid"
    PLYWOOD = "plywood"
    MDF = "MDF"
    PARTICLEBOARD = "particleboard"
    BLOCKBOARD = "blockboard"
    VENEERED = "veneered board"
    HOLLOW = "hollow"
    FRAMED = "framed"

    @property
    def usual_material(self) -> str:
        """The material to weigh it by where the maker names none."""
        return _USUAL[self]

    @property
    def is_board(self) -> bool:
        """Whether its raw edge wants a lipping, and it hardly moves with the seasons."""
        return self not in (Kind.SOLID, Kind.FRAMED)


_USUAL = {
    Kind.SOLID: "solid wood",
    Kind.PLYWOOD: "plywood",
    Kind.MDF: "MDF",
    Kind.PARTICLEBOARD: "particleboard",
    Kind.BLOCKBOARD: "blockboard",
    Kind.VENEERED: "veneered board",
    Kind.HOLLOW: "hollow-core door",
    Kind.FRAMED: "framed door",
}


@dataclass(frozen=True, slots=True)
class Build:
    """A kind of build with the widths of its frame, where it has one.

    Raises
    ------
    PanelError
        If a width is negative, or given for a build without a frame.
    """

    kind: Kind = Kind.SOLID
    stile: float = 0.0
    rail: float = 0.0
    """Width of the solid wood along the long edges and along the short ones, mm; only for hollow
    and framed panels (for a hollow one: its solid rim)."""
    between: tuple[tuple[float, float], ...] = ()
    """Rails between those at the ends, like a door's lock rail: from the left, or lower, end of the
    panel to the middle of each, and its width, mm; only for framed panels."""

    def __post_init__(self) -> None:
        if min(self.stile, self.rail) < 0:
            raise PanelError(f"a rail or stile of {min(self.stile, self.rail):g} mm is below 0")
        if (self.stile or self.rail) and not self.has_frame:
            raise PanelError(
                f"a {self.kind.value} panel has no rails or stiles: leave the widths out, "
                "or call the build hollow or framed"
            )
        if self.between and (self.kind is not Kind.FRAMED or not (self.stile and self.rail)):
            raise PanelError(
                f"a {self.kind.value} panel has no rails between its ends, or the widths of its "
                "stiles and rails are missing: give them too"
            )
        if any(middle <= 0 or width <= 0 for middle, width in self.between):
            raise PanelError("a rail between the ends lies above 0 and is wider than 0")

    @property
    def has_frame(self) -> bool:
        """Whether there are rails and stiles that a cut may meet."""
        return self.kind in (Kind.HOLLOW, Kind.FRAMED)
