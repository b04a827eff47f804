"""What is told of mends, a lost rim and the joints of a frame."""

from __future__ import annotations

from ..cutting import FrameJoint, Mended, RimLoss, UnknownFrame
from ..panel.defect import Mend
from .cuts_told import words_of
from .passage import Passage
from .say import Say, listed, sentence


@words_of.register
def _(mend: Mended, say: Say) -> Passage:
    figure = say.tape.figure
    length, width, depth = figure(mend.length), figure(mend.width), figure(mend.depth)
    through = " (right through, a board clamped behind)" if mend.through else ""
    words = {
        Mend.PLUG: f"bore clean to {length}, {depth} deep{through}; glue in a face-grain plug of "
        "the same diameter, its grain along the panel's",
        Mend.KEY: f"{len(mend.places)} bow-tie keys {length} long, {width} wide and {depth} deep, "
        "their grain across it, at the places drawn; fill what is left of the split, glue",
        Mend.PATCH: f"a patch {length} by {width}, {depth} deep, its grain along the panel's: "
        "knife round it, rout inside the knife line, glue",
    }[mend.how]
    level = f"leave it {figure(mend.proud)} proud, {mend.wait:g} h, then level"
    return Passage(f"Mend {mend.defect}", (sentence(f"{words}; {level}"),))


@words_of.register
def _(rim: RimLoss, say: Say) -> Passage:
    count = len(rim.stretches)
    where = "along one stretch" if count == 1 else f"along {count} stretches"
    if count == 1 and rim.stretches[0].is_closed:
        where = "all the way round"
    words = (
        f"The line leaves the solid rim {where}, {say.tape.figure(rim.length)} in all (drawn "
        "thick): after the cut rake the core back, glue a new strip between the skins all along "
        "there, 24 h, then go to the line."
    )
    return Passage("Hollow core", (words,))


@words_of.register
def _(joint: FrameJoint, say: Say) -> Passage:
    words = (
        f"{listed(joint.cuts) or 'The curve'} runs through the joint at the {joint.corner} corner, "
        "show face up: it may fall apart or hold a nail or dowel; cramp it, sweep for metal, and "
        "glue it anew."
    )
    return Passage(f"Frame joint, {joint.corner}", (words,))


@words_of.register
def _(act: UnknownFrame, say: Say) -> Passage:
    words = "The widths of stiles and rails are not known: find the joints and keep cuts off them."
    return Passage("Frame joints", (words,))
