"""The profile of the edge: rounded, bevelled, its arrises, and where nothing may be fixed then."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ..errors import GeometryError, LayoutError, OutlineError
from ..geometry.path import Path
from ..geometry.tolerance import SAME_FIGURE
from ..keys.figures import ABOVE_0, FROM_0, Length, Range
from ..keys.key import Key, hold, key
from ..keys.plane import Pair
from ..legs.fixings import least_from_edge
from ..panel.build import Kind
from ..top import Runs, Top, runs_of

if TYPE_CHECKING:
    from .builds import Edging

INSIDE_BEVEL, THIN_EDGE = 10.0, 5.0
"""Fixings keep this far inside a bevel; an edge that is left thinner than the second chips when it
is knocked, mm (common practice)."""

ARRIS, EASED = 2.0, 0.5
"""Taken off an arris of solid wood, and of veneer, laminate or board, mm (common practice)."""

BEVEL = Key(
    "bevel",
    Pair(ABOVE_0, form="[in, up]"),
    "A bevel under its edge: how far in from the edge, and how far up it; nothing is fixed nearer "
    f"to the edge than {INSIDE_BEVEL:g} mm inside it",
    None,
    "none",
    "[30, 12]",
)


@dataclass(frozen=True, slots=True)
class EdgeProfile:
    """What the edge is to look like; a LayoutError if a length is below 0 or a bevel half given."""

    round_over: float = key(
        0.0,
        Length(Range(0.0, 100.0), "give the radius of the bit"),
        "Radius of its upper arris; 0 leaves it broken only",
        "3",
    )
    bevel_in: float = key(0.0, FROM_0, also=(BEVEL,), in_file=False)
    bevel_up: float = key(0.0, FROM_0, in_file=False)
    """How far a bevel under the top runs in from the edge, and up it, mm; both 0 for none."""

    def __post_init__(self) -> None:
        hold(self, "top")
        if (self.bevel_in == 0) != (self.bevel_up == 0):
            raise LayoutError(
                f"a bevel runs in and up: {self.bevel_in:g} mm in and {self.bevel_up:g} mm up "
                "make none; give both"
            )

    @property
    def keep_in(self) -> float:
        """Nothing is fixed from below nearer to the edge than this, mm; 0 for none."""
        return self.bevel_in + INSIDE_BEVEL if self.bevel_in else 0.0


@dataclass(frozen=True, slots=True)
class Arris:
    """How the sharp edges are taken off."""

    size: float
    by_abrasive: bool
    """Whether nothing but abrasive may touch it: a plane or a bit lifts veneer and laminate."""
    above: bool
    """Whether the upper one too: else the round-over has taken it."""


@dataclass(frozen=True, slots=True)
class ProfilePlan:
    """The edge worked out."""

    round_over: float
    bevel_in: float
    bevel_up: float
    """As wished, mm."""
    edge_left: float
    """Height of the edge above the bevel, the round-over counted in, mm."""
    upright: float
    """What of it stays straight up, mm."""
    bevel_angle: float = field(metadata={"unit": "rad"})
    """Of the bevel from the underside, radians; 0 for none."""
    fixings_inside: float
    """Nothing is fixed nearer to the edge than this, mm."""
    bevel_line: Path | None
    """On the panel: the true parallel of the edge, and that edge itself where it is kept."""
    crowded: tuple[int, ...]
    """Numbers of the legs that stand nearer to the edge than that."""
    arris: Arris
    is_thin: bool
    """Whether what stays straight up is so thin that it chips when it is knocked."""
    core_bare: bool
    """Whether it runs past the lipping and lays the core bare."""
    keeps: bool
    """Whether some of the edge is the panel's own, which is left as it is."""


def plan_profile(
    wish: EdgeProfile, top: Top, overhangs: Sequence[float] = (), edging: Edging | None = None
) -> ProfilePlan:
    """Return the edge of a finished top; it gets no profile where it lies on kept edges.

    Raises a LayoutError if the bevel and the round-over leave no edge, or no underside. Each leg,
    plate and all, stays so far from the edge, mm; `edging` goes round it.
    """
    thickness, is_board = top.thickness, top.panel.build.kind.is_board
    edge = thickness - wish.bevel_up
    upright = edge - wish.round_over
    if upright <= 0:
        raise LayoutError(
            f"a round-over of {wish.round_over:g} and a bevel {wish.bevel_up:g} mm up leave no "
            f"edge of {thickness:g} mm: make one of them smaller"
        )
    inside = max(least_from_edge(top.panel.build.kind), wish.keep_in)
    runs = runs_of(top.finish, top.kept)
    # a lipping's arrises are of solid wood
    solid = top.panel.build.kind in (Kind.SOLID, Kind.FRAMED) or top.lipping > ARRIS
    size = ARRIS if solid else EASED
    return ProfilePlan(
        wish.round_over,
        wish.bevel_in,
        wish.bevel_up,
        edge,
        upright,
        math.atan2(wish.bevel_up, wish.bevel_in) if wish.bevel_in else 0.0,
        inside,
        _bevel_line(wish, top, runs),
        tuple(n for n, o in enumerate(overhangs, 1) if wish.bevel_in and o < inside - SAME_FIGURE),
        Arris(size, not solid, above=wish.round_over < size),
        is_thin=upright < THIN_EDGE,
        core_bare=is_board and max(wish.round_over, wish.bevel_in) > top.lipping,
        keeps=bool(runs.kept) or (edging is not None and edging.kept > 0),
    )


def _bevel_line(wish: EdgeProfile, top: Top, runs: Runs) -> Path | None:
    if not wish.bevel_in:
        return None
    from .rough import beside_runs

    try:
        if runs.kept:
            return beside_runs(runs, -wish.bevel_in).closed
        return top.line(-wish.bevel_in)
    except (GeometryError, OutlineError):
        raise LayoutError(
            f"a bevel that runs {wish.bevel_in:g} mm in leaves nothing flat under a top "
            f"{top.outline.width:g} mm wide: make it narrower"
        ) from None
