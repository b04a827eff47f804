"""Offcuts in words: what falls at which cut, what it is good for, and where the panel went."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..offcuts.plan import Balance, Offcut, OffcutPlan
from ..units import Tape
from .say import Passage, Table, listed

_ALIKE = 0.005
"""A rectangle that is proved the largest within this share is called so."""


def offcuts_words(plan: OffcutPlan, tape: Tape) -> Passage:
    """Return each kept piece with what it makes, the crumbs in a line, and the balance of areas."""
    kept = [offcut for offcut in plan.pieces if offcut.kept]
    rows = tuple(
        (
            f"{offcut.number}",
            offcut.freed_by or (f"cut {offcut.cut}" if offcut.cut else "loose"),
            tape.area(offcut.area),
            _clean(offcut, tape),
            listed(make.value for make in offcut.makes) or "a board of that size",
        )
        for offcut in kept
    )
    headings = ("Offcut", "Falls at", "Area", f"Largest clean rectangle, {tape.unit}", "Makes")
    words = [*_crumbs(plan, tape), _balance(plan.balance, tape)]
    words.append("Never burn painted or treated wood, or board.")
    tables = (Table(headings, rows, _promise(plan)),) if rows else ()
    return Passage("Offcuts", tuple(words), tables=tables)


def _crumbs(plan: OffcutPlan, tape: Tape) -> Iterator[str]:
    """Yield what is not kept, in one line."""
    rest = [offcut for offcut in plan.pieces if not offcut.kept]
    if rest:
        name = "crumb" if len(rest) == 1 else "crumbs"
        yield f"{len(rest)} {name}, {tape.area(sum(o.area for o in rest))} in all."


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
