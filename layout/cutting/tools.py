"""What the maker cuts with, and the figures of those tools that the sheets need."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..geometry.tolerance import SIZE_SLACK
from ..keys.figures import Length, Range, percent
from ..keys.key import Key, hold, key
from ..keys.kinds import Choice, YesNo
from ..keys.plane import Choices
from ..marking.mark import Ground
from ..marking.method import ALL_TOOLS, TONGUE, HandTool, Workshop
from ..panel.defect_kinds import Face

SAW_ALLOWANCE = 2.0
"""Left outside the line of a top straight all round, mm: a kerf flares (common practice)."""

THICK = 38.0
"""A jigsaw is not trusted to the line in wood thicker than this, mm (common practice)."""

JIGSAW_ALLOWANCE, THICK_ALLOWANCE = 3.0, 5.0
"""Left outside the line of a top with curves, mm: a jigsaw's blade leans, the more in wood thicker
than `THICK` (common practice)."""

JIGSAW_KERF, DEPTH_BELOW = 1.5, 4.0
"""Width of a jigsaw's cut; how far teeth stand out below the work, mm (common practice)."""

THINNEST_TRIM = 3.0
"""What a trim must be thicker than the kerf, mm, or the blade wanders (common practice)."""

CLEAN_UP, FULL_PASS, LITTLE = 10.0, 6.0, 5.0
"""Depth of one router pass where little wood stands outside the line, and where much does, mm
(common practice); and how much is little (our choice)."""

SPARE = 1.1
"""A tenth more is cut of an edging than goes round, for joints and slips (common practice)."""

WIDE_BASE = 180.0
"""Diameter of a router's base where the maker gives none, mm: a wide one (common practice: 150 to
180), so that no pin is sent under a base."""


class Stroke(Enum):
    """What is cut outside the line."""

    SIDE = "along a side"
    END = "across an end"
    CORNER = "off a corner"
    CURVE = "along the curve"


_KERF = Length(Range(0.0, 20.0, above=True), "measure a test cut")
_GUIDE = Length(Range(0.0, 1000.0), "measure a test cut")
_THIN = Length(Range(0.0, 20.0), "measure a test cut")
_LEFT = Length(Range(0.0, 100.0), "give what the tool needs")
_DEEP = Length(Range(0.0, 100.0, above=True))

_DRAWN_WITH = Choice(
    {
        tool.name.lower(): tool
        for tool in HandTool
        if tool in ALL_TOOLS - {HandTool.TAPE, HandTool.LATHS}  # there is always a tape
    },
    {"trammel": "bar", "beam compass": "bar", "nails": "string"},
)

STRING = Key(
    "string",
    Choice(
        {"braided": 0.003, "wire": 0.0},
        {},
        {"nylon": "stretches too much to draw an oval: use braided line or wire"},
    ),
    "What draws an oval: braided line gives by 0.3 percent, wire does not",
    0.003,
    '"braided"',
    '"wire"',
)


@dataclass(frozen=True, slots=True)
class Tools:
    """The maker's tools."""

    kerf: float = key(2.4, _KERF, "Width of the saw's cut", "2.2")
    guide_left: float | None = key(
        None,
        _GUIDE,
        "From the kept side of the kerf to the left edge of the saw's base, by a test cut; nothing "
        "is assumed",
        "38",
        usual="not used",
    )
    guide_right: float | None = key(
        None, _GUIDE, "The same, to the right edge of the base", "131", usual="not used"
    )
    allowance: float | None = key(
        None,
        _LEFT,
        "Left outside the finish line by the first cuts",
        "2",
        usual=f"`curve_allowance`, else {SAW_ALLOWANCE:g} mm where the top is straight all round, "
        f"{JIGSAW_ALLOWANCE:g} where it is not, and {THICK_ALLOWANCE:g} where it is over "
        f"{THICK:g} thick",
    )
    end_allowance: float | None = key(
        None, _LEFT, "Left outside the line by cuts across the ends", "5", usual="as `allowance`"
    )
    curve_allowance: float | None = key(
        None, _LEFT, "Left outside the line by the jigsaw", "3", usual="as `allowance`"
    )
    jigsaw_kerf: float = key(JIGSAW_KERF, _KERF, "Width of the jigsaw's cut", "1.2")
    corner_clear: float | None = key(
        None,
        _LEFT,
        "Left between a straight cut off a corner and the curve that follows; never less than the "
        "jigsaw leaves",
        "5",
        usual="what the jigsaw leaves",
    )
    below: float = key(
        DEPTH_BELOW, _THIN, "How far the saw's teeth stand out below the work; 3 to 6 is usual", "5"
    )
    router: bool = key(True, YesNo(), "Whether a router trims to the line", "false")
    bit: float = key(12.0, _DEEP, "Diameter of its cutter", "19")
    bush: float | None = key(
        None,
        _DEEP,
        "Diameter of the guide bush or bearing that follows a template; it decides how far inside "
        "the line the template stands",
        "24",
        usual="a bearing of the bit's own size",
    )
    router_base: float | None = key(
        None,
        Length(Range(0.0, 400.0, above=True)),
        "Diameter of the router's base, by which a straightedge is set; nothing is assumed",
        "160",
        usual="not measured",
    )
    pass_depth: float | None = key(
        None,
        _DEEP,
        "How deep the router goes at once",
        "8",
        usual=f"{CLEAN_UP:g} mm where {LITTLE:g} or less stands outside the line, else "
        f"{FULL_PASS:g}",
    )
    show_face: Face | None = key(
        None,
        Choice({"up": Face.UP, "down": Face.DOWN}),
        "How the show face lies while the top is marked and sawn: a hand-held saw chips the face "
        "that lies up",
        '"up"',
        usual='by build: `"down"`; `"up"` for a slab whose line is struck on that face',
    )
    draw_with: frozenset[HandTool] = key(
        ALL_TOOLS,
        Choices(_DRAWN_WITH, one_will_do=True, into=frozenset),
        "What there is to draw curves with: nails and string, a trammel bar, a router on a "
        "trammel, a rod with two pins, a framing square, a thin lath, a corner template",
        '["string", "rod"]',
        usual="all of them",
    )
    tongue: float = key(
        TONGUE,
        Length(Range(0.0, 2000.0, above=True)),
        "Tongue of the framing square, its shorter arm",
        "300",
    )
    nail: float = key(3.0, _THIN, "Thickness of the nails that draw an oval", "2.5")
    pencil: float = key(
        3.0,
        _THIN,
        "Thickness of the pencil where the string runs, notched to the nail's size or bare",
        "7",
    )
    string_stretch: float = key(
        0.003,
        percent(Range(0.0, 4.9), "use braided line or wire, below 5 %"),
        "By how much the string gives, in place of its kind",
        "0.3",
        usual="by `string`",
        also=(STRING,),
    )

    def __post_init__(self) -> None:
        hold(self, "tools")

    @property
    def thinnest(self) -> float:
        """The least that a straight cut can take off, its kerf counted, mm."""
        return self.kerf + THINNEST_TRIM

    def left_by(self, stroke: Stroke, thickness: float, *, curved: bool) -> float:
        """Return what a stroke of saw or jigsaw leaves outside the line, mm.

        Where the maker gives none, or only the jigsaw's, it is one distance for all of them: the
        rough line which is drawn is the line which is sawn.
        """
        own = {
            Stroke.END: self.end_allowance,
            Stroke.CORNER: self.corner_clear,
            Stroke.CURVE: self.curve_allowance,
        }.get(stroke)
        if stroke is Stroke.CORNER:
            return max(own or 0.0, self.left_by(Stroke.CURVE, thickness, curved=curved))
        for given in (own, self.allowance, self.curve_allowance if curved else None):
            if given is not None:
                return given
        if not curved:
            return SAW_ALLOWANCE
        return THICK_ALLOWANCE if thickness > THICK else JIGSAW_ALLOWANCE

    def reach(self, thickness: float) -> float:
        """Return how far outside the line a blade or bit may come, mm, in wood this thick."""
        saws = (self.left_by(stroke, thickness, curved=True) + self.kerf for stroke in Stroke)
        jigsaw = self.left_by(Stroke.CURVE, thickness, curved=True) + self.jigsaw_kerf
        return max(*saws, jigsaw, self.bit if self.router else 0.0)

    @property
    def least_trammel(self) -> float:
        """The least radius that a trammel swings, mm: its pin stands clear of the router's base."""
        base = WIDE_BASE if self.router_base is None else self.router_base
        return (base - self.bit) / 2

    def depth_of_pass(self, outside: float) -> float:
        """Return how deep the router goes at once, mm, where so much stands outside the line."""
        if self.pass_depth is not None:
            return self.pass_depth
        return CLEAN_UP if outside <= LITTLE + SIZE_SLACK else FULL_PASS

    def workshop(self, ground: Ground | None = None) -> Workshop:
        """Return what there is to draw with, on a panel where one is given."""
        held = set(self.draw_with) | {HandTool.TAPE}
        if HandTool.LATH in held:
            held.add(HandTool.LATHS)
        if not self.router:
            held.discard(HandTool.ROUTER)
        return Workshop(
            frozenset(held), self.tongue, self.nail, self.pencil, self.string_stretch, ground
        )
