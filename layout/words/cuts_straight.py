"""What is told of straight cuts, and of what a slab and its faces need around them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..cutting.bench import FaceReason, WorkFace
from ..cutting.cut import SkippedTrim, SkipReason, StraightCut, Support, Trim, TrimKind
from ..cutting.plan import CornerCuts, Flatten, KnifeLines, Rest
from ..cutting.rough import KeptEdge
from ..cutting.sides import SHORT_OF_CORNER
from .cuts_told import words_of
from .say import Passage, Say, capital, listed, passage

_UNMEASURED = (
    "clamp the guide by the saw's own offset: make a test cut and measure from the kept side of "
    "the kerf to the edge of the base"
)


@words_of.register
def _(face: WorkFace, say: Say) -> Passage:
    why = {
        FaceReason.ASKED: "as the job asks",
        FaceReason.STRUCK: f"{say.datum.name} is struck on this face",
        FaceReason.TEETH: "the teeth of saw and jigsaw come up through the work and chip the face "
        "that lies up",
    }[face.why]
    if face.mirrored:
        words = (
            f"lay it show face DOWN: {why}. From here the drawings are MIRRORED: the figures stay, "
            "left and right swap."
        )
    else:
        words = f"lay it show face UP: {why}. The drawings show it so."
    return passage("Which face up", words)


@words_of.register
def _(act: Flatten, say: Say) -> Passage:
    words = (
        f"Carry {say.datum.name} and both centrelines down its ends with a knife; then plane or "
        "rout both faces flat."
    )
    if act.mended_from:
        words += (
            f" Strike {act.mended_from} through its marks on the ends: mends are measured from it."
        )
    tape = say.tape
    figures = ((tape.figure(act.found), "as found"), (tape.figure(act.thickness), "when flat"))
    return passage("Flatten", words, figures=figures)


@words_of.register
def _(act: Rest, say: Say) -> Passage:
    return passage(
        "Rest, mark again",
        f"{act.days} days on sticks, air at both faces; then winding sticks: twist at most "
        f"{say.tape.figure(act.twist)}, else flatten once more. Strike {act.again.datum.name} "
        "again through its marks on the ends, and set everything out once more from the "
        "first page.",
    )


@words_of.register
def _(act: KnifeLines, say: Say) -> Passage:
    where = "on the show face, which lies down" if act.below else "on the show face"
    return passage(
        "Knife the lines",
        f"Knife every saw line {where}, through the veneer or a millimetre deep, along a "
        "straightedge, and tape it; a fine blade, fed slowly.",
    )


@words_of.register
def _(cut: Trim, say: Say) -> Passage:
    return sawn_words([cut], {cut.label: int(cut.label.split()[-1])}, say)


def sawn_words(trims: Sequence[Trim], numbers: Mapping[str, int], say: Say) -> Passage:
    """Return how straight lines are sawn in turn, by the `numbers` of their labels on page one."""
    held = [numbers[trim.label] for trim in trims]
    one = len(held) == 1
    title = f"Saw line {held[0]}" if one else f"Saw lines {held[0]} to {held[-1]}"
    sides = dict.fromkeys(trim.guide.blade_side for trim in trims if trim.guide is not None)
    words = f"Figures from the first page; {_UNMEASURED}"
    if sides:
        words = (
            f"Figures from the first page. Start {'it' if one else 'each line'} at its triangle, "
            f"guide on the {listed(sides, 'or')} of the blade and on the kept side: the hatched "
            "wood falls"
        )
    points = [f"Line {numbers[t.label]}: {words}" for t in trims for words in _minded(t, say)]
    points += [
        f"Line {numbers[t.label]}: the other side of the base lies on the kept wood; {_UNMEASURED}"
        for t in trims
        if sides and t.guide is None
    ]
    lines = {numbers[t.label]: _warnings(t, say) for t in trims}
    warnings = (w if one else f"Line {n}: {w}" for n, told in lines.items() for w in told)
    hold = "Hold up both sides of the cut."
    return passage(title, words, hold, points=points, warnings=warnings)


def _minded(cut: Trim, say: Say) -> Iterator[str]:
    short = say.tape.figure(SHORT_OF_CORNER)
    if cut.kind is TrimKind.TO_CORNER:
        yield f"stop {short} short of the hollow corner; nothing falls off yet"
    if cut.support is Support.PEOPLE:
        yield "two supports on each side of the cut, a second person at the falling piece"


def _warnings(cut: StraightCut, say: Say) -> Iterator[str]:
    if cut.wall is not None:
        yield (
            f"Beside the hole the piece that falls ({say.tape.mass(cut.heaviest)}) is only "
            f"{say.tape.figure(cut.wall)} wide and breaks there: carry it on both sides of the "
            "hole, and keep hands and feet from under it."
        )
    if isinstance(cut, Trim) and cut.wanders:
        yield (
            f"Much of what falls off is thinner than the kerf and {say.tape.measure(3.0)}: start "
            "where it is widest, go slowly."
        )


@words_of.register
def _(side: SkippedTrim, say: Say) -> Passage:
    along = f" along {side.edge}" if side.edge else ""
    needed = say.tape.exact(side.needed, 1)
    words = {
        SkipReason.KEPT: "the edge is kept: the line runs along it",
        SkipReason.TOO_THIN: f"{say.tape.exact(side.strip, 1)} stands outside the line, a saw "
        f"needs {needed}: rout or plane to the line",
        SkipReason.TO_JIGSAW: "a saw would take off no more than jigsaw or router do on their way "
        "round",
        SkipReason.IN_THE_WAY: f"{listed(side.in_the_way)} in its line: the jigsaw takes this "
        "side, round the top",
    }[side.reason]
    return passage(capital(f"{side.kind.value}{along}"), words)


@words_of.register
def _(edge: KeptEdge, say: Say) -> Passage:
    length = say.tape.figure(edge.stretch.length)
    words = f"{length} of it is the top's edge as it is: no saw, router, plane or profile. " + (
        "Bark off with a drawknife, held flat; loose fibre brushed out along the grain; break the "
        "arris by hand."
        if edge.live
        else "Clean it, and leave it as it is."
    )
    return passage(f"Kept edge {edge.name}".strip(), words)


@words_of.register
def _(act: CornerCuts, say: Say) -> Passage:
    cuts = act.cuts
    by_hand = [cut.label for cut in cuts if cut.handsaw]
    words = ["45° off the corners of the blank, by the figures of the first page."]
    if len(by_hand) < len(cuts):
        words.append("Boards carry the falling piece too; no hand holds it.")
    if by_hand:
        which = "" if len(by_hand) == len(cuts) else f"{listed(by_hand)}: "
        words.append(
            f"{which}Too short for a saw on a guide: with a handsaw, held upright, the work "
            "clamped."
        )
    warnings = (warning for cut in cuts for warning in _warnings(cut, say))
    return passage("Cut off the corners", *words, warnings=warnings)
