"""The legs that the maker wishes for."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from enum import Enum

from ..errors import LegsError
from ..geometry.point import Point
from ..geometry.tolerance import SAME_POINT
from ..keys.figures import ABOVE_0, FROM_0, Number, Range, count, degrees
from ..keys.key import Key, fills, hold, key
from ..keys.kinds import Choice, Only, YesNo, names
from ..keys.plane import Pair, Points
from .foot import LEG_MATERIALS, MASONRY, METALS, Foot, FootShape

SAT_ON, DINED_AT = 900.0, 480.0
"""Up to the first height somebody may sit down on the edge of a table: then the force counts at its
very edge, not where a standard presses. Nobody dines at one lower than the second: somebody sits
down on it; mm (our choice)."""

EDGE = 50.0
"""How far in from the edge the force presses, mm (ISO 7172:1988)."""

LOAD, SITTER = 600.0, 800.0
"""What presses on the edge, some 60 kg (common practice), and what somebody brings who sits down on
that of a low table, 80 kg; N."""


class Goal(Enum):
    """What makes legs the best; the value is the name that a job file uses."""

    MOST_STABLE = "most stable"
    LEAST_SAG = "sags least"
    KNEE_ROOM = "most knee room"
    EVEN_OVERHANG = "even overhang"


class Fixing(Enum):
    """How the legs are held to the top; the value is the name that a job file uses."""

    SCREWED = "screwed"
    GLUED = "glued"
    LOOSE = "loose"


class Lean(Enum):
    """Which way splayed legs lean from top to floor; the value is the name a job file uses."""

    OUTWARDS = "outwards"
    ENDS = "towards the ends"
    SIDES = "towards the sides"


PLATE = Key(
    "plate",
    Pair(ABOVE_0, one_will_do=True),
    "A steel plate on the head of each leg that takes its screws",
    None,
    "none",
    "[90, 90]",
)


@dataclass(frozen=True, slots=True)
class FixingPlate:
    """A metal plate on the head of a leg that takes its screws."""

    length: float = field(metadata=fills(ABOVE_0, in_file=False, also=(PLATE,)))
    width: float = field(metadata=fills(ABOVE_0, in_file=False))
    """Along and across the top, mm."""
    thickness: float = key(4.0, ABOVE_0, "Its thickness", "5", name="plate_thickness")
    """mm (common practice)."""

    def __post_init__(self) -> None:
        hold(self, "legs", error=LegsError)

    @property
    def mass(self) -> float:
        """Of steel, kg."""
        return METALS["steel"].mass(self.length * self.width, self.thickness)

    @property
    def form(self) -> Foot:
        """What it covers, as a foot of its sizes does."""
        return Foot(FootShape.RECTANGULAR, self.length, self.width)


COUNTS = (3, 4, 5, 6, 8)
"""How many legs are compared where the maker names no number."""

USUAL_DENSITY = 650.0
"""Of legs of which nothing is said, kg/m³: solid wood."""

INSET = Key(
    "inset",
    FROM_0,
    "The same, all round",
    None,
    "what is usual for the size of the top, or proposed",
    "80",
)

TABLE_HEIGHT = Key(
    "table_height",
    ABOVE_0,
    "From the floor to the upper face, in place of `height`: the legs follow from it, the top and "
    "the plate",
    None,
    "from `height`",
    "740",
)


@dataclass(frozen=True, slots=True)
class LegsWish:
    """How many legs, of what kind, and where; a LegsError if a figure is out of its limits."""

    count: int = key(
        4,
        count(2, 100, "fewer than 3 do not stand, but for 2 slabs or trestles"),
        "How many, placed by inset, or by `goal` where that is given",
        "6",
        usual="the best of `counts`, or as many as `at` places",
        depends=True,
    )
    foot: Foot = field(  # frozen, so it may be shared
        default=Foot(FootShape.SQUARE, 60.0, 60.0),
        metadata=fills(Only(Foot, "give a foot, such as Foot.round(80)"), in_file=False),
    )
    at: tuple[Point, ...] = key(
        (),
        Points(2),
        "The middle of each leg's head, from the centre of the top, x along its length",
        "[[-500, -200], [500, -200], [0, 250]]",
        usual="by inset, or proposed",
    )
    inset_side: float | None = key(
        None,
        FROM_0,
        "From the top's edge to the outside of a foot, at the long sides only",
        "80",
        usual="as `inset`",
    )
    inset_end: float | None = key(
        None, FROM_0, "The same, at the ends only", "250", usual="as `inset`", also=(INSET,)
    )
    height: float = key(
        700.0,
        ABOVE_0,
        "From the floor to the underside of the top, plate and all",
        "690",
        also=(TABLE_HEIGHT,),
    )
    mass: float | None = key(
        None, Number("kg", Range(0, 1000)), "Of one leg", "2.5", usual="from its size"
    )
    density: float = key(
        USUAL_DENSITY, Number("kg/m³", Range(0, 25_000, above=True)), "Of the legs", "7850"
    )
    fixing: Fixing = key(
        Fixing.SCREWED,
        Choice({fixing.value: fixing for fixing in Fixing}, {"screws": "screwed", "glue": "glued"}),
        "How they are held to the top; on a loose one nothing but its own weight holds it down",
        '"loose"',
        usual='"screwed"; "loose" on brick, fired clay and concrete',
    )
    load: float | None = key(
        None,
        Number("N", Range(0, 100_000)),
        "Downward force at the edge that the table is held against: at the very edge of one up to "
        f"{SAT_ON:.0f} mm high, where somebody may sit down, else {EDGE:.0f} mm inside it; who "
        "sits on it brings 600 to 1000",
        "800",
        usual=f"{LOAD:.0f}, or {SITTER:.0f} where the table is lower than {DINED_AT:.0f} mm",
    )
    seated: bool | None = key(
        None,
        YesNo(),
        "Whether people sit at it: then a long top overhangs more at its ends, for their knees",
        "false",
        usual=f"true, false where the table is lower than {DINED_AT:.0f} mm",
    )
    """Both are None until a job knows how high its table stands."""
    plate: FixingPlate | None = key(
        None, Only(FixingPlate, "give FixingPlate(length, width)"), in_file=False
    )
    """On the head of each leg."""
    splay_deg: float = key(
        0.0,
        degrees(0, 30, "a leg leans no farther"),
        "How far the legs lean from upright, so that the feet land elsewhere than their heads",
        "10",
        name="splay",
    )
    lean: Lean = key(
        Lean.OUTWARDS,
        Choice(
            {lean.value: lean for lean in Lean},
            {"ends": "towards the ends", "sides": "towards the sides"},
        ),
        "Which way splayed legs lean: away from the middle of the top, or along or across it only",
        '"towards the ends"',
    )
    material: str = key(
        "",
        Choice(
            names(*LEG_MATERIALS),
            {"clay": "fired clay", "terracotta": "fired clay", "iron": "steel"},
            described="a material, listed below",
        ),
        "Of the legs, in place of a density",
        '"beech"',
        usual="none",
    )
    keep_in: float = key(0.0, FROM_0, in_file=False)
    """Nothing is fixed nearer to the edge of the top than this, mm: a bevel under it."""

    def __post_init__(self) -> None:
        hold(self, "legs", error=LegsError)
        if self.material and self.density == USUAL_DENSITY:
            object.__setattr__(self, "density", LEG_MATERIALS[self.material].density)
        if self.is_masonry and self.fixing is Fixing.SCREWED:
            object.__setattr__(self, "fixing", Fixing.LOOSE)
        count = len(self.at) or self.count
        least = 2 if self.foot.shape is FootShape.SLAB else 3
        if count < least:
            raise LegsError(f"{count} legs do not stand: {least} at least")
        if self.leg_length <= 0:
            raise LegsError(f"a leg {self.leg_length:g} mm long is not above 0")

    def under(self, thickness: float, keep_in: float) -> LegsWish:
        """Return the legs under a top so thick, fixed no nearer to its edge than that, mm."""
        low = self.height + thickness < DINED_AT
        return replace(
            self,
            load=(SITTER if low else LOAD) if self.load is None else self.load,
            seated=not low if self.seated is None else self.seated,
            keep_in=max(self.keep_in, keep_in),
        )

    @property
    def pressed(self) -> float:
        """Downward force at the edge that the table is held against, N."""
        return LOAD if self.load is None else self.load

    @property
    def seats(self) -> bool:
        """Whether people sit at it."""
        return self.seated is not False

    @property
    def splay(self) -> float:
        """How far a leg leans from upright, radians."""
        return math.radians(self.splay_deg)

    @property
    def is_masonry(self) -> bool:
        """Whether the legs are brick, fired clay or concrete."""
        return self.material in MASONRY

    @property
    def leg_length(self) -> float:
        """Along the leg, from the floor to the plate or the top, mm: longer where it is splayed."""
        rest = self.height - (self.plate.thickness if self.plate else 0.0)
        return rest / math.cos(self.splay)

    @property
    def leg_mass(self) -> float:
        """Of one leg with its plate, kg."""
        if self.mass is not None:
            return self.mass
        plate = self.plate.mass if self.plate else 0.0
        return self.foot.mass(self.leg_length, self.density) + plate

    @property
    def on_top(self) -> Foot:
        """What holds both foot and plate, if one is longer and the other wider."""
        if self.plate is None or (self.foot.is_round and self.plate.length < self.foot.length):
            return self.foot
        return Foot(
            FootShape.RECTANGULAR,
            max(self.plate.length, self.foot.length),
            max(self.plate.width, self.foot.width),
        )

    def on_floor(self, middle: Point) -> Point:
        """Return where the foot of a leg stands whose head is at `middle`."""
        x = 0.0 if self.lean is Lean.SIDES else middle.x
        way = Point(x, 0.0 if self.lean is Lean.ENDS else middle.y)
        if not self.splay or way.norm < SAME_POINT:
            return middle
        return middle + way.unit() * (self.height * math.tan(self.splay))
