"""Keys are found by the words that makers use."""

import json

import pytest
from test_new import run

WORDS = {
    "sand": "mend",
    "ring stain": "kind",
    "screw hole": "kind",
    "coffee": "kind",
    "stadium": "shape",
    "racetrack": "shape",
    "pill": "shape",
    "round table": "diameter",
    "diameter": "diameter",
    "worktop": "was",
    "laminate": "finish",
    "veneer": "build",
    "wobble": "apron",
    "overhang": "inset",
    "cracks": "kind",
    "glue": "glue",
    "live edge": "keep",
    "rounded corner": "corner_radius",
    "hinge": "kind",
    "lock": "kind",
    "table-height": "table_height",
    "thick": "thickness",
    "out of square": "points",
    "stretcher": "apron",
    "tear-out": "show_face",
}
"""What a maker looks for, and a key among those that are told."""


@pytest.mark.parametrize(("word", "key"), WORDS.items())
def test_a_plain_word_finds_its_key(word: str, key: str) -> None:
    """It is told with a meaning and an example, and few others with it."""
    told = json.loads(run("keys", *word.split(), "--json").stdout)["keys"]
    assert 1 <= len(told) <= 6
    (row,) = [row for row in told if row["key"] == key][:1]
    assert row["meaning"] and row["example"].startswith(f"{key} = ")


def test_an_example_has_the_value_that_was_asked_for() -> None:
    """A word that stands for another says which."""
    assert 'kind = "ring stain"   # read as "finish stain"' in run("keys", "ring", "stain").stdout
    assert 'mend = "sand"' in run("keys", "sand").stdout


def test_a_heading_finds_its_table_and_no_word_lists_all() -> None:
    """All keys of [legs] are told; without a word every table and its keys are named."""
    legs = json.loads(run("keys", "[legs]", "--json").stdout)["keys"]
    assert {row["table"] for row in legs} == {"[legs]"} and len(legs) > 20
    every = run("keys").stdout
    for name in ("[panel.outline]", "[[panel.defects]]", "table_height", "dxf_release"):
        assert name in every


def test_a_slip_is_answered_with_what_is_near() -> None:
    """It ends with 2, for nothing was found."""
    result = run("keys", "spolis")
    assert result.exit_code == 2
    assert "did you mean spoils" in result.stderr
