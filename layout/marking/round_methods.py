"""The ways to draw circles, capsules and rounded corners, and large arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..geometry.point import Point
from ..outlines import Capsule, Circle, RoundedRectangle
from .arcs import ArchTrammel, LargeArc, SprungLath
from .instruments import Ordinate
from .method import (
    BAR_PLAY,
    PENCIL_LEAN,
    ROUTER_PLAY,
    SETTING,
    HandTool,
    Method,
    Workshop,
    ranked,
    together,
)
from .places import swept_by
from .step import Step


@dataclass(frozen=True, slots=True)
class Swing:
    """A radius and the centres that it is swung about."""

    radius: float
    """mm."""
    centres: tuple[Point, ...]
    """From the middle of the top, mm."""


@dataclass(frozen=True, slots=True)
class HollowSwing(Swing):
    """A radius that is swung from outside the top: inside a lipping, the core has a larger one."""


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Heights at stations from the middle, mm."""

    ordinates: tuple[Ordinate, ...]


def swung_methods(
    outline: Circle | Capsule | RoundedRectangle, workshop: Workshop | None = None
) -> tuple[Method, ...]:
    """Return the ways to draw the arcs of an outline; the first is the one to use.

    An outline with several corner radii is drawn with each of them in turn; none for square
    corners.
    """
    shop = workshop or Workshop()
    return ranked((m for swing in _swings(outline) for m in _swung(swing, outline, shop)), shop)


def _swings(outline: Circle | Capsule | RoundedRectangle) -> Iterator[Swing]:
    for swept in swept_by(outline):
        yield Swing(swept.radius, swept.centres)


def _swung(
    swing: Swing, outline: Circle | Capsule | RoundedRectangle, shop: Workshop
) -> Iterator[Method]:
    yield from swings(swing, shop)
    if isinstance(outline, RoundedRectangle):
        step = Step.of(
            "Template",
            "a corner of radius {radius} cut once in thin board, laid to both straights",
            radius=swing.radius,
        )
        yield Method(
            "corner template",
            (HandTool.TEMPLATE,),
            swing,
            (),
            (step,),
            0.0,
            together(SETTING, SETTING),
            leaves_hole=False,
        )


def swings(swing: Swing, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to swing a radius about its centres, with what is there to swing it."""
    names = {f"centre {i}": at for i, at in enumerate(swing.centres, start=1)}
    pivots = shop.pivots(**names)
    lean = together(PENCIL_LEAN, shop.stretch * swing.radius)
    for name, tool, hand, words in (
        ("string compass", HandTool.STRING, lean, "string from the centre to the pencil {radius}"),
        ("trammel bar", HandTool.BAR, BAR_PLAY, "point to pencil {radius}"),
        (
            "router trammel",
            HandTool.ROUTER,
            ROUTER_PLAY,
            "pin to the near edge of the bit {radius}",
        ),
    ):
        step = Step.of("Swing", words, radius=swing.radius)
        hand_error = together(hand, SETTING)
        draws = tool is not HandTool.ROUTER
        yield Method(name, (tool,), swing, pivots, (step,), 0.0, hand_error, True, draws_line=draws)


def arc_methods(
    arc: LargeArc, stations: int = 6, workshop: Workshop | None = None
) -> tuple[Method, ...]:
    """Return the ways to draw a large arc; the first is the one to use.

    Pivots are counted from the middle of the chord, the arc lying up from it.
    """
    shop = workshop or Workshop()
    return ranked(_arc(arc, stations, shop), shop)


def _arc(arc: LargeArc, stations: int, shop: Workshop) -> Iterator[Method]:
    ends = {"nail 1": Point(-arc.chord / 2, 0.0), "nail 2": Point(arc.chord / 2, 0.0)}
    yield Method(
        "swung radius",
        (HandTool.BAR,),
        arc,
        shop.pivots(centre=Point(0.0, -arc.centre_below)),
        (
            Step.of(
                "Swing",
                "centre {below} from the middle of the chord, "
                + ("away from" if arc.is_flat else "towards")
                + " the arc; radius {radius}",
                below=abs(arc.centre_below),
                radius=arc.radius,
            ),
        ),
        0.0,
        together(BAR_PLAY, SETTING),
        leaves_hole=True,
    )
    trammel = ArchTrammel.for_arc(arc)
    yield Method(
        "arch trammel",
        (HandTool.LATHS,),
        trammel,
        shop.pivots(**ends),
        (
            Step.of(
                "Nails",
                "at both ends of the chord, {chord} apart, and at the crown, {rise} up",
                chord=arc.chord,
                rise=arc.rise,
            ),
            Step.of(
                "Laths",
                "each at least {lath} long, laid from an end to the crown and past it; screw them "
                "together at the crown, stiffened by a third across",
                lath=trammel.least_lath,
            ),
            Step("Draw", "crown nail out, pencil in the joint, laths kept on both end nails"),
        ),
        0.0,
        together(SETTING, SETTING),
        leaves_hole=True,
    )
    if arc.is_flat:
        yield _by_ordinates(arc, stations)
        yield _by_lath(arc, stations)


def _by_ordinates(arc: LargeArc, stations: int) -> Method:
    """Return points joined straight: between two of them the arc stands r(1 − cos) off."""
    points = arc.ordinates(stations)
    sag = max(_sag(arc, one, other) for one, other in pairwise(points))
    steps = tuple(
        Step.of("Station", "{out} from the middle, {up} up", out=point.out, up=point.up)
        for point in points
    )
    hand = together(SETTING, SETTING)
    return Method(
        "ordinates", (HandTool.TAPE,), Ordinates(points), (), steps, sag, hand, leaves_hole=False
    )


def _sag(arc: LargeArc, one: Ordinate, other: Ordinate) -> float:
    half = Point(one.out, one.up).distance_to(Point(other.out, other.up)) / 2
    return arc.radius - math.sqrt(max(arc.radius**2 - half**2, 0.0))


def _by_lath(arc: LargeArc, stations: int) -> Method:
    lath = SprungLath.for_arc(arc, stations)
    step = Step("Lath", "bent along nails at the stations above, a line drawn along it")
    return Method(
        "sprung lath",
        (HandTool.LATH,),
        lath,
        (),
        (step,),
        lath.farthest,
        together(SETTING, SETTING),
        leaves_hole=True,
    )
