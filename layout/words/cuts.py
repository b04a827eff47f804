"""What is told of cutting: each act by its type."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from ..cutting import cut as acts
from ..cutting.bench import FaceReason, WorkFace
from ..cutting.builds import Edging, FrameJoint, RimLoss, UnknownFrame
from ..cutting.mending import Mended
from ..cutting.plan import CornerCuts, Flatten, KnifeLines, Rest
from ..cutting.rough import KeptEdge
from ..cutting.router import QuarterFeed
from ..cutting.sides import SHORT_OF_CORNER
from ..cutting.tools import THINNEST_TRIM
from ..geometry.tolerance import SAME_FIGURE
from ..units import Tape
from . import edge, panel
from .say import Passage, Say, capital, listed, passage

SHOWS = 0.8  # an oval template that is out by more than this would be seen, mm (our choice)

_UNMEASURED = (
    "clamp the guide by the saw's own offset: make a test cut and measure from the kept side of "
    "the kerf to the edge of the base"
)


def words_of(act: object, say: Say) -> Passage:
    """Return what is told of an act of cutting, in the units of a tape and from a datum."""
    return ACTS[type(act)](act, say)


_REST = (
    "{days} days on sticks, air at both faces; then winding sticks: twist at most {twist:figure}, "
    "else flatten once more. Strike {again.datum.name} again through its marks on the ends, and "
    "set everything out from it, by the first page."
)

_KNIFED = (
    "Knife every saw line on the show face, through the veneer or a millimetre deep, along a "
    "straightedge, and tape it; a fine blade, fed slowly."
)

_FACE_UP = {
    FaceReason.ASKED: "as the job asks",
    FaceReason.STRUCK: "{} is struck on this face",
    FaceReason.TEETH: "the teeth of saw and jigsaw come up through the work and chip the face that "
    "lies up",
}


def _face(face: WorkFace, say: Say) -> Passage:
    lies, seen = "UP", "The drawings show it so."
    if face.mirrored:
        lies = "DOWN"
        seen = "From here the drawings are MIRRORED: the figures stay, left and right swap."
    why = _FACE_UP[face.why].format(say.datum.name)
    return passage("Which face up", f"Lay it show face {lies}: {why}. {seen}")


def _flattened(act: Flatten, say: Say) -> Passage:
    mended = f" Strike {act.mended_from} through its marks on the ends: mends are measured from it."
    tape = say.tape
    return passage(
        "Flatten",
        f"Carry {say.datum.name} down its ends with a knife; then plane or rout "
        f" both faces flat.{mended if act.mended_from else ''}",
        figures=((tape.figure(act.found), "as found"), (tape.figure(act.thickness), "when flat")),
    )


def sawn_words(trims: Sequence[acts.Trim], numbers: Mapping[str, int], say: Say) -> Passage:
    """Return how straight lines are sawn in turn, by the `numbers` of their labels on page one."""
    tape, held = say.tape, {f"Line {numbers[trim.label]}: ": trim for trim in trims}
    first, last, one = numbers[trims[0].label], numbers[trims[-1].label], len(trims) == 1
    sides = dict.fromkeys(trim.guide.blade_side for trim in trims if trim.guide is not None)
    words = f"Figures from the first page; {_UNMEASURED}"
    if sides:
        words = (
            f"Figures from the first page. Start {'it' if one else 'each line'} at its triangle, "
            f"guide on the {listed(sides, 'or')} of the blade and on the kept side: the hatched "
            "wood falls"
        )
    points = [f"{line}{words}" for line, trim in held.items() for words in _minded(trim, tape)]
    points += [
        f"{line}the other side of the base lies on the kept wood; {_UNMEASURED}"
        for line, trim in held.items()
        if sides and trim.guide is None
    ]
    return passage(
        f"Saw line {first}" if one else f"Saw lines {first} to {last}",
        words,
        "Hold up both sides of the cut.",
        points=points,
        warnings=(
            warning if one else f"{line}{warning}"
            for line, trim in held.items()
            for warning in _warnings(trim, tape)
        ),
    )


def _minded(cut: acts.Trim, tape: Tape) -> Iterator[str]:
    if cut.kind is acts.TrimKind.TO_CORNER:
        short = tape.figure(SHORT_OF_CORNER)
        yield f"stop {short} short of the hollow corner; nothing falls off yet"
    if cut.support is acts.Support.PEOPLE:
        yield "two supports on each side of the cut, a second person at the falling piece"


def _warnings(cut: acts.StraightCut, tape: Tape) -> Iterator[str]:
    if cut.wall is not None:
        yield tape.fill(
            "Beside the hole the piece that falls ({heaviest:mass}) is only {wall:figure} wide and "
            "breaks there: boards under it on both sides of the hole, and no hand or foot.",
            cut,
        )
    if isinstance(cut, acts.Trim) and cut.wanders:
        yield (
            "Much of what falls off is thinner than the kerf and "
            f"{tape.measure(THINNEST_TRIM)}: start where it is widest, go slowly."
        )


_SKIPPED = {
    acts.SkipReason.KEPT: "The edge is kept: the line runs along it.",
    acts.SkipReason.TOO_THIN: "{strip:fine} stands outside the line, a saw needs {needed:fine}: "
    'rout or plane to the line, or write margin = "{needed:at_least} {unit}" under [top] and lay '
    "out anew.",
    acts.SkipReason.TO_JIGSAW: "A saw would take off no more than jigsaw or router do on their way "
    "round.",
    acts.SkipReason.IN_THE_WAY: "{what} in its line: the jigsaw takes this side, round the top.",
}


def _skipped(side: acts.SkippedTrim, say: Say) -> Passage:
    along = f" along {side.edge}" if side.edge else ""
    what, unit = listed(side.in_the_way), say.tape.unit
    words = say.tape.fill(_SKIPPED[side.reason], side, what=what, unit=unit)
    return passage(capital(f"{side.kind.value}{along}"), words)


def _kept(edge: KeptEdge, say: Say) -> Passage:
    done = "Clean it, and leave it as it is."
    if edge.live:
        done = (
            "Bark off with a drawknife, held flat; loose fibre brushed out along the grain; break "
            "the arris by hand."
        )
    return passage(
        f"Kept edge {edge.name}".strip(),
        f"{say.tape.figure(edge.stretch.length)} of it is the top's edge as it is: no saw, router, "
        f"plane or profile. {done}",
    )


def _corners_cut(act: CornerCuts, say: Say) -> Passage:
    by_hand = [cut.label for cut in act.cuts if cut.handsaw]
    every = len(by_hand) == len(act.cuts)
    return passage(
        "Cut off the corners",
        "45° off the corners of the blank, by the figures of the first page.",
        not every and "Boards carry the falling piece too; no hand holds it.",
        bool(by_hand)
        and f"{'' if every else f'{listed(by_hand)}: '}Too short for a saw on a guide: with a "
        "handsaw, held upright, the work clamped.",
        warnings=(warning for cut in act.cuts for warning in _warnings(cut, say.tape)),
    )


def _jigsawed(cut: acts.JigsawCut, say: Say) -> Passage:
    return passage(
        "Jigsaw round it",
        "A fine blade, outside the line wherever no saw has been, as far as the first page says.",
        cut.thick
        and "Long blade, slowly: in wood this thick it takes rough waste only. Square on the "
        f"first {say.tape.measure(50.0)}, or stop.",
        cut.after_stopped
        and "Where a saw cut stops short of a hollow corner, a handsaw held upright does as well.",
        bool(cut.relief)
        and "Relief cuts from the edge to the line, a thumb apart, in the tight curve.",
        bool(cut.kept) and "It starts and ends in the air past the kept edge.",
    )


def _routed(cut: acts.RouterCut, say: Say) -> Passage:
    tape = say.tape
    far = (tape.figure(r.to_far_edge) for r in cut.radii if r.to_far_edge is not None)
    pins = listed(dict.fromkeys(far))
    beside = (
        "inside the line by half the width of the router's base less half the bit: measure"
        if cut.straightedge is None
        else f"{tape.figure(cut.straightedge)} inside the line: that is"
    )
    points = (
        *_template(cut, tape),
        pins and f"the pin is set to the near edge of the bit; to its far edge it is {pins}",
        cut.straights
        and f"straight sides along a straightedge, which stands {beside} from the near edge of the "
        "bit to the edge of the base",
        cut.stays_out > SAME_FIGURE
        and f"in a hollow corner the round bit stays {tape.small(cut.stays_out)} out: finish that "
        "by hand, with a chisel",
        bool(cut.kept)
        and (
            "cramp a strip behind the kept edge where the bit leaves it, or it breaks out"
            if cut.all_straight
            else "lift the router off before it comes to the kept edge; fair the last of it by hand"
        ),
    )
    return passage("Rout to the line", _feed(cut.feeds, downhill=cut.has_grain), points=points)


def _template(cut: acts.RouterCut, tape: Tape) -> Iterator[str]:
    template = cut.template
    if template is None:
        return
    side = "inside" if template.offset > 0 else "outside"
    offset = abs(template.offset)
    yield tape.fill(
        "where it follows a template, with a bush or bearing of {bush:figure} on a bit of "
        "{cutter:figure}, that stands {where}: {length:figure} by {width:figure}, the true "
        "parallel",
        template,
        where=f"{tape.figure(offset)} {side} the line" if offset > SAME_FIGURE else "on the line",
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

    def ways(face_up: bool | None = None, *, uphill: bool = False) -> str:
        held = (f for f in feeds if f.uphill is uphill and face_up in (None, f.show_face_up))
        return listed(f"{feed.start} to {feed.end}" for feed in held)

    if any(feed.uphill for feed in feeds):
        return (
            "the work stays as it was marked, for the pin's holes are in that face: "
            f"{ways()} downhill; {ways(uphill=True)} uphill, where the last passes take a hair "
            "each; straights last"
        )
    faces = {"up": ways(face_up=True), "down": ways(face_up=False)}
    told = ", ".join(f"show face {up} {quarters}" for up, quarters in faces.items() if quarters)
    return f"downhill, towards the end grain: {told}; straights last"


ACTS: dict[type, Callable[[Any, Say], Passage]] = {
    WorkFace: _face,
    Flatten: _flattened,
    Rest: lambda act, say: passage("Rest, mark again", say.tape.fill(_REST, act)),
    KnifeLines: lambda act, _: passage(
        "Knife the lines",
        act.below and "Turn it over, join the ends of the saw lines, knife them, and lay it back",
        _KNIFED,
    ),
    acts.Trim: lambda cut, say: sawn_words([cut], {cut.label: int(cut.label.split()[-1])}, say),
    acts.SkippedTrim: _skipped,
    KeptEdge: _kept,
    CornerCuts: _corners_cut,
    acts.JigsawCut: _jigsawed,
    acts.RouterCut: _routed,
    acts.HandCut: lambda cut, say: passage(
        "To the line by hand",
        "Plane, spokeshave and file, from the sides towards the end grain; check it is square.",
        figures=((say.tape.at_least(cut.most_waste), "stand outside it"),),
    ),
    Edging: edge.edging_words,
    Mended: panel.mend_words,
    RimLoss: panel.rim_words,
    FrameJoint: panel.joint_words,
    UnknownFrame: lambda *_: panel.UNKNOWN_FRAME,
}
"""What is told of each act by its type."""
