"""Which offcuts the maker wants to keep, and what each makes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

from ..errors import LayoutError
from ..geometry.alike import at_least
from ..geometry.tolerance import SAME_PLACE
from ..geometry.turned_box import TurnedBox
from ..keys.key import hold, key
from ..keys.kinds import Choice
from ..keys.plane import Choices
from ..panel import Coat, Panel, Was


class Make(Enum):
    """A thing that is made from an offcut; the value is the name that a job file uses."""

    SHELF = "shelf"
    BOARD = "serving board"
    BATTEN = "battens"
    LEG = "leg blanks"
    STICK = "story stick"
    CORNER = "corner blocks"
    GLUE = "glue blocks"


class _Least(NamedTuple):
    """The least piece, mm (common practice), and what it must be."""

    length: float
    width: float
    thickness: float = 0.0
    solid: bool = False
    clean: bool = False
    """Whether nothing may have been on it or spilt on it: food lies there."""


_LEAST = {
    Make.SHELF: _Least(500.0, 150.0, 15.0),
    Make.BOARD: _Least(300.0, 150.0, 12.0, solid=True, clean=True),
    Make.BATTEN: _Least(300.0, 40.0, 18.0, solid=True),
    Make.LEG: _Least(400.0, 35.0, 35.0, solid=True),
    Make.STICK: _Least(900.0, 20.0),
    Make.CORNER: _Least(90.0, 90.0, 18.0),
    Make.GLUE: _Least(60.0, 30.0, 15.0, solid=True),
}

_HARMLESS = frozenset({Coat.NONE, Coat.OIL, Coat.WAX})

_NOTHING_SPILT = frozenset({Was.FURNITURE, Was.NEW})


def fit_for_food(panel: Panel) -> bool:
    """Return whether nothing stands against food on it, as far as its past is told."""
    known = bool(panel.finish) and _HARMLESS.issuperset(panel.finish)
    return known and panel.was in _NOTHING_SPILT


def makes_of(
    box: TurnedBox, thickness: float, asked: Iterable[Make], *, solid: bool, food: bool
) -> tuple[Make, ...]:
    """Return which of the things asked for a clean rectangle of that thickness makes.

    >>> from panelwright.layout.geometry.point import Point
    >>> strip = TurnedBox(Point(0, 0), 700.0, 60.0, 0.0)
    >>> [m.value for m in makes_of(strip, 26.0, Make, solid=True, food=False)]
    ['battens', 'glue blocks']
    """

    def fits(make: Make) -> bool:
        least = _LEAST[make]
        sizes = zip((box.length, box.width, thickness), least[:3], strict=True)
        large = all(at_least(has, needed, SAME_PLACE) for has, needed in sizes)
        return large and (solid or not least.solid) and (food or not least.clean)

    return tuple(make for make in asked if fits(make))


_MAKES = Choices(Choice({make.value: make for make in Make}))


@dataclass(frozen=True, slots=True)
class OffcutWish:
    """The least clean rectangles worth keeping; a LayoutError if wider than long, or below 0."""

    makes: tuple[Make, ...] = key(
        tuple(Make),
        _MAKES,
        "What is made from offcuts: of each piece that is kept the sheet tells which of these it "
        "makes",
        '["battens", "shelf"]',
        usual="all of them",
    )
    least_length: float = 300.0
    least_width: float = 100.0
    """As a board, mm (common practice: 300 by 100 and up)."""
    leg_length: float = 400.0
    leg_side: float = 35.0
    """Solid wood that makes legs is so long, so wide and so thick, mm (common practice: the legs of
    a low table)."""
    batten_width: float = 40.0
    batten_thickness: float = 18.0
    """Solid wood that makes battens, as long as a board (common practice)."""

    def __post_init__(self) -> None:
        hold(self, "offcuts")
        if not 0 <= self.least_width <= self.least_length < math.inf:
            raise LayoutError(
                f"offcuts worth keeping are at least {self.least_length:g} long and "
                f"{self.least_width:g} mm wide: the width is from 0 to the length"
            )
