"""Keys of the tools."""

from __future__ import annotations

from ...cutting.tools import Tools
from ...marking.method import ALL_TOOLS, HandTool
from ...panel.defect import Face
from .figures import FROM_0, Length, Range, percent
from .key import Key, Section
from .kinds import Choice, YesNo
from .plane import Choices

_TOOLS = Tools()

_THIN = Length(Range(0.0, 20.0), "measure a test cut")
_LEFT = Length(Range(0.0, 100.0), "give what the tool needs")

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
            "`curve_allowance`, else 2 mm where the top is straight all round, 3 where it is not, "
            "and 5 where it is over 38 thick",
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
            "corner_clear",
            _LEFT,
            "Left between a straight cut off a corner and the curve that follows; never less than "
            "the jigsaw leaves",
            None,
            "what the jigsaw leaves",
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
        Key(
            "follower",
            Length(Range(0.0, 100.0, above=True)),
            "Diameter of the guide bush or bearing that follows a template; it decides how far "
            "inside the line the template stands",
            None,
            "a bearing of the bit's own size",
            "24",
        ),
        Key(
            "router_base",
            Length(Range(0.0, 400.0, above=True)),
            "Diameter of the router's base, by which a straightedge is set; nothing is assumed",
            None,
            "not measured",
            "160",
        ),
        Key(
            "pass_depth",
            Length(Range(0.0, 100.0, above=True)),
            "How deep the router goes at once",
            None,
            "10 mm where 5 or less stands outside the line, else 6",
            "8",
        ),
        Key(
            "show_face",
            Choice({"up": Face.UP, "down": Face.DOWN}),
            "How the show face lies while the top is marked and sawn: a hand-held saw chips the "
            "face that lies up",
            None,
            'by build: `"down"`; `"up"` for a slab whose line is struck on that face',
            '"up"',
        ),
        Key(
            "draw_with",
            Choices(
                Choice(
                    {
                        "string": HandTool.STRING,
                        "bar": HandTool.BAR,
                        "router": HandTool.ROUTER,
                        "rod": HandTool.ROD,
                        "square": HandTool.SQUARE,
                        "lath": HandTool.LATH,
                        "template": HandTool.TEMPLATE,
                    },
                    {"trammel": "bar", "beam compass": "bar", "nails": "string"},
                ),
                one_will_do=True,
            ),
            "What there is to draw curves with: nails and string, a trammel bar, a router on a "
            "trammel, a rod with two pins, a framing square, a thin lath, a corner template",
            tuple(sorted(ALL_TOOLS, key=lambda tool: tool.value)),
            "all of them",
            '["string", "rod"]',
        ),
        Key(
            "tongue",
            Length(Range(0.0, 2000.0, above=True)),
            "Tongue of the framing square, its shorter arm",
            _TOOLS.tongue,
            "406.4 mm",
            "300",
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
