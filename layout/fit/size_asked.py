"""Does this size fit? A yes with a place, or a no with what is lacking, in a few milliseconds.

Of the sizes of one form each smaller one lies in each larger one, so only place and turn are
sought, and the size asked for is the largest that counts.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from ..errors import LayoutError
from ..geometry import Placement, Point, Region
from ..geometry.alike import greatest_first
from ..geometry.tolerance import PROOF_ALLOWANCE, ROUNDING, SAME_PLACE
from ..outlines import OWN_OUTLINE, Outline, Rectangle, RoundedRectangle
from ..panel.sound import SoundWood
from .branch_and_bound import search
from .convex.boxes import Pose
from .convex.entry import kind_of
from .convex.family import TwoSizes
from .convex.kind import Kind
from .convex.sizing import Sizing
from .convex.wood import Wood
from .families import Answer
from .found import Fit
from .islands import round_islands
from .points import clear_of, lost
from .rigid.places import OwnPlaces, proved
from .wish import Limits, Span, Wish

_EASED = PROOF_ALLOWANCE / 2
"""mm by which all sides of a top may be drawn in so that it counts as fitting where it touches."""
_HAIR = 1e-9
"""Share of a score that rounding may account for."""
_STEPS = 1000
"""Boxes after which a question is left open."""
_EDGES = 3
"""Longest edges along which it is tried at first."""
_ALIKE = 9
"""Figures after the point, radians, that two turns share that are one."""
_ROUGH = 0.003
"""Of half the width: the step with which a first climb ends."""
_SPARE = 1.0
"""mm of half the width that this climb looks for beyond the size asked for, so that there is no
need to look closely."""
_ABOUT = 0.05
"""mm by which a polygon may stand off an outline that has so much room."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a size fits."""

    fits: bool
    placement: Placement | None
    """Where it lies; where it does not fit, the best place known; None where there is none."""
    clearance: float
    """From its edge to where the sound wood ends there, mm, to 0.05 mm; 0 where it touches or does
    not fit. Another place may be clearer."""
    lacking: float
    """What its width must lose to fit at that place, its form kept (of a capsule its straight), mm;
    of an outline with dents, by how much it oversteps all round; infinite where nothing is known,
    0 where it fits."""
    proved: bool
    """Whether that is settled; else the search ended before every place was ruled out."""


def fits(
    wood: SoundWood,
    outline: Outline,
    *,
    limits: Limits | None = None,
    islands: Sequence[Region] = (),
    covers: Sequence[Point] = (),
    avoids: Sequence[Point] = (),
) -> Verdict:
    """Return whether an outline, the line that is cut, fits in the sound wood at the size it has.

    Of the limits only grain and turn count. No edge may cross an island; points of the panel lie
    within it or outside. What is made ready of a wood is kept for the next question about it.

    >>> from panelwright.layout.outlines import Capsule, Circle, Rectangle
    >>> board = SoundWood.exact(Region.from_rings(Rectangle(1400.0, 700.0).outer()))
    >>> fits(board, Capsule(1390.0, 690.0)).fits
    True
    >>> round(fits(board, Circle(710.0)).lacking, 2)
    10.0
    """
    turns = Limits() if limits is None else limits
    turns = Limits(grain_deg=turns.grain_deg, most_turn_deg=turns.most_turn_deg)
    wish = Wish((OWN_OUTLINE,), limits=turns, own=outline, most_steps=_STEPS)
    left = clear_of(wood, avoids)
    if left.inner.is_empty or lost(left, covers):
        return Verdict(False, None, 0.0, math.inf, True)
    size = _Size(outline, wish, tuple(Region.at(point) for point in covers))
    answer = round_islands(left, islands, _HAIR, size.answered)
    fit = answer.fit
    if fit is None:
        lacking, place = min(size.near, key=lambda near: near[0], default=(math.inf, None))
        return Verdict(False, place, 0.0, lacking, answer.bound == 0.0)
    around = Region.from_rings(fit.placement.of(outline.outer(_ABOUT)))
    clearance = left.inner.edge_distance(around) if left.inner.holds(around) else 0.0
    return Verdict(True, fit.placement, clearance, 0.0, True)


@dataclass(frozen=True)
class _OneShape(Sizing):
    """Sizes of one shape number alone, up to that of the size asked for."""

    shapes: tuple[float, float] = (0.0, 0.0)

    @classmethod
    def up_to(cls, outline: Outline, kind: Kind, wish: Wish, spare: float = -_EASED) -> _OneShape:
        """Return those up to an outline with so much, mm, added to half its width."""
        whole = Pose(0.0, 0.0, 0.0, outline.length / 2, outline.width / 2)
        # of a form only the nearest sides are drawn in by so little: by less, that its ends are
        loss = whole.half_length - kind.drawn_in(whole, -spare)[0]
        half_length, half_width = kind.drawn_in(whole, spare * spare / loss)
        p = kind.shape_of(Pose(0.0, 0.0, 0.0, half_length, half_width))
        length, width = Span(0.0, 2 * half_length), Span(0.0, 2 * half_width)
        limits = replace(wish.limits, length=length, width=width)
        return cls(kind, replace(wish, limits=limits), outline, shapes=(p, p))


@lru_cache(maxsize=4)
def _ready(wood: SoundWood, held: tuple[Region, ...]) -> Wood:
    return Wood(wood, held)


@dataclass(frozen=True, slots=True)
class _Size:
    """A size that is asked for; it answers with a bound of 0 where it fits nowhere."""

    outline: Outline
    wish: Wish
    """Its turns."""
    points: tuple[Region, ...]
    """To cover."""
    near: list[tuple[float, Placement]] = field(default_factory=list)
    """Places known, and how much is lacking there, mm."""

    def answered(self, part: SoundWood, held: tuple[Region, ...]) -> Answer:
        """Return a place in a part of the wood where it holds some parts."""
        if part.inner.is_empty:
            return Answer(None, 0.0, 0)
        held, outline, off, radius = (*held, *self.points), self.outline, _EASED / 2, None
        if isinstance(outline, RoundedRectangle):
            # its polygon may stand off round corners: what that leaves open the gaps decide
            off, radius = _ABOUT, max(outline.radii)
        elif isinstance(outline, Rectangle):
            radius = 0.0
        try:
            kind = kind_of(outline, off)
        except LayoutError:
            return self._rigid(part, held)
        return self._convex(part, held, kind, radius)

    def _convex(
        self, part: SoundWood, held: tuple[Region, ...], kind: Kind, radius: float | None
    ) -> Answer:
        """Return a place of the size: one of the likeliest, or one that is searched for.

        First by gaps where a radius of corners is given.
        """
        outline, sizing = self.outline, _OneShape.up_to(self.outline, kind, self.wish)
        family = TwoSizes(_ready(part, held), sizing)
        limits = sizing.wish.limits
        whole = limits.length.greatest / 2, limits.width.greatest / 2
        enough = sizing.score(*whole) * (1 - 4 * _HAIR)

        def tried(score: float, top: Pose) -> Fit | None:
            place = Placement(Point(*kind.origin(top)) + family.wood.middle, top.turn)
            self.near.append((max(0.0, 2 * (whole[1] - top.half_width)), place))
            if score < enough:
                return None
            around = Region.from_rings(place.of(outline.outer(_ABOUT)))
            if not held and part.inner.holds(around):
                return Fit(outline, outline, place, 1.0, None, 0)
            return proved(outline, place, part, held)

        roomy = TwoSizes(family.wood, _OneShape.up_to(outline, kind, self.wish, _SPARE))
        start = max(_starts(roomy), key=lambda found: found[0], default=None)
        if start is not None:
            fit = tried(*roomy.polished(*start, last=_ROUGH))
            if fit is not None:
                return Answer(fit, 1.0, 0)
        if outline.area > part.outer.area or outline.length - 4 * _EASED > family.wood.diameter:
            return Answer(None, 0.0, 0)
        if radius is not None:
            answer = self._rectangular(part, held, radius)
            if answer.fit is not None or answer.bound == 0:
                return answer
            return self._convex(part, held, kind_of(outline, _EASED / 2), None)
        found = search(family, gap=_HAIR, most_steps=_STEPS, enough=enough * (1 - _HAIR))
        fit = None if found.top is None else tried(found.score, found.top)
        return Answer(fit, float(fit is not None or found.bound > enough), found.steps)

    def _rectangular(self, part: SoundWood, held: tuple[Region, ...], radius: float) -> Answer:
        """Return a place of a rectangle: gaps between edges show soonest whether there is any.

        Of one a little smaller all round, with all corners as round as its roundest: where that has
        no place, it has none.
        """
        from .rectangles.family import RoundedRectangles
        from .rectangles.sizes import CORNER_LOSS

        outline, lost = self.outline, PROOF_ALLOWANCE + ROUNDING
        by = min(_ABOUT, outline.width / 4)
        length, width = outline.length - 2 * by, outline.width - 2 * by
        radius = max(radius - by, 0.0)
        least = (length - lost) * (width - lost) - CORNER_LOSS * radius**2
        long, wide, rounded = (Span(size, size) for size in (length, width, radius))
        limits = replace(self.wish.limits, length=long, width=wide, corner_radius=rounded)
        asked = replace(self.wish, limits=limits, beats=least * (1 - 1.001 * self.wish.gap))
        family = RoundedRectangles(part, asked, (radius, radius), held, sown=False)
        found = search(family, gap=asked.gap, most_steps=_STEPS, enough=asked.beats)
        fit = None if found.top is None else proved(outline, found.top.placement, part, held)
        return Answer(fit, float(fit is not None or found.bound >= least), found.steps)

    def _rigid(self, part: SoundWood, held: tuple[Region, ...]) -> Answer:
        """Return a place of an outline with dents where it fits."""
        family = OwnPlaces(part, self.wish, self.outline, held, crossing=True, plenty=-_EASED)
        least = family.base - _EASED
        found = search(family, gap=_HAIR, most_steps=_STEPS, enough=least * (1 - 2 * _HAIR))
        fit = None
        if family.nearest is not None:
            clearance, pose = family.nearest
            place = family.shape.placement(pose)
            self.near.append((max(0.0, -clearance), place))
            fit = None if found.top is None else proved(self.outline, place, part, held)
        return Answer(fit, float(fit is not None or found.bound >= least), found.steps)


def _starts(family: TwoSizes) -> Iterator[tuple[float, Pose]]:
    """Yield tops at the deepest place, at turns along the grain and the longest edges."""
    wood, p = family.wood, family.sizing.shapes[0]
    limits = family.sizing.wish.limits
    way = wood.outer_edges[:, 1] - wood.outer_edges[:, 0]
    longest = way[greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)[:_EDGES]]
    along = (limits.grain, *np.arctan2(longest[:, 1], longest[:, 0]).tolist())
    turns = [turn + quarter for turn in along for quarter in (0.0, math.pi / 2)]
    off = np.clip([*map(limits.off_grain, turns)], -limits.most_turn, limits.most_turn)
    apart = np.unique(off.round(_ALIKE), return_index=True)[1]
    for turn in limits.grain + off[apart] if family.kind.period(p) else [limits.grain]:
        found = family.placed(wood.depths.deepest, float(turn), p)
        if found is not None:
            yield found
