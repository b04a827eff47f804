"""Keys of the tools and of the printed template."""

from __future__ import annotations

from ...cutting.tools import Tools
from ...template.paper import PAPERS
from ...template.wish import PORTIONS, TemplateWish
from .figures import FROM_0, Length, Range, percent
from .key import Key, Section
from .kinds import Choice, YesNo, names

_TOOLS, _TEMPLATE = Tools(), TemplateWish()

_THIN = Length(Range(0.0, 20.0), "measure a test cut")
_LEFT = Length(Range(0.0, 100.0), "give what the tool needs")
_WHITE = Length(Range(0.0, 80.0), "a sheet must keep room for the drawing")

TOOLS = Section(
    "[tools]",
    "What the top is cut with.",
    (
        Key("kerf", _THIN, "Width of the saw's cut", _TOOLS.kerf, "2.4 mm", "2.2"),
        Key(
            "guide_left",
            FROM_0,
            "From the kept side of the kerf to the left edge of the saw's base, "
            "by a test cut; nothing is assumed",
            None,
            "not used",
            "38",
        ),
        Key(
            "guide_right",
            FROM_0,
            "The same, to the right edge of the base",
            None,
            "not used",
            "131",
        ),
        Key(
            "allowance",
            _LEFT,
            "Left outside the finish line by the first cuts",
            None,
            "2 mm with a saw, 3 with a jigsaw, 5 where it is over 38 thick",
            "2",
        ),
        Key(
            "end_allowance",
            _LEFT,
            "Left outside the line by cuts across the ends",
            None,
            "as `allowance`",
            "5",
        ),
        Key(
            "curve_allowance",
            _LEFT,
            "Left outside the line by the jigsaw",
            None,
            "as `allowance`",
            "3",
        ),
        Key("jigsaw_kerf", _THIN, "Width of the jigsaw's cut", _TOOLS.jigsaw_kerf, "1.5 mm", "1.2"),
        Key(
            "facet_clear",
            _LEFT,
            "Left between a straight cut off a corner and the curve that follows",
            None,
            "what is usual",
            "5",
        ),
        Key(
            "below",
            _THIN,
            "How far the saw's teeth stand out below the work; 3 to 6 is usual",
            _TOOLS.below,
            "4 mm",
            "5",
        ),
        Key(
            "router", YesNo(), "Whether a router trims to the line", _TOOLS.router, "true", "false"
        ),
        Key(
            "bit",
            Length(Range(0.0, 100.0, above=True)),
            "Diameter of its cutter",
            _TOOLS.bit,
            "12 mm",
            "19",
        ),
        Key("nail", _THIN, "Thickness of the nails that draw an oval", _TOOLS.nail, "3 mm", "2.5"),
        Key(
            "pencil",
            _THIN,
            "Thickness of the pencil where the string runs, notched to the nail's size or bare",
            _TOOLS.pencil,
            "3 mm",
            "7",
        ),
        Key(
            "string",
            Choice(
                {"braided": 0.003, "wire": 0.0},
                {},
                {"nylon": "stretches too much to draw an oval: use braided line or wire"},
            ),
            "What draws an oval: braided line gives by 0.3 percent, wire does not",
            _TOOLS.string_stretch,
            '"braided"',
            '"wire"',
        ),
        Key(
            "string_stretch",
            percent(Range(0.0, 4.9), "use braided line or wire"),
            "By how much the string gives, in place of its kind",
            None,
            "by `string`",
            "0.3",
        ),
    ),
)

TEMPLATE = Section(
    "[template]",
    "The printed template.",
    (
        Key(
            "paper",
            Choice(names(*PAPERS)),
            "The sheets in the printer",
            _TEMPLATE.paper,
            '"A4"',
            '"Letter"',
        ),
        Key("margin", _WHITE, "What the printer leaves white", _TEMPLATE.margin, "10 mm", "12"),
        Key("overlap", _WHITE, "What neighbouring sheets share", _TEMPLATE.overlap, "12 mm", "15"),
        Key(
            "portion",
            Choice(names(*PORTIONS)),
            "How much is printed; the rest is flipped on the centrelines",
            _TEMPLATE.portion,
            '"auto"',
            '"quarter"',
        ),
    ),
)
