"""The plan as `plan.json` holds it."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from .form import SCHEMA
from .plan import Plan
from .serialise import fit_record, plain
from .why import why_record

ON_THEIR_OWN = ("fits", "top", "contacts", "limits_met", "costs", "others")
"""Fields that stand in the record in a form shared with `fit --json`."""


def plan_record(plan: Plan) -> dict[str, Any]:
    """Return every number of a plan: mm, mm², degrees, kg, N, whatever the job's units.

    ``top`` is the found top as `fit --json` prints it, ``made`` the same with its sizes rounded
    down, as the sheets say it; ``fits`` holds all that were wished for, best first; ``contacts``,
    ``limits_met``, ``costs`` and ``others`` tell why it is not larger, as `fit --why --json` does.
    Seconds are left out, so that the same job gives the same bytes.
    """
    rest = {
        f.name: plain(getattr(plan, f.name)) for f in fields(plan) if f.name not in ON_THEIR_OWN
    }
    return {
        "schema": SCHEMA,
        "top": fit_record(plan.fit),
        "made": plain(plan.top),
        "fits": [fit_record(fit) for fit in plan.fits],
        **why_record(plan.contacts, plan.limits_met, plan.costs, plan.others),
        **rest,
    }
