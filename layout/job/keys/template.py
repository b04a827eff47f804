"""Keys of the printed template, and the kinds of its paper and its margins."""

from __future__ import annotations

from dataclasses import dataclass

from ...keys.figures import ABOVE_0, Length, Range
from ...keys.key import Key, Section
from ...keys.kinds import Choice, Kind, Text, YesNo, names
from ...keys.place import Place, shown
from ...template.asked_paper import asked_paper
from ...template.paper import PAPERS, Margins, Paper, PaperError
from ...template.wish import PORTIONS, RELEASES, TemplateWish

_WISH = TemplateWish()

_WHITE = Length(Range(0.0, 80.0), "a sheet must keep room for the drawing")


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
        return f"{_WHITE.words}; or `[left, bottom, right, top]`"

    def parse(self, value: object, at: Place) -> Margins | None:
        """Return the margins of a sheet held upright, mm."""
        if not isinstance(value, list):
            margin = _WHITE.read(value, at)
            return None if margin is None else Margins.all(margin)
        if len(value) != 4:
            at.wrong(f"{shown(value)} is not four margins: write [left, bottom, right, top]")
            return None
        sides = [_WHITE.read(side, at / i) for i, side in enumerate(value)]
        if None in sides:
            return None
        left, bottom, right, top = sides
        return Margins(left=left, bottom=bottom, right=right, top=top)


TEMPLATE = Section(
    "[template]",
    "The printed template. `panelwright template` takes the same choices on the command line.",
    (
        Key(
            "paper",
            PaperSize(),
            "The sheets in the printer",
            _WISH.paper,
            '"A4"; "Letter" where units are inches or feet',
            '"Letter"',
        ),
        Key(
            "margin",
            White(),
            "What the printer leaves white, on a sheet held upright",
            _WISH.margins,
            "10 mm",
            "[6, 15, 6, 6]",
        ),
        Key("overlap", _WHITE, "What neighbouring sheets share", _WISH.overlap, "12 mm", "15"),
        Key(
            "portion",
            Choice(names(*PORTIONS)),
            "How much is printed; the rest is flipped on the centrelines. `auto` takes the one of "
            "whole, half and quarter with the fewest sheets; of a top with few curves only those, "
            "and no sheet for straight lines alone",
            _WISH.portion,
            '"auto"',
            '"quarter"',
        ),
        Key(
            "mirrored",
            YesNo(),
            "Whether it is drawn as seen from the underside",
            _WISH.mirrored,
            "the face that the work is marked on",
            "false",
        ),
        Key(
            "ordinates",
            YesNo(),
            "Whether the outline is given in figures as well",
            _WISH.ordinates,
            "true",
            "false",
        ),
        Key(
            "dxf_release",
            Choice(names(*RELEASES)),
            "Release of the DXF file: R12 for what reads nothing newer",
            _WISH.dxf_release,
            '"R2010"',
            '"R12"',
        ),
        Key(
            "printer",
            Text(),
            "The printer, by the name under which it was measured with "
            "`panelwright template --calibrate`",
            _WISH.printer,
            "nothing is corrected",
            '"hall"',
        ),
    ),
)
