"""What is said before the first cut: margin, allowance and kerf that cannot all be kept."""

from __future__ import annotations

import re

import pytest

from panelwright.layout.jobfile.job import read_job
from panelwright.layout.plan.plan import make_plan
from panelwright.layout.words.cautions import concern_words
from panelwright.layout.words.say import Say

JOB = """
units = "{units}"
[panel]
outline = {{ length = "1400 mm", width = "606 mm" }}
thickness = "18 mm"
[top]
shape = "rectangle"
{margin}
"""


@pytest.mark.parametrize("units", ["mm", "cm", "in"])
def test_the_margin_that_is_named_is_enough(units: str) -> None:
    """With 3 mm all round no saw cut can be made; with the margin that is told all four are."""
    plan = make_plan(read_job(JOB.format(units=units, margin='margin = "3 mm"')))
    assert plan.cuts.trims == ()
    assert sorted(who for c in plan.cuts.concerns for who in c.who) == ["AB", "BC", "CD", "DA"]
    words = concern_words(plan.cuts.concerns[0], Say(plan.job.tape, plan.datum))
    margin = re.search(r'margin = "[^"]+"', words)
    assert margin is not None
    again = make_plan(read_job(JOB.format(units=units, margin=margin[0])))
    assert len(again.cuts.trims) == 4
    assert again.cuts.concerns == ()
