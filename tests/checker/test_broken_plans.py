"""Each check can fail: a plan with one figure altered by hand is caught by it."""

from __future__ import annotations

import copy

import pytest
from checker.breaks import BREAKS
from checker.every import CHECKS
from checker.kept_plans import kept
from checker.ledger import Ledger
from checker.plan import Plan


def failures(check: str, plan: Plan) -> list[str]:
    """Return what one check finds."""
    ledger = Ledger(check)
    CHECKS[check](plan, ledger)
    assert ledger.looked, f"{check} has looked at nothing"
    return ledger.failures


def test_every_check_has_a_plan_that_it_catches() -> None:
    """Whoever adds a check adds the plan that it is there to catch."""
    assert set(BREAKS) == set(CHECKS)


@pytest.mark.parametrize("check", sorted(CHECKS))
def test_a_plan_with_one_figure_altered_is_caught(check: str) -> None:
    """The check finds more in the altered plan than in the one that it was made from."""
    spoilt = BREAKS[check]
    job, data, page = kept(spoilt.plan)
    before = failures(check, Plan.of(job, data, page))
    altered = copy.deepcopy(data)
    spoilt.spoil(altered)
    if spoilt.words is not None:
        assert page is not None
        assert spoilt.words[0] in page
        page = page.replace(*spoilt.words)
    assert len(failures(check, Plan.of(job, altered, page))) > len(before)
