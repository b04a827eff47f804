"""What the maker cuts with, and the figures of those tools that the sheets need."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..errors import LayoutError
from ..marking.method import ALL_TOOLS, TONGUE, HandTool, Workshop
from ..marking.off_wood import Ground
from ..panel.defect import Face

SAW_ALLOWANCE = 2.0
"""Left outside the line of a top that is straight all round, mm: a saw's kerf flares (common
practice)."""

JIGSAW_KERF = 1.5
"""Width of a jigsaw's cut, mm (common practice)."""

JIGSAW_ALLOWANCE = 3.0
"""Left outside the line of a top with curves, mm: a jigsaw's blade leans (common practice)."""

THICK_ALLOWANCE = 5.0
"""The same in wood thicker than `THICK`, mm (common practice)."""

THICK = 38.0
"""A jigsaw is not trusted to the line in wood thicker than this, mm (common practice)."""

DEPTH_BELOW = 4.0
"""How far a saw's teeth stand out below the work, mm (common practice: 3 to 6)."""

THINNEST_TRIM = 3.0
"""What a trim must be thicker than the kerf, mm, or the blade wanders (common practice)."""


CLEAN_UP, FULL_PASS = 10.0, 6.0
"""Depth of one router pass where little wood stands outside the line, and where much does, mm
(common practice)."""

LITTLE = 5.0
"""What stands outside the line by no more than this is cleaned up, not cut, mm (our choice)."""

WIDE_BASE = 180.0
"""Diameter of a router's base where the maker gives none, mm: a wide one (common practice: 150 to
180), so that no pin is sent under a base."""


class Stroke(Enum):
    """What is cut outside the line."""

    SIDE = "along a side"
    END = "across an end"
    CORNER = "off a corner"
    CURVE = "along the curve"


_LENGTHS = (
    *("kerf", "guide_left", "guide_right", "allowance", "end_allowance", "curve_allowance"),
    *("below", "corner_clear", "jigsaw_kerf", "bit", "nail", "pencil", "tongue"),
)

_ABOVE_0 = ("follower", "router_base", "pass_depth")


@dataclass(frozen=True, slots=True)
class Tools:
    """The maker's tools."""

    kerf: float = 2.4
    """Width of the saw's cut, mm."""
    guide_left: float | None = None
    guide_right: float | None = None
    """From the kept side of the kerf to the edge of the saw's base on its left and on its right, as
    a test cut measured it, mm. None where that side is not used: no figure is assumed."""
    allowance: float | None = None
    """Left outside the line by the first cuts, mm; None for what is usual for the tool and
    thickness."""
    end_allowance: float | None = None
    """Left outside the line by cuts across the ends, mm; None for the same as elsewhere."""
    curve_allowance: float | None = None
    """Left outside the line by the jigsaw, mm; None for `allowance`, or what is usual."""
    below: float = DEPTH_BELOW
    """How far the saw's teeth stand out below the work, mm."""
    corner_clear: float | None = None
    """Left between a 45° cut off a corner and the curve, mm; None for what the jigsaw leaves, and
    never less than that."""
    jigsaw_kerf: float = JIGSAW_KERF
    """Width of the jigsaw's cut, mm."""
    router: bool = True
    """Whether there is a router to trim to the line."""
    bit: float = 12.0
    """Diameter of the router's cutter, mm."""
    nail: float = 3.0
    pencil: float = 3.0
    """Thickness of the nails and of the pencil that draw an oval, mm."""
    string_stretch: float = 0.003
    """Share by which the string gives; 0.003 for braided line."""
    draw_with: frozenset[HandTool] = ALL_TOOLS
    """What lines are drawn with; a tape is always there."""
    tongue: float = TONGUE
    """Of the framing square, its shorter arm, mm."""
    follower: float | None = None
    """Diameter of the guide bush or bearing that follows a template, mm; None for a bearing of the
    bit's own size."""
    router_base: float | None = None
    """Diameter of the router's base, mm: its edge runs along a straightedge. None where it is not
    measured: no figure is assumed."""
    pass_depth: float | None = None
    """How deep the router goes at once, mm; None for what is usual."""
    show_face: Face | None = None
    """How the show face lies while the top is marked and sawn; None for what suits the build."""

    def __post_init__(self) -> None:
        for name in _LENGTHS:
            value = getattr(self, name)
            if value is not None and not 0 <= value < math.inf:
                raise LayoutError(f"tools: {name} of {value:g} mm is below 0")
        for name in _ABOVE_0:
            value = getattr(self, name)
            if value is not None and not 0 < value < math.inf:
                raise LayoutError(f"tools: {name} of {value:g} mm is not above 0")
        if not 0 <= self.string_stretch < 0.05:
            raise LayoutError(
                f"tools: a string that gives {self.string_stretch:.1%} draws no oval: "
                "use braided line or wire, below 5 %"
            )

    @property
    def guide(self) -> float | None:
        """From the kept side of the kerf to a guide on the kept wood, mm; None where not measured.

        The wider side of the base is the steadier one; the saw is pushed so that it lies there.
        """
        return max((g for g in (self.guide_left, self.guide_right) if g is not None), default=None)

    @property
    def thinnest(self) -> float:
        """The least that a straight cut can take off, its kerf counted, mm."""
        return self.kerf + THINNEST_TRIM

    def left_by(self, stroke: Stroke, thickness: float, *, curved: bool) -> float:
        """Return what a stroke of saw or jigsaw leaves outside the line, mm.

        Where the maker gives none, or only the jigsaw's, it is one distance for all of them: the
        rough line which is drawn is the line which is sawn.

        Parameters
        ----------
        thickness : float
            Of the wood, mm.
        curved : bool
            Whether the top has curves.
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
    def base_offset(self) -> float | None:
        """From the line to a straightedge for the router, mm; None where its base is unknown."""
        return None if self.router_base is None else (self.router_base - self.bit) / 2

    @property
    def least_trammel(self) -> float:
        """The least radius that a trammel swings, mm: its pin stands clear of the router's base."""
        base = WIDE_BASE if self.router_base is None else self.router_base
        return (base - self.bit) / 2

    def depth_of_pass(self, outside: float) -> float:
        """Return how deep the router goes at once, mm, where so much stands outside the line."""
        if self.pass_depth is not None:
            return self.pass_depth
        return CLEAN_UP if outside <= LITTLE else FULL_PASS

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
