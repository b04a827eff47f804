"""What a leg is: its shape on the top, its section, its weight, its material."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from ..errors import LegsError
from ..geometry import ORIGIN, Bounds, Path, Point, circle
from ..keys.figures import ABOVE_0, FROM_0
from ..keys.key import Key, fills, hold, key
from ..keys.kinds import Choice
from ..keys.plane import Pair
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


class FootShape(Enum):
    """What a foot looks like from above; the value is the name that a job file uses."""

    ROUND = "round"
    SQUARE = "square"
    RECTANGULAR = "rectangular"
    HEXAGONAL = "hexagonal"
    RING = "ring"
    TUBE = "square tube"
    SLAB = "slab"

    @property
    def has_two_sizes(self) -> bool:
        """Whether its length and its width may differ."""
        return self in (FootShape.RECTANGULAR, FootShape.TUBE, FootShape.SLAB)

    @property
    def has_wall(self) -> bool:
        """Whether it is hollow."""
        return self in (FootShape.RING, FootShape.TUBE)


_SHAPE = Choice(
    {shape.value: shape for shape in FootShape},
    {
        **dict.fromkeys(("hollow", "tube", "pipe"), "ring"),
        **dict.fromkeys(("rectangular tube", "box section"), "square tube"),
        "hexagon": "hexagonal",
        **dict.fromkeys(("circular", "circle"), "round"),
        **dict.fromkeys(("rectangle", "oblong", "block"), "rectangular"),
        "trestle": "slab",
    },
    {
        "hairpin": 'stands on thin rods: write "round" with the size of what touches the floor, '
        "and give the plate on its head as plate = [length, width]"
    },
)

SIZE = Key(
    "size",
    Pair(ABOVE_0, one_will_do=True),
    "Side or diameter of a foot, of a hexagonal one across its flats; for a rectangular one, a "
    "tube or a slab its length along the top and its width across it",
    (60.0,),
    "60 mm",
    "70",
    ("diameter", "length", "width"),
)


@dataclass(frozen=True, slots=True)
class Foot:
    """The print of one leg under the top; a `LegsError` tells of sizes or a wall that cannot be."""

    shape: FootShape = field(
        metadata=fills(
            _SHAPE,
            "What a foot looks like from above; a slab or trestle carries the top along its "
            "length, and two of them stand",
            '"round"',
            name="foot",
            default=FootShape.SQUARE,
        )
    )
    """A slab is a leg as wide as the top or nearly: two of them stand."""
    length: float = field(metadata=fills(ABOVE_0, in_file=False, also=(SIZE,)))
    width: float = field(metadata=fills(ABOVE_0, in_file=False))
    """Along and across the top, mm; the diameter, side or width across flats where both are one."""
    wall: float = key(
        0.0,
        FROM_0,
        "Thickness of the wall of a ring or a tube; must be given for one",
        "3",
        usual="solid",
        depends=True,
    )
    """mm; 0 for a solid foot."""

    def __post_init__(self) -> None:
        hold(self, "legs", error=LegsError)
        if not self.shape.has_two_sizes and self.length != self.width:
            raise LegsError(
                f"a {self.shape.value} foot is as long as wide, not {self.length:g} by "
                f"{self.width:g} mm: call it rectangular"
            )
        if self.shape.has_wall and not 0 < self.wall < self.thin / 2:
            raise LegsError(
                f"a {self.shape.value} {self.thin:g} mm wide with a wall of {self.wall:g} mm: "
                "the wall is above 0 and below half the width"
            )

    @classmethod
    def round(cls, diameter: float) -> Foot:
        """Return a round foot of this diameter, mm."""
        return cls(FootShape.ROUND, diameter, diameter)

    @classmethod
    def square(cls, side: float) -> Foot:
        """Return a square foot of this side, mm."""
        return cls(FootShape.SQUARE, side, side)

    @classmethod
    def ring(cls, diameter: float, wall: float) -> Foot:
        """Return a hollow round foot, mm."""
        return cls(FootShape.RING, diameter, diameter, wall)

    @property
    def thin(self) -> float:
        """The lesser of its sizes, mm."""
        return min(self.length, self.width)

    @property
    def is_round(self) -> bool:
        """Whether its outside is a circle."""
        return self.shape in (FootShape.ROUND, FootShape.RING)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners from its middle, anticlockwise; a hexagon has two flats along the top."""
        if self.is_round:
            return ()
        if self.shape is FootShape.HEXAGONAL:
            reach = self.width / math.sqrt(3)
            return tuple(Point.polar(reach, math.pi / 3 * k) for k in (4, 5, 0, 1, 2, 3))
        return Bounds.about(ORIGIN, self.length / 2, self.width / 2).corners

    @property
    def section(self) -> float:
        """The area that carries, mm²: of a ring or a tube only its wall."""
        if self.shape is FootShape.HEXAGONAL:
            return math.sqrt(3) / 2 * self.width**2
        share = math.pi / 4 if self.is_round else 1.0
        return share * self.length * self.width - self.free

    @property
    def inside(self) -> tuple[float, float]:
        """Length and width of what a wall leaves free, mm; of a solid foot its own."""
        return self.length - 2 * self.wall, self.width - 2 * self.wall

    @property
    def free(self) -> float:
        """The area inside a wall, mm²; 0 of a solid foot."""
        share = math.pi / 4 if self.is_round else 1.0
        return share * self.inside[0] * self.inside[1] if self.shape.has_wall else 0.0

    def mass(self, height: float, density: float) -> float:
        """Return the mass, kg, of a leg of this section, `height` mm, `density` kg/m³."""
        return self.section * height * density * 1e-9

    def outside(self, middle: Point = ORIGIN) -> Path:
        """Return the outside of its print about `middle`, anticlockwise."""
        if self.is_round:
            return circle(middle, self.length / 2)
        return Path.through([middle + corner for corner in self.corners], closed=True)

    def hollow(self, middle: Point = ORIGIN) -> Path | None:
        """Return the inside of the wall about `middle`; None for a solid foot."""
        if not self.shape.has_wall:
            return None
        if self.is_round:
            return circle(middle, self.length / 2 - self.wall)
        x, y = self.inside
        return Path.round_box(Bounds.about(middle, x / 2, y / 2))

    def reach(self, direction: float) -> float:
        """Return how far it reaches from its middle towards `direction`, radians; mm."""
        if self.is_round:
            return self.length / 2
        way = Point.polar(1.0, direction)
        return max(corner.dot(way) for corner in self.corners)

    def gap(self, one: Point, other: Point) -> float:
        """Return what is clear between two with these middles, mm; below 0 where they overlap."""
        return one.distance_to(other) - 2 * self.reach((other - one).angle)
