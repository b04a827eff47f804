"""What is told of cutting: each act by its type, the curve by its machine; what stands against."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..concern import Concern
from ..cutting.cut import HandCut, JigsawCut, RouterCut
from ..cutting.plan import CutMatter
from ..cutting.router import QuarterFeed
from ..geometry.tolerance import SAME_FIGURE
from ..work.blades import BladeMatter
from . import cuts_straight, edge, repairs
from .cuts_told import words_of
from .say import Passage, Say, listed, passage

__all__ = ["concern_words", "words_of"]

_REGISTERED = (cuts_straight, edge, repairs)
"""Importing them gives `words_of` its words."""


def concern_words(concern: Concern, say: Say) -> str:
    """Return one sentence about what stands against a plan of cuts, with what to do."""
    if concern.matter is CutMatter.NO_ROOM:
        return _no_room(concern, say)
    cut, *names = concern.who
    what = listed(names)
    if concern.matter is BladeMatter.CROSSES:
        return f"{cut} runs through {what}: take out any metal first, or lay the top elsewhere."
    return f"{cut} passes closer to {what} than its clearance: sweep there again first."


def _no_room(concern: Concern, say: Say) -> str:
    assert concern.found is not None and concern.limit is not None
    where = f"Along {listed(concern.who)}" if concern.who else "On one side"
    tape = say.tape
    found, needed = tape.exact(concern.found, 1), tape.exact(concern.limit, 1)
    margin = f"{tape.figure(concern.limit, at_least=True)} {tape.unit}"
    return (
        f"{where} only {found} {tape.unit} stands outside the line, and a saw needs {needed}: what "
        f'it leaves, its kerf and {tape.measure(3.0)} that fall off. Write margin = "{margin}" '
        "under [top] for a saw cut there, or rout or plane it."
    )


SHOWS = 0.8
"""An oval template that is out by more than this would be seen, mm (our choice)."""


@words_of.register
def _(cut: JigsawCut, say: Say) -> Passage:
    words = [
        "A fine blade, outside the line wherever no saw has been, as far as the first page says."
    ]
    if cut.thick:
        words.append("long blade, slowly: in wood this thick it takes rough waste only")
        words.append(f"square on the first {say.tape.measure(50.0)}, or stop")
    if cut.after_stopped:
        words.append(
            "where a saw cut stops short of a hollow corner, a handsaw, held upright, does as well"
        )
    if cut.relief:
        words.append("relief cuts from the edge to the line, a thumb apart, in the tight curve")
    if cut.kept:
        words.append("it starts and ends in the air past the kept edge")
    return passage("Jigsaw round it", *words)


@words_of.register
def _(cut: RouterCut, say: Say) -> Passage:
    parts = list(_template(cut, say))
    far = dict.fromkeys(
        say.tape.figure(swung.to_far_edge) for swung in cut.radii if swung.to_far_edge is not None
    )
    if far:
        parts.append(
            f"the pin is set to the near edge of the bit; to its far edge it is {listed(far)}"
        )
    if cut.straights:
        parts.append(_straightedge(cut, say))
    if cut.stays_out > SAME_FIGURE:
        parts.append(
            f"in a hollow corner the round bit stays {say.tape.small(cut.stays_out)} out: finish "
            "that by hand, with a chisel"
        )
    if cut.kept and cut.all_straight:
        parts.append("cramp a strip behind the kept edge where the bit leaves it, or it breaks out")
    elif cut.kept:
        parts.append(
            "lift the router off before it comes to the kept edge; fair the last of it by hand"
        )
    return passage("Rout to the line", _feed(cut.feeds, downhill=cut.has_grain), points=parts)


def _straightedge(cut: RouterCut, say: Say) -> str:
    if cut.straightedge is None:
        where = "inside the line by half the width of the router's base less half the bit: measure"
    else:
        where = f"{say.tape.figure(cut.straightedge)} inside the line: that is"
    return (
        f"straight sides along a straightedge, which stands {where} from the near edge of the bit "
        "to the edge of the base"
    )


def _template(cut: RouterCut, say: Say) -> Iterator[str]:
    template, tape = cut.template, say.tape
    if template is None:
        return
    side = "inside" if template.offset > 0 else "outside"
    offset = abs(template.offset)
    where = f"{tape.figure(offset)} {side} the line" if offset > SAME_FIGURE else "on the line"
    yield (
        f"where it follows a template, with a bush or bearing of {tape.figure(template.bush)} "
        f"on a bit of {tape.figure(template.cutter)}, that stands {where}: "
        f"{tape.figure(template.length)} by {tape.figure(template.width)}, the true parallel"
    )
    if template.off_oval > SHOWS:
        wrong = tape.figure(template.off_oval)
        yield f"an oval drawn anew to that size would be wrong by up to {wrong}"
    if cut.half_template:
        yield "half template, flipped on the long centreline, and a bearing bit"


def _feed(feeds: Sequence[QuarterFeed], *, downhill: bool) -> str:
    """Return which way the router goes: downhill in solid wood, else against the bit."""
    if not feeds and downhill:
        return (
            "downhill, from the long grain towards the end grain; where that runs with the turn of "
            "the bit, turn the work over"
        )
    if not feeds:
        return "anticlockwise round the work, seen from above"
    uphill = [feed for feed in feeds if feed.uphill]
    if uphill:
        return (
            "the work stays as it was marked, for the pin's holes are in that face: "
            f"{_ways(feeds)} downhill; {_ways(uphill, uphill=True)} uphill, where the last "
            "passes take a hair each; straights last"
        )
    ways = []
    for up in (True, False):
        quarters = [feed for feed in feeds if feed.show_face_up is up]
        if quarters:
            ways.append(f"show face {'up' if up else 'down'} {_ways(quarters)}")
    return f"downhill, towards the end grain: {', '.join(ways)}; straights last"


def _ways(feeds: Sequence[QuarterFeed], *, uphill: bool = False) -> str:
    return listed(f"{feed.start} to {feed.end}" for feed in feeds if feed.uphill is uphill)


@words_of.register
def _(cut: HandCut, say: Say) -> Passage:
    words = "Plane, spokeshave and file, from the sides towards the end grain; check it is square."
    figure = say.tape.figure(cut.most_waste, at_least=True)
    return passage("To the line by hand", words, figures=((figure, "stand outside it"),))
