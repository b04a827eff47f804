"""Defects: what is wrong with a panel where, and what it spoils."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING

from ..errors import PanelError
from ..geometry import ORIGIN, Bounds, Path, Placement, Point, Region, circle
from ..geometry.stepping import Side
from ..geometry.tolerance import CHORD
from ..keys.figures import ABOVE_0, FROM_0
from ..keys.key import fills, hold, key, take
from ..keys.kinds import Choice, Text
from ..keys.plane import Boundary, Choices, Pair

if TYPE_CHECKING:
    from .told import Told


class Spoils(Enum):
    """What a defect spoils; the value is the name that a job file uses."""

    SHOWING = "showing"
    """It must not be seen: it lies outside the top."""
    CUTTING = "cutting"
    """No blade, bit or screw may cross it, and it must not open into the finished edge; it may lie
    wholly inside the top or wholly outside."""
    BEARING = "bearing"
    """No leg or fixing may stand there."""


class Face(Enum):
    """From which face a defect is seen, the panel lying show face up."""

    UP = "up"
    DOWN = "down"
    THROUGH = "through"


class Mend(Enum):
    """How a maker means to mend a defect; the value is the name that a job file uses."""

    PLUG = "plug"
    KEY = "key"
    PATCH = "patch"
    FILLER = "filler"
    RESIN = "resin"
    SAND = "sand"

    @property
    def must_stay_whole(self) -> bool:
        """Whether the edge of the top may not run through the mend.

        A plug, a patch and filler break out there; keys and resin may be cut, and where wood is
        sanded there is nothing to cut.
        """
        return self in (Mend.PLUG, Mend.PATCH, Mend.FILLER)

    @property
    def bears(self) -> bool:
        """Whether the spot bears a leg again; filler and resin hold no screw (common practice)."""
        return self not in (Mend.FILLER, Mend.RESIN)


SPOILS = Choices(Choice({spoilt.value: spoilt for spoilt in Spoils}), one_will_do=True)
FACE = Choice({face.value: face for face in Face}, {"both": "through"})
MEND = Choice(
    {mend.value: mend for mend in Mend},
    {
        **dict.fromkeys(("keys", "butterfly", "bow-tie"), "key"),
        "fill": "filler",
        "epoxy": "resin",
        "sanding": "sand",
    },
)
"""How a job file writes them, and a program may."""


@dataclass(frozen=True, slots=True)
class Defect:
    """One defect.

    Raises
    ------
    PanelError
        If a length is out of its limits.
    """

    name: str = field(metadata=fills(Text(), in_file=False))
    """As the maker calls it, unique on its panel."""
    place: Path = field(metadata=fills(Boundary(""), in_file=False))
    """Its closed boundary on the panel, anticlockwise, mm."""
    spoils: frozenset[Spoils] = field(
        metadata=fills(replace(SPOILS, into=frozenset), in_file=False)
    )
    """None of a sound glue line, and of a stain that the finish alone has: it is only told."""
    clear: float = key(0.0, FROM_0, in_file=False)
    """How far the top, the cut or the foot stays away from it, mm."""
    face: Face = key(Face.THROUGH, FACE, in_file=False)
    depth: float | None = key(None, ABOVE_0, in_file=False)
    """How deep it goes, mm, where it does not go through; None where nobody knows."""
    mend: Mend | None = key(None, MEND, in_file=False)
    """How it is mended; then it may lie inside the top, and a leg may stand where it bears."""
    drawn_out: float = key(0.0, FROM_0, in_file=False)
    """How far its place runs on past each end of what can be seen, mm."""
    told: Told | None = field(default=None, metadata={"json": False}, repr=False, compare=False)
    blades: float | None = field(default=None, metadata={"json": False}, repr=False, compare=False)
    """What was told of it, where it was made from that; and what blades take outside the line, mm,
    that it is kept clear by: None until it is put on a panel."""

    def __post_init__(self) -> None:
        hold(self, str(self.name), error=PanelError)

    @property
    def shows(self) -> bool:
        """Whether it must lie outside the top: it would be seen, and nobody mends it."""
        return Spoils.SHOWING in self.spoils and self.mend is None

    def reach(self, extra: float = 0.0) -> Region:
        """Return a polygon that contains the defect, its clearance and `extra` mm round it."""
        return _polygon(self.place, "outside", self.chord, self.clear + extra)

    def heart(self, extra: float = 0.0) -> Region:
        """Return a polygon that lies within the defect, its clearance and `extra` mm round it."""
        return _polygon(self.place, "inside", self.chord, self.clear + extra)

    @property
    def extent(self) -> Region:
        """The defect itself, without clearance."""
        return _polygon(self.place, "outside", self.chord, 0.0)

    @property
    def chord(self) -> float:
        """How far polygons of it may lie from its curves, mm: of metres less finely than a knot."""
        box = self.place.bounds
        return max(CHORD, _FINE * max(box.width, box.height))


_FINE = 2e-6
"""Share of its size that the outline of a large defect is followed to."""


@lru_cache(maxsize=1024)
def _polygon(place: Path, side: Side, chord: float, by: float) -> Region:
    """Return a place grown, on one side of the true one; many ask for the same."""
    return Region.of(place, side, chord).grown(by, around=side == "outside")


def round_place(at: Point, diameter: float) -> Path:
    """Return the boundary of a round defect.

    Raises
    ------
    PanelError
        If the diameter is not above 0.
    """
    return circle(at, take(ABOVE_0, diameter, "diameter", error=PanelError) / 2)


def rectangular_place(at: Point, length: float, width: float, turn: float = 0.0) -> Path:
    """Return the boundary of a rectangular defect with its middle at `at`.

    Raises
    ------
    PanelError
        If a size is not above 0.
    """
    length, width = take(Pair(ABOVE_0), (length, width), "size", error=PanelError)
    box = Bounds.about(ORIGIN, length / 2, width / 2)
    return Path.round_box(box).placed(Placement(at, turn))


def polygonal_place(points: tuple[Point, ...]) -> Path:
    """Return the boundary of a defect given by its corners, whichever way they run.

    Raises
    ------
    GeometryError
        If there are fewer than three corners or the outline crosses itself.
    """
    path = Path.through(points, closed=True)
    Region.of(path)
    return path if path.area > 0 else path.reversed()
