"""What is told of straight cuts, and of what a slab and its faces need around them."""

from __future__ import annotations

from collections.abc import Iterator

from ..cutting import (
    CornerCuts,
    FaceReason,
    Flatten,
    KeptEdge,
    KnifeLines,
    Rest,
    SkippedTrim,
    SkipReason,
    StraightCut,
    Trim,
    TrimKind,
    WorkFace,
)
from ..cutting.cut import Support
from ..cutting.sides import SHORT_OF_CORNER
from ..geometry.tolerance import SAME_FIGURE
from .cuts_told import face_words, line_table, line_words, lines_table, words_of
from .passage import Passage
from .say import Say, listed, sentence

_UNMEASURED = (
    "clamp the guide by the saw's own offset: make a test cut and measure from the kept side of "
    "the kerf to the edge of the base"
)

_HELD = {
    Support.PEOPLE: "two supports on each side of the cut, a second person at the falling piece",
    Support.BOARDS: "boards under the cut carry the strip along its whole length, so that it "
    "cannot bind",
    Support.PIECE: "boards carry the falling piece too, so that it neither hangs nor pinches the "
    "blade",
}


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
    return Passage("Which face up", (sentence(words),))


@words_of.register
def _(act: Flatten, say: Say) -> Passage:
    words = (
        f"Now that it is short there is less twist to lose: carry {say.datum.name} and both "
        "centrelines down the new ends with a knife; plane or rout both faces flat, from "
        f"{say.tape.figure(act.found)} to {say.tape.figure(act.thickness)}."
    )
    return Passage("Flatten", (words,))


@words_of.register
def _(act: Rest, say: Say) -> Passage:
    words = (
        f"{act.days} days on sticks, air at both faces; then winding sticks: twist at most "
        f"{say.tape.figure(act.twist)}, else flatten once more. Strike {act.again.datum.name} "
        "again through its marks on the ends, and set everything out once more from the table "
        "below."
    )
    return Passage("Rest, mark again", (words,))


@words_of.register
def _(act: KnifeLines, say: Say) -> Passage:
    where = "on the show face, which lies down" if act.below else "on the show face"
    words = (
        f"Knife every saw line {where}, through the veneer or a millimetre deep, along a "
        "straightedge, and tape it; a fine blade, fed slowly."
    )
    return Passage("Knife the lines", (words,))


@words_of.register
def _(cut: Trim, say: Say) -> Passage:
    parts = [face_words(say), f"saw line {line_words(cut.start, cut.end, cut.waste, say)}"]
    parts += _guide(cut, say)
    parts.append(f"depth {' then '.join(say.tape.figure(depth) for depth in cut.depths)}")
    if cut.kind.stops:
        parts.append(_stop(cut, say))
    else:
        upto = "" if cut.widest - cut.narrowest <= SAME_FIGURE else "up to "
        parts.append(f"offcut {upto}{say.tape.figure(cut.widest)} wide")
        parts.append(_HELD[cut.support])
    return Passage(
        f"{cut.label}: {cut.kind.value}",
        (sentence("; ".join(parts)),),
        tables=(line_table(cut, say),),
        warnings=tuple(_warnings(cut, say)),
    )


def _guide(cut: Trim, say: Say) -> Iterator[str]:
    guide = cut.guide
    if guide is None:
        yield _UNMEASURED
        return
    where = line_words(guide.start, guide.end, cut.waste, say)
    yield f"guide {where}, {guide.blade_side} of the blade, on the kept side"
    yield f"straightedge at least {say.tape.figure(cut.straightedge, at_least=True)} long"


def _stop(cut: Trim, say: Say) -> str:
    short = say.tape.figure(SHORT_OF_CORNER)
    if cut.kind is TrimKind.TO_CORNER:
        return f"stop {short} short of the hollow corner; nothing falls off yet"
    return (
        f"let the blade in {short} past the hollow corner and saw outwards to the edge; nothing "
        "falls off yet"
    )


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
    return Passage(f"No saw cut: {side.kind.value}{along}", (sentence(words),))


@words_of.register
def _(edge: KeptEdge, say: Say) -> Passage:
    length = say.tape.figure(edge.stretch.length)
    words = f"{length} of it is the top's edge as it is: no saw, router, plane or profile. "
    if edge.live:
        words += (
            "Bark off with a drawknife, held flat; loose fibre brushed out along the grain; break "
            "the arris by hand."
        )
    else:
        words += "Clean it, and leave it as it is."
    return Passage(" ".join(("Kept edge", edge.name)).strip(), (words,))


@words_of.register
def _(act: CornerCuts, say: Say) -> Passage:
    tape, cuts = say.tape, act.cuts
    words = [
        f"45° off the corners of the blank, {face_words(say)}, from place to place as in the table."
    ]
    legs = [cut.leg for cut in cuts if cut.leg is not None]
    if len(legs) == len(cuts) and max(legs) - min(legs) <= SAME_FIGURE:
        leg = tape.figure(tape.towards(legs[0], -1.0))
        words.append(f"That is {leg} along both edges from each corner, where the saw lines cross.")
    sawn = [cut for cut in cuts if not cut.handsaw]
    guides = {cut.guide.offset: cut.guide.blade_side for cut in sawn if cut.guide is not None}
    for offset, side in guides.items():
        words.append(
            f"Guide {tape.figure(offset)} inside the line, {side} of the blade, on the kept side."
        )
    if sawn and not guides:
        words.append(sentence(_UNMEASURED))
    depths = " then ".join(tape.figure(depth) for depth in cuts[0].depths)
    if sawn:
        words.append(f"Depth {depths}. Boards carry the falling piece too; no hand holds it.")
    if len(sawn) < len(cuts):
        names = "" if not sawn else f"{listed(cut.label for cut in cuts if cut.handsaw)}: "
        words.append(
            f"{names}Too short for a saw on a guide: with a handsaw, held upright, the work "
            "clamped."
        )
    warnings = tuple(warning for cut in cuts for warning in _warnings(cut, say))
    return Passage("Corner cuts", tuple(words), tables=(lines_table(cuts, say),), warnings=warnings)
