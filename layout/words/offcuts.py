"""Offcuts in words: what falls at which cut, what it is good for, and where the panel went."""

from __future__ import annotations

import math

from ..offcuts.plan import Balance, Offcut, OffcutPlan, Worth
from ..units import Tape
from .passage import Passage, Table

WORTH = {
    Worth.BOARD: "keep",
    Worth.LEGS: "keep: makes legs",
    Worth.BATTENS: "keep: makes battens",
    Worth.SCRAP: "scrap",
}
"""What is done with an offcut."""

_ALIKE = 0.005
"""A rectangle that is proved the largest within this share is called so."""


def offcuts_words(plan: OffcutPlan, tape: Tape) -> Passage:
    """Return the offcuts in a table, and the balance of areas."""
    rows = tuple(
        (
            f"{offcut.number}",
            offcut.freed_by or (f"cut {offcut.cut}" if offcut.cut else "loose"),
            tape.area(offcut.area),
            _clean(offcut, tape),
            WORTH[offcut.worth],
        )
        for offcut in plan.pieces
    )
    headings = ("Offcut", "Falls at", "Area", f"Largest clean rectangle, {tape.unit}", "Worth")
    words = (_balance(plan.balance, tape), "Never burn painted or treated wood, or board.")
    return Passage("Offcuts", words, tables=(Table(headings, rows, _promise(plan)),))


def _clean(offcut: Offcut, tape: Tape) -> str:
    if offcut.clean is None:
        return "none"
    return f"{tape.figure(offcut.clean.length)} × {tape.figure(offcut.clean.width)}"


def _promise(plan: OffcutPlan) -> str:
    """Return how much larger a clean rectangle of what is kept can be."""
    kept = [o for o in plan.pieces if o.kept and o.clean is not None]
    more = max((o.most / o.clean.area - 1 for o in kept if o.clean is not None), default=0.0)
    if not kept:
        return ""
    if more <= _ALIKE:
        return "Of what is kept no clean rectangle is larger: proved."
    share = math.ceil(100 * more)
    return f"The largest found; of what is kept none is more than {share} % larger: proved."


def _balance(balance: Balance, tape: Tape) -> str:
    return (
        f"Panel {tape.area(balance.panel)} = top {tape.area(balance.top)} + trimmed off "
        f"{tape.area(balance.trimming)} + kerf {tape.area(balance.kerf)} + offcuts "
        f"{tape.area(balance.offcuts)} + cut-outs {tape.area(balance.cut_outs)}."
    )
