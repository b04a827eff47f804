"""What is put right on the wood, in words: mended defects, joints of a frame, a lost rim."""

from __future__ import annotations

from ..cutting.builds import FrameJoint, RimLoss, UnknownFrame
from ..cutting.mending import Mended
from ..panel.defect_kinds import Mend
from .cuts_told import words_of
from .say import Passage, Say, listed, passage

_HOW = {
    Mend.PLUG: "bore clean to {length}, {depth} deep{behind}; glue in a {face}plug of the same "
    "diameter{grain}",
    Mend.KEY: "{keys} {length} long, {width} wide and {depth} deep, their grain across it, at the "
    "{places} drawn; fill what is left of the split, glue",
    Mend.PATCH: "a patch {length} by {width}, {depth} deep{grain}: knife round it, rout inside the "
    "knife line, glue",
    Mend.FILLER: "clean it down to sound wood; press in two-part filler of the colour of the "
    "finished wood {depth} deep {layers}",
    Mend.RESIN: "clean it, seal its sides with a thin coat; {dam}; pour resin {depth} deep "
    "{layers} or as its maker says; prick the bubbles",
    Mend.SAND: "sand {thin} off{along} and fade it out over a patch {length} by {width}, so that "
    "no hollow is felt",
}


@words_of.register
def mend_words(mend: Mended, say: Say) -> Passage:
    """Return how a defect is mended."""
    tape, count = say.tape, len(mend.places)
    at_once = mend.layers == 1
    words = _HOW[mend.how].format(
        length=tape.figure(mend.length),
        width=tape.figure(mend.width),
        depth=tape.figure(mend.depth),
        thin=tape.small(mend.depth),
        behind=" (right through, a board clamped behind)" if mend.through else "",
        face="face-grain " if mend.grained else "",
        grain=", its grain along the panel's" if mend.grained else "",
        along=", along the grain," if mend.grained else "",
        keys=f"{count} bow-tie {'keys' if count > 1 else 'key'}",
        places="places" if count > 1 else "place",
        dam="tape and a board under it, as it goes right through" if mend.through else "level it",
        layers="at once" if at_once else f"in {mend.layers} layers, each hard before the next",
    )
    if mend.proud:
        words += f"; leave it {tape.figure(mend.proud)} proud, {mend.wait:g} h, then level"
    return passage(f"Mend {mend.defect}", words)


@words_of.register
def _(loss: RimLoss, say: Say) -> Passage:
    count = len(loss.stretches)
    where = "along one stretch" if count == 1 else f"along {count} stretches"
    if loss.is_all_round:
        where = "all the way round"
    return passage(
        "Hollow core",
        f"the line leaves the solid rim {where}, {say.tape.figure(loss.length)} in all (drawn "
        "thick): after the cut rake the core back, glue a new strip between the skins all along "
        "there, 24 h, then go to the line",
    )


@words_of.register
def _(joint: FrameJoint, say: Say) -> Passage:
    verb = "run" if len(joint.cuts) > 1 else "runs"
    return passage(
        f"Frame joint, {joint.name}",
        f"{listed(joint.cuts) or 'the curve'} {verb} through the joint at the {joint.name}, show "
        "face up: it may fall apart or hold a nail or dowel; cramp it, sweep for metal, and glue "
        "it anew",
    )


@words_of.register
def _(act: UnknownFrame, say: Say) -> Passage:
    words = "The widths of stiles and rails are not known: find the joints and keep cuts off them."
    return passage("Frame joints", words)
