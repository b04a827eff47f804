"""What is told of offcuts: where each falls, what it is good for, and where the panel went."""

from __future__ import annotations

import math

from ..offcuts.plan import OffcutPlan
from ..units import Tape
from .say import Passage, counted, listed, passage, table

_ALIKE = 0.005
"""A rectangle that is proved the largest within this share is called so."""


def offcuts_words(plan: OffcutPlan, tape: Tape) -> Passage:
    """Return each kept piece with what it makes, the crumbs in a line, and the balance of areas."""
    kept = [offcut for offcut in plan.pieces if offcut.kept]
    rest = [offcut for offcut in plan.pieces if not offcut.kept]
    crumbs = f"{counted(len(rest), 'crumb')}, {tape.area(sum(o.area for o in rest))} in all"
    pieces = table(
        kept,
        {
            "Offcut": lambda o: f"{o.number}",
            "Falls at": lambda o: o.freed_by or (f"cut {o.cut}" if o.cut else "loose"),
            "Area": lambda o: tape.area(o.area),
            f"Largest clean rectangle, {tape.unit}": lambda o: (
                f"{tape.figure(o.clean.length)} × {tape.figure(o.clean.width)}"
                if o.clean is not None
                else "none"
            ),
            "Makes": lambda o: listed(m.value for m in o.makes) or "a board of that size",
        },
        _promise(plan),
    )
    balance = plan.balance
    return passage(
        "Offcuts",
        crumbs if rest else "",
        f"Panel {tape.area(balance.panel)} = top {tape.area(balance.top)} + trimmed off "
        f"{tape.area(balance.trimming)} + kerf {tape.area(balance.kerf)} + offcuts "
        f"{tape.area(balance.offcuts)} + cut-outs {tape.area(balance.cut_outs)}.",
        "Never burn painted or treated wood, or board.",
        tables=[pieces],
    )


def _promise(plan: OffcutPlan) -> str:
    """Return how much larger a clean rectangle of what is kept can be."""
    clean = ((o.most, o.clean) for o in plan.pieces if o.kept)
    more = max((most / found.area - 1 for most, found in clean if found is not None), default=0.0)
    if more <= _ALIKE:
        return "Of what is kept no clean rectangle is larger: proved."
    share = math.ceil(100 * more)
    return f"The largest found; of what is kept none is more than {share} % larger: proved."
