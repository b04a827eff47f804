"""The schemas that are shipped hold for what the program takes and gives."""

import json
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator
from random_jobs import job_text

from panelwright.cli.main import main
from panelwright.layout.jobfile import look_over

ROOT = Path(__file__).parents[2]


def validator(of: str) -> Draft202012Validator:
    """Return a validator of a schema that the program prints, and that is one."""
    schema = json.loads(CliRunner().invoke(main, ["keys", "--schema", of]).stdout)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


JOBS = validator("job")
PLANS = validator("plan")


@pytest.mark.parametrize(
    "path", sorted(ROOT.glob("samples/*/expected/plan.json")), ids=lambda p: p.parents[1].name
)
def test_the_kept_plans_have_the_form_of_a_plan(path: Path) -> None:
    """A validator finds nothing; with a figure left out or spelt wrong it does."""
    plan = json.loads(path.read_text(encoding="utf-8"))
    assert list(PLANS.iter_errors(plan)) == []
    assert list(PLANS.iter_errors({**plan, "top_mass": "heavy"}))
    assert list(PLANS.iter_errors({k: v for k, v in plan.items() if k != "cuts"}))


@pytest.mark.parametrize(
    "path", sorted(ROOT.glob("samples/*/job.toml")), ids=lambda p: p.parent.name
)
def test_the_samples_have_the_form_of_a_job(path: Path) -> None:
    """Whatever a validator says of a sample, it finds nothing."""
    assert list(JOBS.iter_errors(tomllib.loads(path.read_text(encoding="utf-8")))) == []


@pytest.mark.parametrize("number", range(60))
def test_a_job_that_is_read_has_the_form_of_one(number: int) -> None:
    """The schema refuses nothing that the reader takes."""
    text = job_text(number)
    if look_over(text).job is not None:
        assert list(JOBS.iter_errors(tomllib.loads(text))) == []


@pytest.mark.parametrize(
    "text",
    [
        "[panel]\noutline = { length = 1200, width = 600, depth = 3 }",
        "[panel]\noutline = { length = -1200, width = 600 }",
        "[panel]\noutline = { points = [[0, 0], [1, 1]] }",
        "[panel]\nthickness = 22",
        "[panel]\noutline = { diameter = 900 }\nbuild = 'soild'",
        "[panel]\noutline = { diameter = 900 }\n[[panel.defects]]\nat = [1, 2, 3]\ndiameter = 3",
        "[panel]\noutline = { diameter = 900 }\n[top]\nmost_turn = 100",
        "[panel]\noutline = { diameter = 900 }\n[legs]\ncount = 2.5",
        "[panel]\noutline = { diameter = 900 }\n[tools]\nrouter = 'yes'",
        "[panle]\noutline = { diameter = 900 }",
    ],
)
def test_what_has_not_the_form_is_refused_by_both(text: str) -> None:
    """A validator and the reader agree."""
    assert list(JOBS.iter_errors(tomllib.loads(text)))
    assert look_over(text).problems
