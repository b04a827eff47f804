"""Lipping, edging, the profile of the edge and the finish, in words."""

from __future__ import annotations

from ..cutting.edging import Edging
from ..units import Tape
from .passage import Passage
from .say import sentence


def lipping_words(edging: Edging, tape: Tape) -> Passage:
    """Return how the lipping goes on; too thick to bend cold it is laminated."""
    if edging.tightest is None:
        bend = "mitred at the corners"
    elif edging.layers == 1:
        bend = "bends cold"
    else:
        layer = tape.figure(edging.layer)
        bend = f"laminated of {edging.layers} strips {layer} thick, which bend cold"
    kept = ", the kept edges left out" if edging.kept else ""
    joints = "joints on the straights" if edging.on_straights else "one scarfed joint"
    words = (
        f"{tape.figure(edging.around)} round{kept}; cut {tape.figure(edging.cut_length)}, "
        f"{tape.figure(edging.strip_width)} wide and {tape.figure(edging.thickness)} thick; "
        f"{bend}; {joints}; cramp 24 h, flush"
    )
    return Passage("Lipping", (sentence(words),))
