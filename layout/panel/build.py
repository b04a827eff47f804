"""How a panel is built, what it was and what is on its faces."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from ..errors import PanelError
from ..keys.figures import FROM_0
from ..keys.key import hold, key
from ..keys.kinds import Choice
from ..keys.plane import Pairs
from .materials import BOARD_WORDS


class Was(Enum):
    """What a panel was before; the value is the name that a job file uses."""

    DOOR = "door"
    FIRE_DOOR = "fire door"
    FURNITURE = "furniture"
    KITCHEN = "kitchen"
    LABORATORY = "laboratory"
    STAGE = "stage"
    FLOOR = "floor"
    OUTDOORS = "outdoors"
    NEW = "new"
    """Board or timber that was never built in: its age is that of what is sold now."""


class Coat(Enum):
    """What is on a face or glued to its back; the value is the name that a job file uses."""

    NONE = "none"
    WAX = "wax"
    OIL = "oil"
    SHELLAC = "shellac"
    VARNISH = "varnish"
    PAINT = "paint"
    LAMINATE = "laminate"
    LINOLEUM = "linoleum"
    VINYL = "vinyl"
    BLACK_GLUE = "black glue"
    HEAT_MAT = "heat mat"
    PRESERVATIVE = "preservative"
    CREOSOTE = "creosote"


LEADED = frozenset({Coat.OIL, Coat.SHELLAC, Coat.VARNISH, Coat.PAINT})
"""Coats that were coloured, or dried, with compounds of lead."""

BACKINGS = frozenset({Coat.LINOLEUM, Coat.VINYL, Coat.BLACK_GLUE, Coat.HEAT_MAT})
"""What was made with asbestos, or stuck down with glue that was."""

TREATMENTS = frozenset({Coat.PRESERVATIVE, Coat.CREOSOTE})
"""What is meant to kill what lives in wood."""


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
        named = {"solid": "solid wood", "hollow": "hollow-core door", "framed": "framed door"}
        return named.get(self.value, self.value)

    @property
    def is_board(self) -> bool:
        """Whether its raw edge wants a lipping, and it hardly moves with the seasons."""
        return self not in (Kind.SOLID, Kind.FRAMED)


_KIND = Choice(
    {kind.value: kind for kind in Kind},
    {
        "solid wood": "solid",
        **BOARD_WORDS,
        "veneered": "veneered board",
        "solid core": "veneered board",
        "hollow core": "hollow",
        "frame and panel": "framed",
    },
)


_OF_MATERIAL = {kind.usual_material: kind for kind in Kind} | {"solid-core door": Kind.VENEERED}


@dataclass(frozen=True, slots=True)
class Build:
    """A kind of build with the widths of its frame, where it has one; else there may be none."""

    kind: Kind = key(
        Kind.SOLID,
        _KIND,
        "How it is built",
        '"veneered board"',
        usual="by the material, else solid",
        name="build",
    )
    stile: float = key(
        0.0, FROM_0, "Solid wood along its long edges, for a hollow or framed build", "100"
    )
    rail: float = key(
        0.0, FROM_0, "Solid wood along its short edges, for a hollow or framed build", "120"
    )
    between: tuple[tuple[float, float], ...] = key(
        (),
        Pairs(),
        "Rails between the ends of a framed build, like a door's lock rail: of each how far its "
        "middle lies along the panel from the end nearest to A, and its width",
        "[[965, 200]]",
        usual="none",
    )

    def __post_init__(self) -> None:
        hold(self, "panel", error=PanelError)
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

    def of(self, material: str) -> Build:
        """Return it as its material says, where no more is said than that it is solid.

        >>> Build().of("plywood").kind
        <Kind.PLYWOOD: 'plywood'>
        """
        told = _OF_MATERIAL.get(material, self.kind)
        return replace(self, kind=told) if self.kind is Kind.SOLID else self

    @property
    def has_frame(self) -> bool:
        """Whether there are rails and stiles that a cut may meet."""
        return self.kind in (Kind.HOLLOW, Kind.FRAMED)
