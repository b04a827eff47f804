"""What is done to draw a line, by the figures that a way to draw sets: each kind has its words."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from ..marking.arcs import ArchTrammel, EightCentreOval, FourCentreOval, LargeArc, SprungLath
from ..marking.instruments import Ordinate, StringLoop, Swing, TrammelRod
from ..marking.method import Against, FullSize, HandTool, JoinedCorners, Method, Pivot
from ..marking.methods import Ordinates, SquareAndHalfDiagonal, SteppedCircle
from ..marking.oval_methods import OvalOrdinates, SuperellipseOrdinates
from ..units import MM_PER_INCH, Tape
from .say import Table, table

Named = Callable[[Pivot], str]
"""How a pivot is called: the label of the mark that it stands in, or its own name."""

PRICKED_EVERY = 20.0
"""How far apart a printed line is pricked through, mm (our choice)."""

_ALL_ROUND = "Join: the corners as marked, one after the other, with a straightedge."
_SOME_STRAIGHTS = (
    "Join: each straight side that is cut from mark to mark, with a straightedge; an edge of the "
    "panel that stays needs no line."
)
_ENDS = (
    "Ends: centres on the long centreline, {end_centre:figure} from O; radius {end_radius:figure}."
)
_SIDES = (
    "Sides: centres on the short centreline, {side_centre:figure} from O, on the far side; radius "
    "{side_radius:figure}."
)
_TABLE = "Draw: the points of the table, the same in all four quarters; a lath through them."

_POINTS: dict[type, str] = {
    StringLoop: "Nails: on the long centreline, {half:figure} each side of O, "
    "{nail_spacing:figure} apart; from each to the end of the short axis {to_side:figure} "
    "exactly.\n"
    "Loop: tie a closed loop {loop:figure} long, slack: that counts nails of {nail:thin}, a "
    "pencil of {pencil:thin} where the string runs, and {stretch:.1%} of stretch.\n"
    "If it slips: a loop {slip:figure} too long makes the top {longer:figure} longer but "
    "{wider:figure} wider: tie it again until the width is right.\n"
    "Draw: pencil notched to the nail, string taut and low; try the width, {drawn.width:figure}, "
    "before the whole line is drawn.",
    TrammelRod: "Rod: from the pencil one pin at {to_long_axis_pin:figure}, the other at "
    "{to_short_axis_pin:figure}.\n"
    "Draw: the near pin on the long centreline, the far one on the short; mark many points, or "
    "slide the pins along straightedges.",
    FourCentreOval: f"{_ENDS}\n{_SIDES}",
    EightCentreOval: f"{_ENDS}\n"
    "Between: centres {along:figure} along and {across:figure} across from O, beyond the long "
    "centreline; radius {middle_radius:figure}.\n"
    f"{_SIDES}",
    OvalOrdinates: _TABLE,
    SuperellipseOrdinates: _TABLE,
    Ordinates: "Draw: the points of the table, the same to both sides; a lath through them.",
    LargeArc: "Swing: centre {below:figure} from the middle of the chord, {way} the arc; radius "
    "{radius:figure}.",
    ArchTrammel: "Nails: at both ends of the chord, {chord:figure} apart, and at the crown, "
    "{rise:figure} up.\n"
    "Laths: each at least {least_lath:figure} long, laid from an end to the crown and past it; "
    "screw them together at the crown, stiffened by a third across.\n"
    "Draw: crown nail out, pencil in the joint, laths kept on both end nails.",
    SprungLath: "Lath: bent along nails at {at}, from the middle of the chord to both sides; a "
    "line drawn along it.",
    SteppedCircle: "Circle: about O, radius {radius:figure}: it must pass both ends of the long "
    "axis, E1 and E2.\n"
    "Step: the same {radius:figure} from E1 to both sides on the circle, and from E2; the two "
    "gaps that are left over must be {radius:figure} too.\n"
    "Join: the six marks, one after the other, with a straightedge.",
    SquareAndHalfDiagonal: "Square: {square:figure} each way round O, its sides through E1, E2, "
    "S1 and S2; both diagonals {diagonal:figure}.\n"
    "Strike: from each corner of the square half the diagonal, {half_diagonal:figure}, onto both "
    "of its sides; each mark then stands {cut_off:figure} from the next corner.\n"
    "Join: the two marks beside each corner of the square.",
    FullSize: "Sheets: print the template at 100 % and prove both bars on it; joined, it is "
    "{length:figure} long and {width:figure} wide.\n"
    "Lay: its centrelines on those of the panel, and tape it down; look at the marks that both "
    "have.\n"
    "Prick: through the line every {pricked:measure}, closer where it bends; join with a lath.",
}
"""What is done with the figures of a way, by their kind, each in a line; they are set in the
method's place."""

_SWUNG = {
    HandTool.STRING: "Swing: string from the centre to the pencil {radius:figure}, {about}.",
    HandTool.BAR: "Swing: point to pencil {radius:figure}, {about}.",
    HandTool.ROUTER: "Swing: pin to the near edge of the bit {radius:figure}, {about}.",
    HandTool.TEMPLATE: "Template: a corner of radius {radius:figure} cut once in thin board, laid "
    "to both straights, {about}.",
}


def points_of(method: Method, tape: Tape, named: Named = lambda pivot: pivot.name) -> list[str]:
    """Return what is done to draw a line, one thing after the other."""
    figures = method.figures
    if isinstance(figures, Swing):
        points = [_SWUNG[method.tools[0]]]
    elif isinstance(figures, JoinedCorners):
        points = [_ALL_ROUND if figures.all_round else _SOME_STRAIGHTS]
    else:
        points = _POINTS[type(figures)].splitlines()
    square = "Square: lay it on the centrelines, one quarter after the other; pins inside it."
    points = [square] * (HandTool.SQUARE in method.tools) + points
    points += [_SOME_STRAIGHTS] * bool(method.joins)
    more = _more(method, tape, named)
    return [tape.fill(words, figures, **more) for words in points]


def _more(method: Method, tape: Tape, named: Named) -> dict[str, Any]:
    """Return what the words of a way need besides its figures."""
    more: dict[str, Any] = {}
    match method.figures:
        case StringLoop() as loop:
            half, slip = loop.nail_spacing / 2, MM_PER_INCH / 8 if tape.imperial else 3.0
            slipped, drawn = loop.slipped(slip), loop.drawn
            more = {"half": half, "to_side": math.hypot(half, drawn.width / 2), "slip": slip}
            more["longer"], more["wider"] = (
                slipped.length - drawn.length,
                slipped.width - drawn.width,
            )
        case EightCentreOval(middle_centre=at):
            more = {"along": abs(at.x), "across": abs(at.y)}
        case Swing():
            more = {"about": about_words(method, named)}
        case LargeArc() as arc:
            more = {
                "below": abs(arc.centre_below),
                "way": "away from" if arc.is_flat else "towards",
            }
        case SprungLath() as lath:
            nails = (tape.fill("{out:figure} out {up:figure} up", each) for each in lath.ordinates)
            more = {"at": ", ".join(nails)}
        case SquareAndHalfDiagonal() as top:
            more = {"diagonal": 2 * top.half_diagonal}
        case FullSize():
            more = {"pricked": PRICKED_EVERY}
    return more


def about_words(method: Method, named: Named) -> str:
    """Return which marks a radius is swung about."""
    names = [named(pivot) for pivot in method.pivots]
    return f"about {', '.join(names)}" if names else f"at {len(method.figures.centres)} corners"


def ordinates_table(figures: object, tape: Tape) -> Table | None:
    """Return the points of a way that goes by ordinates, of a quarter; None for another way."""
    match figures:
        case OvalOrdinates() | SuperellipseOrdinates():
            return ordinates_in(figures.ordinates, tape, "The same in all four quarters.")
        case Ordinates():
            about = "the middle of the chord"
            return ordinates_in(figures.ordinates, tape, "The same to both sides.", about)
    return None


def ordinates_in(
    points: Sequence[Ordinate], tape: Tape, caption: str, about: str = "O along the long axis"
) -> Table:
    """Return points of a line, each by two lengths."""
    columns = {f"Out from {about}": "{out:figure}", "Up from it": "{up:figure}"}
    return table(points, columns, caption, tape)


_AGAINST = {
    Against.NO_TOOL: "no {who} at hand",
    Against.NO_END: "arcs that meet at 45° leave no end: it is too long for its width",
    Against.SHORT_TONGUE: "its tongue, {found:figure}, does not reach the {limit:figure} that the "
    "pins run",
}


def against_words(method: Method, tape: Tape) -> str:
    """Return why a way does not serve here, as a clause; empty where it does."""
    against = method.against
    if against is None:
        return ""
    return tape.fill(_AGAINST[Against(against.matter)], against, who=" and no ".join(against.who))
