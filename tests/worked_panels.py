"""Five old panels worked out by hand: what the workshop had on the bench, and what it used."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from panelwright.layout.cutting.plan import CutPlan, plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.marks import MarkSet, marks_for
from panelwright.layout.marking.method import Workshop
from panelwright.layout.outlines import Capsule, Outline, Oval, RoundedRectangle
from panelwright.layout.panel import Panel, outline_through, rectangular_outline
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import MM_PER_INCH as INCH
from panelwright.layout.units import Tape


@dataclass(frozen=True)
class Worked:
    """A panel, the top to be cut from it, and how."""

    panel: Panel
    outline: Outline
    centre: Point
    tools: Tools
    lipping: float = 0.0
    given: tuple[Point, Point] | None = None
    tape: Tape = field(default_factory=Tape)
    kit: Workshop = field(default_factory=Workshop)

    @property
    def placement(self) -> Placement:
        """Where the top lies, its length along x."""
        return Placement(self.centre)

    @property
    def top(self) -> Top:
        """The top on its panel."""
        return Top(self.panel, self.outline, self.placement, self.lipping)

    @property
    def datum(self) -> Datum:
        """What the panel is measured from."""
        return choose_datum(self.panel, self.given)

    @property
    def marks(self) -> MarkSet:
        """What is set out."""
        return marks_for(self.top, self.datum, self.kit)

    @property
    def cuts(self) -> CutPlan:
        """What is cut."""
        return plan_cuts(self.top, self.datum, self.tools)

    def figures(self, *lengths: float) -> list[str]:
        """Return lengths as the tape of this job reads them."""
        return [self.tape.figure(length) for length in lengths]


SAW = Tools(kerf=2.4, guide_left=115.0, allowance=2.0, curve_allowance=3.0)

DOOR = Worked(
    Panel(rectangular_outline(1981, 838), 44),
    Capsule(1800, 720),
    Point(990, 370),
    replace(SAW, allowance=1.5, end_allowance=3.0, curve_allowance=4.0),
    lipping=6.0,
)

BENCH_TOP = Worked(
    Panel(rectangular_outline(2100, 700), 26),
    Capsule(1400, 600),
    Point(740, 322),
    replace(SAW, corner_clear=4.0),
)

_WANE_BELOW = [(0, -60), (500, -62), (1000, -68), (1500, -63), (2150, -75)]
_WANE_ABOVE = [
    *((2150, 716), (1800, 722), (1500, 731), (1200, 748)),
    *((900, 765), (600, 771), (300, 758), (0, 742)),
]

SLAB = Worked(
    Panel(outline_through([Point(x, y) for x, y in _WANE_BELOW + _WANE_ABOVE]), 55, flattened=42.0),
    RoundedRectangle.with_radius(1700, 700, 80),
    Point(1240, 356),
    SAW,
    given=(Point(0, 0), Point(2150, 0)),
)

BOWED_TOP = Worked(
    Panel(rectangular_outline(54 * INCH, 30 * INCH, bows=(0, 0, 3 * INCH, 0)), 7 / 8 * INCH),
    Oval(50 * INCH, 30 * INCH),
    Point(27 * INCH, 15.5 * INCH),
    Tools(
        kerf=3 / 32 * INCH,
        guide_left=4.5 * INCH,
        allowance=INCH / 8,
        curve_allowance=3 / 32 * INCH,
        below=INCH / 8,
        corner_clear=INCH / 8,
    ),
    tape=Tape(imperial=True),
    kit=Workshop(nail=INCH / 8, pencil=INCH / 8),
)

WORKTOP = Worked(
    Panel(rectangular_outline(3000, 600), 38),
    RoundedRectangle.with_radius(1450, 560, 60),
    Point(895, 295),
    SAW,
)

ALL = (DOOR, BENCH_TOP, SLAB, BOWED_TOP, WORKTOP)
