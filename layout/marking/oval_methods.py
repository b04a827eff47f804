"""The ways to draw an oval, each with what it takes and how far it may be out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..errors import OutlineError
from ..geometry.point import Point
from .arc_ovals import EightCentreOval, FourCentreOval
from .instruments import Ordinate, TrammelRod
from .method import (
    BAR_PLAY,
    SETTING,
    TYING,
    HandTool,
    Method,
    Workshop,
    ranked,
    together,
)
from .step import Figure, Step
from .string_loop import StringLoop

_STATIONS = 9
"""Ordinates of a quarter of an oval, at equal eccentric angles of 10°."""


@dataclass(frozen=True, slots=True)
class OvalOrdinates:
    """Points of a quarter of an oval, from the end of the short axis to that of the long one."""

    ordinates: tuple[Ordinate, ...]

    @classmethod
    def for_oval(cls, length: float, width: float, exponent: float = 2.0) -> OvalOrdinates:
        """Return ordinates of an oval, or of a superellipse of another exponent.

        |2x/L|ⁿ + |2y/W|ⁿ = 1 at x = L/2·sin^(2/n), y = W/2·cos^(2/n) of equal angles, so that they
        stand closer where the line bends more.

        Raises
        ------
        OutlineError
            If the exponent is not above 1, or not ``0 < width <= length``.
        """
        if not (0 < width <= length < math.inf and 1 < exponent < math.inf):
            raise OutlineError(
                f"an oval by ordinates needs 0 < width <= length and an exponent above 1, not "
                f"{width:g} by {length:g} mm with {exponent:g}"
            )
        angles = (math.pi / 2 * i / _STATIONS for i in range(_STATIONS + 1))
        power = 2 / exponent
        held = [
            Ordinate(
                length / 2 * math.sin(angle) ** power,
                width / 2 * max(math.cos(angle), 0.0) ** power,
            )
            for angle in angles
        ]
        held[-1] = Ordinate(length / 2, 0.0)
        return cls(tuple(held))


def oval_methods(
    length: float, width: float, workshop: Workshop | None = None
) -> tuple[Method, ...]:
    """Return the ways to draw an oval `length` by `width`, mm; the first is the one to use.

    Raises
    ------
    OutlineError
        If not ``0 < width < length``.
    """
    if not 0 < width < length < math.inf:
        raise OutlineError(
            f"an oval needs 0 < width < length, not {width:g} by {length:g} mm; "
            "as long as wide it is a circle"
        )
    shop = workshop or Workshop()
    return ranked(_methods(length, width, shop), shop)


def _methods(length: float, width: float, shop: Workshop) -> Iterator[Method]:
    yield _string(length, width, shop)
    rod = _rod(length, width)
    yield rod
    yield _square(rod, shop)
    yield _arcs("four-centre oval, best", FourCentreOval.best(length, width), shop)
    try:
        forty_five = FourCentreOval.joined_at(length, width, math.pi / 4)
    except OutlineError:
        best = FourCentreOval.best(length, width)
        why = "arcs that meet at 45° leave no end: it is too long for its width"
        yield replace(_arcs("four-centre oval, 45°", best, shop), why_not=why)
    else:
        yield _arcs("four-centre oval, 45°", forty_five, shop)
    yield _arcs("eight-centre oval", EightCentreOval.for_oval(length, width), shop)
    yield _ordinates(length, width)


def _string(length: float, width: float, shop: Workshop) -> Method:
    """Return string and nails; a slip of the loop or of the nails shows most in the width."""
    loop = StringLoop.for_oval(length, width, shop.nail, shop.pencil, shop.stretch)
    apart = StringLoop(
        loop.nail_spacing + TYING, loop.loop, loop.nail, loop.pencil, loop.stretch
    ).drawn
    longer = loop.slipped(TYING)
    slips = [
        max(abs(drawn.width - width), abs(drawn.length - length)) / 2 for drawn in (apart, longer)
    ]
    exact = shop.nail == shop.pencil
    half = loop.nail_spacing / 2
    steps = (
        Step.of(
            "Nails",
            "on the long centreline, {half} each side of O, {spacing} apart; from each to the end "
            "of the short axis {check} exactly",
            half=half,
            spacing=loop.nail_spacing,
            check=length / 2,
        ),
        Step.of(
            "Loop",
            "tie a closed loop {loop} long, slack: that counts nails of {nail}, a pencil of "
            f"{{pencil}} where the string runs, and {shop.stretch:.1%} of stretch",
            loop=loop.loop,
            nail=shop.nail,
            pencil=shop.pencil,
        ),
        _slip_step(loop),
        Step.of(
            "Draw",
            "pencil notched to the nail, string taut and low; try the width, {width}, before the "
            "whole line is drawn",
            width=width,
        ),
    )
    return Method(
        "string and nails",
        (HandTool.STRING,),
        loop,
        shop.pivots(N1=Point(-half, 0.0), N2=Point(half, 0.0)),
        steps,
        0.0 if exact else loop.farthest_from_ellipse(length, width),
        together(*slips),
        leaves_hole=True,
    )


SLIP = 3.175
"""The slip of a loop by which a step shows what slips do, mm: 1/8 in."""


def _slip_step(loop: StringLoop) -> Step:
    slipped, drawn = loop.slipped(SLIP), loop.drawn
    return Step.of(
        "If it slips",
        "a loop {slip} too long makes the top {longer} longer but {wider} wider: tie it again "
        "until the width is right",
        slip=SLIP,
        longer=slipped.length - drawn.length,
        wider=slipped.width - drawn.width,
    )


def _rod(length: float, width: float) -> Method:
    rod = TrammelRod.for_oval(length, width)
    steps = (
        Step.of(
            "Rod",
            "from the pencil one pin at {short}, the other at {long}",
            short=rod.to_long_axis_pin,
            long=rod.to_short_axis_pin,
        ),
        Step(
            "Draw",
            "the near pin on the long centreline, the far one on the short; mark many points, or "
            "slide the pins along straightedges",
        ),
    )
    hand = together(SETTING, SETTING, SETTING)
    return Method("trammel rod", (HandTool.ROD,), rod, (), steps, 0.0, hand, leaves_hole=False)


def _square(rod: Method, shop: Workshop) -> Method:
    """Return the framing square as a guide for the rod's pins: its arms must reach (L − W)/2."""
    apart = rod.figures.pins_apart
    short = shop.square_arm < apart
    why = "its shorter arm, {arm}, does not reach the {run} that the pins run" if short else ""
    limits = (Figure("arm", shop.square_arm), Figure("run", apart)) if short else ()
    guide = Step("Square", "lay it on the centrelines, one quarter after the other; pins inside it")
    return replace(
        rod,
        name="framing square",
        tools=(HandTool.SQUARE, HandTool.ROD),
        steps=(guide, *rod.steps),
        hand_error=together(rod.hand_error, SETTING),
        why_not=why,
        limits=limits,
    )


def _arcs(name: str, oval: FourCentreOval | EightCentreOval, shop: Workshop) -> Method:
    places = {
        "end 1": Point(-oval.end_centre, 0.0),
        "end 2": Point(oval.end_centre, 0.0),
        "side 1": Point(0.0, -oval.side_centre),
        "side 2": Point(0.0, oval.side_centre),
    }
    steps = [
        Step.of(
            "Ends",
            "centres on the long centreline, {end_centre} from O; radius {end_radius}",
            end_centre=oval.end_centre,
            end_radius=oval.end_radius,
        ),
        Step.of(
            "Sides",
            "centres on the short centreline, {side_centre} from O, on the far side; radius "
            "{side_radius}",
            side_centre=oval.side_centre,
            side_radius=oval.side_radius,
        ),
    ]
    if isinstance(oval, EightCentreOval):
        at = oval.middle_centre
        for i, (h, v) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1)), start=1):
            places[f"between {i}"] = Point(at.x * h, at.y * v)
        steps.insert(
            1,
            Step.of(
                "Between",
                "centres {out} along and {up} across from O, beyond the long centreline; radius "
                "{radius}",
                out=abs(at.x),
                up=abs(at.y),
                radius=oval.middle_radius,
            ),
        )
    return Method(
        name,
        (HandTool.BAR,),
        oval,
        shop.pivots(**places),
        tuple(steps),
        oval.farthest_from_ellipse,
        together(BAR_PLAY, SETTING),
        leaves_hole=True,
    )


def _ordinates(length: float, width: float) -> Method:
    """Return points joined by straight lines; a lath bent round them lies nearer still."""
    table = OvalOrdinates.for_oval(length, width)
    sag = length / 2 * (1 - math.cos(math.pi / 4 / _STATIONS))
    steps = [
        Step.of(f"Point {i}", "{out} out from O along, {up} up", out=point.out, up=point.up)
        for i, point in enumerate(table.ordinates, start=1)
    ]
    steps.append(Step("Draw", "the same in all four quarters; a lath through them"))
    return Method(
        "ordinates",
        (HandTool.TAPE,),
        table,
        (),
        tuple(steps),
        sag,
        together(SETTING, SETTING),
        leaves_hole=False,
    )
