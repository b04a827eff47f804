"""Mends, the rim of a hollow panel and the joints of a framed one, in words."""

from __future__ import annotations

from ..cutting.builds import FrameJoint, RimLoss
from ..cutting.mending import Mended
from ..panel.defect import Mend
from ..units import Tape
from .passage import Passage
from .say import listed, sentence


def mend_words(mend: Mended, tape: Tape) -> Passage:
    """Return how a defect is mended."""
    figure = tape.figure
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


def rim_words(loss: RimLoss, tape: Tape) -> Passage:
    """Return what is done where the line leaves the solid rim of a hollow panel."""
    count = len(loss.stretches)
    where = "along one stretch" if count == 1 else f"along {count} stretches"
    if loss.is_all_round:
        where = "all the way round"
    words = (
        f"the line leaves the solid rim {where}, {tape.figure(loss.length)} in all (drawn thick): "
        "after the cut rake the core back, glue a new strip between the skins all along there, "
        "24 h, then go to the line"
    )
    return Passage("Hollow core", (sentence(words),))


def joint_words(joint: FrameJoint) -> Passage:
    """Return what is done about a joint that cuts run through."""
    verb = "run" if len(joint.cuts) > 1 else "runs"
    words = (
        f"{listed(joint.cuts) or 'the curve'} {verb} through the joint at the {joint.corner} "
        "corner, show face up: it may fall apart or hold a nail or dowel; cramp it, sweep for "
        "metal, and glue it anew"
    )
    return Passage(f"Frame joint, {joint.corner}", (sentence(words),))


UNKNOWN_FRAME = Passage(
    "Frame joints",
    (
        "The widths of stiles and rails are not known: find the joints and keep cuts off them.",
    ),
)  # fmt: skip
