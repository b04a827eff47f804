"""Mends, the rim of a hollow panel and the joints of a framed one, in words."""

from __future__ import annotations

from ..cutting.builds import FrameJoint, RimLoss, UnknownFrame
from ..cutting.mending import Mended
from ..panel.defect import Mend
from ..units import Tape
from .cuts_told import words_of
from .say import Passage, Say, listed, sentence


@words_of.register
def mend_words(mend: Mended, say: Say) -> Passage:
    """Return how a defect is mended."""
    tape = say.tape
    words = _HOW[mend.how](mend, tape)
    if mend.proud:
        words += f"; leave it {tape.figure(mend.proud)} proud, {mend.wait:g} h, then level"
    return Passage(f"Mend {mend.defect}", (sentence(words),))


def _plug(mend: Mended, tape: Tape) -> str:
    through = " (right through, a board clamped behind)" if mend.through else ""
    grain = ", its grain along the panel's" if mend.grained else ""
    kind = "face-grain plug" if mend.grained else "plug"
    return (
        f"bore clean to {tape.figure(mend.length)}, {tape.figure(mend.depth)} deep{through}; glue "
        f"in a {kind} of the same diameter{grain}"
    )


def _keys(mend: Mended, tape: Tape) -> str:
    count = len(mend.places)
    keys, places = ("keys", "places") if count > 1 else ("key", "place")
    return (
        f"{count} bow-tie {keys} {tape.figure(mend.length)} long, {tape.figure(mend.width)} wide "
        f"and {tape.figure(mend.depth)} deep, their grain across it, at the {places} drawn; fill "
        "what is left of the split, glue"
    )


def _patch(mend: Mended, tape: Tape) -> str:
    grain = ", its grain along the panel's" if mend.grained else ""
    return (
        f"a patch {tape.figure(mend.length)} by {tape.figure(mend.width)}, "
        f"{tape.figure(mend.depth)} deep{grain}: knife round it, rout inside the knife line, glue"
    )


def _filler(mend: Mended, tape: Tape) -> str:
    return (
        "clean it down to sound wood; press in two-part filler of the colour of the finished wood "
        f"{_in_layers(mend, tape)}"
    )


def _resin(mend: Mended, tape: Tape) -> str:
    dam = "tape and a board under it, as it goes right through" if mend.through else "level it"
    return (
        f"clean it, seal its sides with a thin coat; {dam}; pour resin "
        f"{_in_layers(mend, tape)} or as its maker says; prick the bubbles"
    )


def _in_layers(mend: Mended, tape: Tape) -> str:
    deep = tape.figure(mend.depth)
    if mend.layers == 1:
        return f"{deep} deep at once"
    return f"{deep} deep in {mend.layers} layers, each hard before the next"


def _sanded(mend: Mended, tape: Tape) -> str:
    way = ", along the grain," if mend.grained else ""
    return (
        f"sand {tape.small(mend.depth)} off{way} and fade it out over a patch "
        f"{tape.figure(mend.length)} by {tape.figure(mend.width)}, so that no hollow is felt"
    )


_HOW = {
    Mend.PLUG: _plug,
    Mend.KEY: _keys,
    Mend.PATCH: _patch,
    Mend.FILLER: _filler,
    Mend.RESIN: _resin,
    Mend.SAND: _sanded,
}


@words_of.register
def rim_words(loss: RimLoss, say: Say) -> Passage:
    """Return what is done where the line leaves the solid rim of a hollow panel."""
    count = len(loss.stretches)
    where = "along one stretch" if count == 1 else f"along {count} stretches"
    if loss.is_all_round:
        where = "all the way round"
    length = say.tape.figure(loss.length)
    words = (
        f"the line leaves the solid rim {where}, {length} in all (drawn thick): "
        "after the cut rake the core back, glue a new strip between the skins all along there, "
        "24 h, then go to the line"
    )
    return Passage("Hollow core", (sentence(words),))


@words_of.register
def joint_words(joint: FrameJoint, say: Say) -> Passage:
    """Return what is done about a joint that cuts run through."""
    verb = "run" if len(joint.cuts) > 1 else "runs"
    words = (
        f"{listed(joint.cuts) or 'the curve'} {verb} through the joint at the {joint.name}, "
        "show face up: it may fall apart or hold a nail or dowel; cramp it, sweep for "
        "metal, and glue it anew"
    )
    return Passage(f"Frame joint, {joint.name}", (sentence(words),))


@words_of.register
def unknown_words(act: UnknownFrame, say: Say) -> Passage:
    """Return what is done about joints that nobody knows the place of."""
    words = "The widths of stiles and rails are not known: find the joints and keep cuts off them."
    return Passage("Frame joints", (words,))
