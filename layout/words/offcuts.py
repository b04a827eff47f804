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
    clean = [(offcut.most, offcut.clean) for offcut in kept if offcut.clean is not None]
    more = max((most / found.area - 1 for most, found in clean), default=0.0)
    promise = f"The largest found; of what is kept none is more than {math.ceil(100 * more)} % "
    pieces = table(
        kept,
        {
            "Offcut": "{number}",
            "Falls at": lambda o: o.freed_by or (f"cut {o.cut}" if o.cut else "loose"),
            "Area": "{area:area}",
            f"Largest clean rectangle, {tape.unit}": lambda o: tape.fill(
                "{length:figure} × {width:figure}" if o.clean else "none", o.clean
            ),
            "Makes": lambda o: listed(m.value for m in o.makes) or "a board of that size",
        },
        f"{promise}larger: proved."
        if more > _ALIKE
        else "Of what is kept no clean rectangle is larger: proved.",
        tape,
    )
    return passage(
        "Offcuts",
        bool(rest)
        and f"{counted(len(rest), 'crumb')}, {tape.area(sum(o.area for o in rest))} in all",
        tape.fill(
            "Panel {panel:area} = top {top:area} + trimmed off {trimming:area} + kerf {kerf:area} "
            "+ offcuts {offcuts:area} + cut-outs {cut_outs:area}.",
            plan.balance,
        ),
        "Never burn painted or treated wood, or board.",
        tables=[pieces],
    )
