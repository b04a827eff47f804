"""How paper and its margins are written."""

from __future__ import annotations

from dataclasses import dataclass

from ..keys.figures import ABOVE_0, Length, Range
from ..keys.kinds import Kind
from ..keys.place import Place, shown
from .asked_paper import asked_paper
from .paper import PAPERS, Margins, Paper, PaperError

WHITE = Length(Range(0.0, 80.0), "a sheet must keep room for the drawing")


@dataclass(frozen=True, slots=True)
class PaperSize(Kind):
    """Paper by its name, or by its size."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        known = ", ".join(f'`"{name}"`' for name in PAPERS)
        return f'{known}; a size: `"320 x 450"` or `[320, 450]`; any roll: `"roll 36 in"`'

    def parse(self, value: object, at: Place) -> Paper | None:
        """Return the paper."""
        if isinstance(value, Paper):
            return value
        try:
            if isinstance(value, str):
                return asked_paper(value, at.units)
            if isinstance(value, list) and len(value) == 2:
                sides = [ABOVE_0.read(side, at / i) for i, side in enumerate(value)]
                if None in sides:
                    return None
                return Paper.custom(*sides, imperial=at.units.is_imperial)
        except PaperError as error:
            at.wrong(str(error))
            return None
        at.wrong(f'{shown(value)} is no paper: write a name such as "A4", or "320 x 450"')
        return None


@dataclass(frozen=True, slots=True)
class White(Kind):
    """What stays white at the edges of a sheet: the same all round, or side by side."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        return f"{WHITE.words}; or `[left, bottom, right, top]`"

    def parse(self, value: object, at: Place) -> Margins | None:
        """Return the margins of a sheet held upright, mm."""
        if isinstance(value, Margins):
            return value
        if not isinstance(value, list):
            margin = WHITE.read(value, at)
            return None if margin is None else Margins.all(margin)
        if len(value) != 4:
            at.wrong(f"{shown(value)} is not four margins: write [left, bottom, right, top]")
            return None
        sides = [WHITE.read(side, at / i) for i, side in enumerate(value)]
        if None in sides:
            return None
        left, bottom, right, top = sides
        return Margins(left=left, bottom=bottom, right=right, top=top)
