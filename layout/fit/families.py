"""The families by the name that a job file gives them, and how one of them is searched."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..errors import LayoutError
from ..geometry.polygon import Region
from ..outlines import OWN_OUTLINE, PIECE_AS_FOUND, Outline
from ..panel.sound import SoundWood
from .driver import Family, search
from .found import Bound, Fit
from .kept.pieces import piece_family
from .kept.tops import KeptTops
from .outright import is_ruled_out
from .own.elsewhere import OwnElsewhere
from .own.family import OwnPlaces
from .own.proof import proved as own_proved
from .own.shape import Array
from .points import clear_of, holds_all, lost
from .rectangles.elsewhere import RectanglesElsewhere
from .rectangles.family import RoundedRectangles
from .rectangles.makers import rectangle_family, rounded_rectangle_family
from .rectangles.plainest import in_plainest_place
from .stand import Elsewhere
from .twins import first_twin
from .two_sizes.capsule import CapsuleKind
from .two_sizes.closing import closed_in
from .two_sizes.convex import ConvexKind
from .two_sizes.elsewhere import RoundElsewhere
from .two_sizes.family import TwoSizes
from .two_sizes.form import own_form, regular_form
from .two_sizes.kind import Kind
from .two_sizes.oval import OvalKind
from .two_sizes.pose import Pose
from .two_sizes.proof import proved
from .two_sizes.settle import settled
from .two_sizes.sizing import Sizing
from .two_sizes.superellipse import SuperellipseKind
from .two_sizes.wood import Wood
from .wish import Limits, Span, Wish


@dataclass(frozen=True, slots=True)
class Entry:
    """A family ready to be searched."""

    family: Family[Any, Any]
    finish: Callable[[Any], Fit | None]
    """Makes a proved fit, or None, from the family's own kind of top."""
    elsewhere: Elsewhere | None = None
    """Looks for other places than the best; None where the family has no choice of them."""
    base: float = 0.0
    """What the family adds to what the goal counts, so that its scores are positive."""
    gap: float | None = None
    """Share of its scores at which the search ends; None for that of the wish."""
    enough: float = 0.0
    """Score up to which tops are of no interest."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search came to: a proved top, if any was found, and a bound for all."""

    fit: Fit | None
    bound: float
    steps: int
    looks: float = 0.0
    """What it took: see `driver.Family.looks`."""


Progress = Callable[[int, float, float], bool]

Maker = Callable[[SoundWood, Wish, Sequence[Region]], Entry]


def _two_sizes(kind_of: Callable[[Wish], Kind], shape: str) -> Maker:
    def make(wood: SoundWood, wish: Wish, held: Sequence[Region]) -> Entry:
        if shape == "circle":
            wish = replace(wish, limits=replace(wish.limits, ratio=Span(1.0, 1.0)))
        sizing = Sizing(kind_of(wish), wish, shape)
        seen = Wood(wood, held)
        family = TwoSizes(seen, sizing)

        def finish(pose: Pose) -> Fit | None:
            pose = closed_in(family, pose)
            for top in (settled(family, pose), pose):
                fit = proved(top, seen.middle, sizing, wood, held)
                if fit is not None:
                    return fit
            return None

        return Entry(family, finish, RoundElsewhere(seen, sizing, wood, held))

    return make


def _rectangles(
    make_family: Callable[[SoundWood, Wish, Sequence[Region]], RoundedRectangles],
) -> Maker:
    def make(wood: SoundWood, wish: Wish, held: Sequence[Region]) -> Entry:
        def finish(fit: Fit) -> Fit | None:
            within = Region.from_rings(fit.placement.of(fit.core.inner()))
            if not holds_all(within, held):
                return None
            return in_plainest_place(fit, wood.inner, wish.limits, held)

        family = make_family(wood, wish, held)
        return Entry(family, finish, RectanglesElsewhere(family, held))

    return make


def _kept_tops(shape: str) -> Maker:
    def make(wood: SoundWood, wish: Wish, held: Sequence[Region]) -> Entry:
        family = KeptTops(wood, wish, shape, held)
        return Entry(family, family.finish)

    return make


def _own_outline(wood: SoundWood, wish: Wish, held: Sequence[Region]) -> Entry:
    own = _own_of(wish)
    if wish.scaled:
        return _two_sizes(lambda _: ConvexKind(own_form(own)), OWN_OUTLINE)(wood, wish, held)
    family = OwnPlaces(wood, wish, own, held)

    def finish(pose: Array) -> Fit | None:
        for there in (family.settled(pose), pose):
            fit = own_proved(own, family.shape.placement(there), wood, held)
            if fit is not None:
                return fit
        return None

    elsewhere = OwnElsewhere(family, wood, held)
    return Entry(family, finish, elsewhere, family.base, family.gap, family.enough)


def _own_of(wish: Wish) -> Outline:
    if wish.own is None:
        raise LayoutError("a top of the maker's own outline needs that outline: say its points")
    if wish.lipping:
        raise LayoutError(
            f"a lipping of {wish.lipping:g} mm cannot be put round an outline of the maker's own: "
            "draw the core and leave the lipping out"
        )
    return wish.own


def _pieces(wood: SoundWood, wish: Wish, held: Sequence[Region]) -> Entry:
    family = piece_family(wood, wish, held)
    return Entry(family, family.finish)


FAMILIES: dict[str, Maker] = {
    "circle": _two_sizes(lambda _: OvalKind(), "circle"),
    "oval": _two_sizes(lambda _: OvalKind(), "oval"),
    "capsule": _two_sizes(lambda _: CapsuleKind(), "capsule"),
    "superellipse": _two_sizes(lambda wish: SuperellipseKind(wish.exponent), "superellipse"),
    "hexagon": _two_sizes(lambda _: ConvexKind(regular_form(6)), "hexagon"),
    "octagon": _two_sizes(lambda _: ConvexKind(regular_form(8)), "octagon"),
    "rectangle": _rectangles(rectangle_family),
    "rounded rectangle": _rectangles(rounded_rectangle_family),
    OWN_OUTLINE: _own_outline,
    PIECE_AS_FOUND: _pieces,
}
"""What can be wished for, by name."""


_FOR_THE_PROOF = 5e-5
"""Share of the gap that is kept back for what the proof takes off the top afterwards: 0.005 mm each
way is less than this of any top wider than a needle."""


def entry_for(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()) -> Entry | None:
    """Return a family ready to be searched; None where no top can lie in the wood.

    Its tops hold all of `held` and the points to cover, and none of the points to avoid.
    """
    wood = clear_of(wood, wish.avoids)
    if wood.outer.is_empty or wood.inner.is_empty or lost(wood, wish.covers):
        return None
    if is_ruled_out(wood, wish, shape):
        return None
    held = _to_hold(wish, held)
    on_edge = wish.keeping is not None and shape != PIECE_AS_FOUND
    make = _kept_tops(shape) if on_edge else FAMILIES[shape]
    return make(wood, wish, held)


def _to_hold(wish: Wish, held: Sequence[Region]) -> tuple[Region, ...]:
    return (*held, *(Region.at(point) for point in wish.covers))


def answered(
    wood: SoundWood,
    wish: Wish,
    shape: str,
    held: Sequence[Region] = (),
    progress: Progress | None = None,
) -> Answer:
    """Return the best top of a family that holds all of `held`, proved, and a bound for all.

    And all points that the wish says to cover, and none of those to avoid.
    """
    # a family may drop what is within the gap by itself, so it must hear of the same gap
    wish = replace(wish, gap=wish.gap - min(wish.gap / 2, _FOR_THE_PROOF))
    entry = entry_for(wood, wish, shape, held)
    if entry is None:
        return Answer(None, 0.0, 0)
    outcome = search(
        entry.family,
        gap=wish.gap if entry.gap is None else entry.gap,
        most_steps=wish.most_steps,
        most_looks=wish.most_effort,
        enough=entry.base + wish.beats if wish.beats > 0 else entry.enough,
        progress=_less_base(progress, entry.base),
    )
    fit = None if outcome.top is None else entry.finish(outcome.top)
    if fit is None:
        return Answer(None, outcome.bound - entry.base, outcome.steps, outcome.looks)
    if wish.keeping is None and shape != PIECE_AS_FOUND:
        inner, parts = clear_of(wood, wish.avoids).inner, _to_hold(wish, held)
        fit = first_twin(fit, inner, wish.limits, parts, mirrors=shape != OWN_OUTLINE)
    bound = Bound(max(outcome.bound - entry.base, fit.score))
    fit = replace(fit, bound=bound, steps=outcome.steps)
    return Answer(fit, bound.value, outcome.steps, outcome.looks)


def _less_base(progress: Progress | None, base: float) -> Progress | None:
    """Return what tells the progress of a search in what the goal counts."""
    if progress is None or base == 0:
        return progress

    def told(steps: int, score: float, bound: float) -> bool:
        return progress(steps, max(0.0, score - base), max(0.0, bound - base))

    return told


def unlimited(wish: Wish) -> Wish:
    """Return the wish with no limit but those of turn and corner."""
    kept = wish.limits
    free = Limits(corner_radius=kept.corner_radius, grain=kept.grain, most_turn=kept.most_turn)
    return replace(wish, limits=free)
