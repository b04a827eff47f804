"""What an offcut makes: the least piece that each thing is cut from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from ..geometry.alike import at_least
from ..geometry.tolerance import SAME_PLACE
from ..geometry.turned_box import TurnedBox
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


@dataclass(frozen=True, slots=True)
class _Least:
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

    Examples
    --------
    >>> from panelwright.layout.geometry.point import Point
    >>> strip = TurnedBox(Point(0, 0), 700.0, 60.0, 0.0)
    >>> [m.value for m in makes_of(strip, 26.0, Make, solid=True, food=False)]
    ['battens', 'glue blocks']
    """

    def fits(make: Make) -> bool:
        least = _LEAST[make]
        sizes = (box.length, least.length), (box.width, least.width), (thickness, least.thickness)
        large = all(at_least(has, needed, SAME_PLACE) for has, needed in sizes)
        return large and (solid or not least.solid) and (food or not least.clean)

    return tuple(make for make in asked if fits(make))
