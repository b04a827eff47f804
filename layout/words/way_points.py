"""What is done to draw a line, by the figures that a way to draw sets: each kind has its words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import singledispatch

from ..marking.arc_ovals import EightCentreOval, FourCentreOval
from ..marking.arcs import ArchTrammel, LargeArc, SprungLath
from ..marking.instruments import StringLoop, Swing, TrammelRod
from ..marking.method import FullSize, HandTool, JoinedCorners, Method
from ..marking.methods import Ordinates, SquareAndHalfDiagonal, SteppedCircle
from ..marking.oval_methods import OvalOrdinates, SuperellipseOrdinates
from ..units import MM_PER_INCH, Tape
from .say import thin_words

SLIPS = (MM_PER_INCH / 8, 3.0)
"""The slip of a loop by which it is shown what slips do, on a tape in inches and in mm; mm."""

PRICKED_EVERY = 20.0
"""How far apart a printed line is pricked through, mm (our choice)."""

SOME_STRAIGHTS = (
    "Join: each straight side that is cut from mark to mark, with a straightedge; an edge of the "
    "panel that stays needs no line."
)


@singledispatch
def points_in(figures: object, method: Method, tape: Tape) -> Iterator[str]:
    """Yield what is done with the figures of a way; they are set in the method's place."""
    raise TypeError(f"{type(figures).__name__} is no way to draw that has words")


@points_in.register
def _(loop: StringLoop, method: Method, tape: Tape) -> Iterator[str]:
    half, width = loop.nail_spacing / 2, loop.drawn.width
    yield (
        f"Nails: on the long centreline, {tape.figure(half)} each side of O, "
        f"{tape.figure(loop.nail_spacing)} apart; from each to the end of the short axis "
        f"{tape.figure(math.hypot(half, width / 2))} exactly."
    )
    yield (
        f"Loop: tie a closed loop {tape.figure(loop.loop)} long, slack: that counts nails of "
        f"{thin_words(loop.nail, tape)}, a pencil of {thin_words(loop.pencil, tape)} where the "
        f"string runs, and {loop.stretch:.1%} of stretch."
    )
    slip = SLIPS[not tape.imperial]
    slipped, drawn = loop.slipped(slip), loop.drawn
    yield (
        f"If it slips: a loop {tape.figure(slip)} too long makes the top "
        f"{tape.figure(slipped.length - drawn.length)} longer but "
        f"{tape.figure(slipped.width - drawn.width)} wider: tie it again until the width is right."
    )
    yield (
        f"Draw: pencil notched to the nail, string taut and low; try the width, "
        f"{tape.figure(width)}, before the whole line is drawn."
    )


@points_in.register
def _(rod: TrammelRod, method: Method, tape: Tape) -> Iterator[str]:
    yield (
        f"Rod: from the pencil one pin at {tape.figure(rod.to_long_axis_pin)}, the other at "
        f"{tape.figure(rod.to_short_axis_pin)}."
    )
    yield (
        "Draw: the near pin on the long centreline, the far one on the short; mark many points, or "
        "slide the pins along straightedges."
    )


@points_in.register
def _(oval: FourCentreOval | EightCentreOval, method: Method, tape: Tape) -> Iterator[str]:
    yield (
        f"Ends: centres on the long centreline, {tape.figure(oval.end_centre)} from O; radius "
        f"{tape.figure(oval.end_radius)}."
    )
    if isinstance(oval, EightCentreOval):
        at = oval.middle_centre
        yield (
            f"Between: centres {tape.figure(abs(at.x))} along and {tape.figure(abs(at.y))} across "
            f"from O, beyond the long centreline; radius {tape.figure(oval.middle_radius)}."
        )
    yield (
        f"Sides: centres on the short centreline, {tape.figure(oval.side_centre)} from O, on the "
        f"far side; radius {tape.figure(oval.side_radius)}."
    )


@points_in.register
def _(
    table: OvalOrdinates | SuperellipseOrdinates | Ordinates, method: Method, tape: Tape
) -> Iterator[str]:
    alike = "to both sides" if isinstance(table, Ordinates) else "in all four quarters"
    yield f"Draw: the points of the table, the same {alike}; a lath through them."


@points_in.register
def _(swing: Swing, method: Method, tape: Tape) -> Iterator[str]:
    radius = tape.figure(swing.radius)
    yield {
        HandTool.STRING: f"Swing: string from the centre to the pencil {radius}.",
        HandTool.BAR: f"Swing: point to pencil {radius}.",
        HandTool.ROUTER: f"Swing: pin to the near edge of the bit {radius}.",
        HandTool.TEMPLATE: f"Template: a corner of radius {radius} cut once in thin board, laid to "
        "both straights.",
    }[method.tools[0]]


@points_in.register
def _(arc: LargeArc, method: Method, tape: Tape) -> Iterator[str]:
    way = "away from" if arc.is_flat else "towards"
    yield (
        f"Swing: centre {tape.figure(abs(arc.centre_below))} from the middle of the chord, {way} "
        f"the arc; radius {tape.figure(arc.radius)}."
    )


@points_in.register
def _(trammel: ArchTrammel, method: Method, tape: Tape) -> Iterator[str]:
    yield (
        f"Nails: at both ends of the chord, {tape.figure(trammel.chord)} apart, and at the crown, "
        f"{tape.figure(trammel.rise)} up."
    )
    yield (
        f"Laths: each at least {tape.figure(trammel.least_lath)} long, laid from an end to the "
        "crown and past it; screw them together at the crown, stiffened by a third across."
    )
    yield "Draw: crown nail out, pencil in the joint, laths kept on both end nails."


@points_in.register
def _(lath: SprungLath, method: Method, tape: Tape) -> Iterator[str]:
    at = ", ".join(f"{tape.figure(o.out)} out {tape.figure(o.up)} up" for o in lath.ordinates)
    yield (
        f"Lath: bent along nails at {at}, from the middle of the chord to both sides; a line drawn "
        "along it."
    )


@points_in.register
def _(top: SteppedCircle, method: Method, tape: Tape) -> Iterator[str]:
    radius = tape.figure(top.radius)
    yield f"Circle: about O, radius {radius}: it must pass both ends of the long axis, E1 and E2."
    yield (
        f"Step: the same {radius} from E1 to both sides on the circle, and from E2; the two gaps "
        f"that are left over must be {radius} too."
    )
    yield "Join: the six marks, one after the other, with a straightedge."


@points_in.register
def _(top: SquareAndHalfDiagonal, method: Method, tape: Tape) -> Iterator[str]:
    yield (
        f"Square: {tape.figure(top.square)} each way round O, its sides through E1, E2, S1 and S2; "
        f"both diagonals {tape.figure(2 * top.half_diagonal)}."
    )
    yield (
        f"Strike: from each corner of the square half the diagonal, "
        f"{tape.figure(top.half_diagonal)}, onto both of its sides; each mark then stands "
        f"{tape.figure(top.cut_off)} from the next corner."
    )
    yield "Join: the two marks beside each corner of the square."


@points_in.register
def _(corners: JoinedCorners, method: Method, tape: Tape) -> Iterator[str]:
    all_round = "Join: the corners as marked, one after the other, with a straightedge."
    yield all_round if corners.all_round else SOME_STRAIGHTS


@points_in.register
def _(top: FullSize, method: Method, tape: Tape) -> Iterator[str]:
    yield (
        "Sheets: print the template at 100 % and prove both bars on it; joined, it is "
        f"{tape.figure(top.length)} long and {tape.figure(top.width)} wide."
    )
    yield (
        "Lay: its centrelines on those of the panel, and tape it down; look at the marks that both "
        "have."
    )
    yield (
        f"Prick: through the line every {tape.measure(PRICKED_EVERY)}, closer where it bends; join "
        "with a lath."
    )
