"""What the maker asks of the table on its legs, besides where they stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..errors import LegsError
from ..keys.figures import ABOVE_0, Counts, Length, Number, Range, count
from ..keys.key import hold, key
from ..keys.kinds import Choice, Spelt, YesNo
from ..keys.place import Place
from ..keys.plane import Pair
from ..units import Units
from .fixings import SCREW, Glue, Screw
from .foot import is_wooden
from .movement import SWING
from .sag import Loads, creep_of
from .seating import PLACE, PLACE_IMPERIAL
from .wish import COUNTS, Goal


@dataclass(frozen=True, slots=True)
class ScrewPair(Pair):
    """A screw by its diameter and its length, or of a program the screw itself."""

    def _parse(self, value: object, at: Place) -> Any:  # noqa: ANN401 - a pair or a screw
        if isinstance(value, Screw):
            return value
        pair = Pair._parse(self, value, at)
        return Screw(*pair) if at.held and pair is not None else pair

    def spelt(self, held: Screw, units: Units) -> Spelt:
        """Return the pair."""
        return Pair.spelt(self, (held.diameter, held.length), units)


@dataclass(frozen=True, slots=True)
class TableWish:
    """What the maker asks of the table as a whole."""

    goal: Goal = key(
        Goal.MOST_STABLE,
        Choice(
            {goal.value: goal for goal in Goal},
            {"firmest": "most stable", "stands firmest": "most stable", "knees": "most knee room"},
        ),
        "What makes legs the best. Whatever it is, the load is held first if any stance holds it",
        '"most knee room"',
        usual='"most stable" where `count` is left out',
        depends=True,
    )
    counts: tuple[int, ...] = key(
        (),
        Counts(count(2, 100, "fewer than 3 do not stand, but for 2 slabs or trestles")),
        "Where `count` is left out: how many are compared",
        "[4, 6]",
        usual=", ".join(str(n) for n in COUNTS) + "; 2 of slabs",
        depends=True,
    )
    """Empty where the legs stand as they are wished."""
    long_term: float = key(
        Loads().long_term,
        Number("kg/m²", Range(0, 10_000)),
        "What lies on the table for years, for its sag",
        "50",
        name="spread",
        unit="kg/m2",
    )
    point: float = key(
        Loads().point,
        Number("N", Range(0, 100_000)),
        "What presses on it for a while at the worst place, for its sag",
        "800",
        name="press",
        unit="N",
    )
    creep: float | None = key(
        None,
        Number("", Range(1, 10)),
        "How many times its first sag a lasting load makes in the end",
        "1.8",
        usual="by material, EN 1995-1-1 table 3.2: 1.6 for solid wood, 1.8 for plywood and "
        "blockboard, 3.25 for other boards",
        unit="",
    )
    place: float = key(
        PLACE,
        Length(Range(200.0, 2000.0), "a diner takes about 600 mm, or 24 in, of the edge"),
        "Edge that a diner takes",
        "650",
        usual=f"{PLACE:g} mm, or 24 in",
        depends=True,
    )
    screw: Screw | None = key(
        None,
        ScrewPair(ABOVE_0, form=SCREW.form),
        "The screws; one that comes through the top is refused",
        "[5, 30]",
        usual="the longest 5 mm one that is sold and leaves enough under its tip",
    )
    holes: tuple[float, float] | None = key(
        None,
        Pair(ABOVE_0, one_will_do=True, form="[along, across]"),
        "How far its outer holes lie apart, middle to middle",
        "[65, 65]",
        usual="12 mm inside its edges",
        name="plate_holes",
    )
    glue: Glue = key(
        Glue.RIGID,
        Choice({glue.value: glue for glue in Glue}, {"elastic": "flexible"}),
        "What holds legs that are glued: wood glue is rigid; a flexible construction adhesive lets "
        "solid wood move, holds metal and masonry, and takes days",
        '"flexible"',
        usual='"rigid" for wood, "flexible" for other legs',
        depends=True,
    )
    framed: bool = key(
        False,
        YesNo(),
        "Whether an apron or rails join the legs: then all fixings of a solid top are slotted but "
        "one row",
        "true",
        name="apron",
    )
    swing: float = key(SWING, Number("percent", Range(0, 30)), unit="%", in_file=False)
    """Of the wood's moisture over a year, %."""
    quartered: bool = key(False, YesNo(), in_file=False)
    """Whether solid wood is sawn on the quarter."""

    def __post_init__(self) -> None:
        hold(self, "legs", error=LegsError)
        if self.holes is not None and len(self.holes) == 1:
            object.__setattr__(self, "holes", self.holes * 2)

    @classmethod
    def usual(cls, *, imperial: bool, material: str = "") -> TableWish:
        """Return what is asked where nobody says: a diner takes a round figure on either tape."""
        glue = Glue.RIGID if is_wooden(material) else Glue.FLEXIBLE
        return cls(place=PLACE_IMPERIAL if imperial else PLACE, glue=glue)

    def loads(self, material: str) -> Loads:
        """Return what a top of a material of that name has to carry."""
        return Loads(
            self.long_term, self.point, creep_of(material) if self.creep is None else self.creep
        )
