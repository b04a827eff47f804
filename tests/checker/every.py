"""All checks, in the order of the bench, and how a plan is held against them."""

from __future__ import annotations

import inspect
from collections.abc import Callable

from checker import (
    check_curves,
    check_figures,
    check_legs,
    check_lines,
    check_marks,
    check_metal,
    check_order,
    check_table,
    check_template,
    check_tipping,
    check_top,
    check_wood,
)
from checker.ledger import Ledger
from checker.plan import Plan

Check = Callable[[Plan, Ledger], None]

_ROOMS = (
    check_top,
    check_marks,
    check_lines,
    check_curves,
    check_metal,
    check_wood,
    check_legs,
    check_table,
    check_tipping,
    check_order,
    check_template,
    check_figures,
)

CHECKS: dict[str, Check] = {
    name: held
    for room in _ROOMS
    for name, held in vars(room).items()
    if inspect.isfunction(held) and held.__module__ == room.__name__ and name[0] != "_"
}
"""Every public function of the files called check, by its name."""


def held(plan: Plan) -> Ledger:
    """Return what all checks have found in a plan."""
    ledger = Ledger()
    for name, check in CHECKS.items():
        ledger.check = name
        check(plan, ledger)
    return ledger
