"""What is told of the old panel: its build once, its defects, figures on the maker's tape."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from panelwright.layout.geometry.point import Point
from panelwright.layout.panel import (
    Build,
    Coat,
    Defect,
    Face,
    Kind,
    Mend,
    Panel,
    Spoils,
    Was,
    rectangular_outline,
    round_place,
)
from panelwright.layout.units import Tape
from panelwright.layout.words.panel import assess_words, flatness_words, made_of

BOARD = Panel(rectangular_outline(1981, 838), 44, build=Build(Kind.VENEERED))
SOLID = replace(BOARD, build=Build(Kind.SOLID))


@pytest.mark.parametrize("kind", Kind)
def test_a_build_is_named_once(kind: Kind) -> None:
    """The material that it is only weighed by is no part of its name."""
    panel = replace(BOARD, build=Build(kind))
    assert made_of(panel) == kind.value
    assert made_of(replace(panel, material=kind.usual_material)) == kind.value


@pytest.mark.parametrize("kind", Kind)
def test_a_build_at_the_head_of_a_sentence_keeps_its_letters(kind: Kind) -> None:
    """Fibreboard is MDF there too, not "Mdf"."""
    told = assess_words(replace(BOARD, build=Build(kind)), Tape()).words[0]
    assert told[0].isupper()
    assert told[1:].startswith(kind.value[1:])


def test_a_veneered_top_is_no_door() -> None:
    """It weighs as one, and is called what it is."""
    assert BOARD.substance.name == "veneered board"
    assert "door" not in assess_words(BOARD, Tape()).words[0]
    assert made_of(replace(BOARD, build=Build(Kind.SOLID), material="oak")) == "solid, oak"


def test_a_sheet_in_inches_has_no_metric_figure() -> None:
    """44 mm are 1 3/4 in, and 43.8 kg are 97 lb (1 in = 25.4 mm, 1 lb = 0.45359237 kg)."""
    tape = Tape(imperial=True)
    told = (
        assess_words(BOARD, tape),
        flatness_words(BOARD, tape, later=False),
        flatness_words(replace(SOLID, flattened=40.0), tape, later=True),
    )
    text = " ".join(words for passage in told for words in passage.words)
    assert "1 3/4" in text and "97 lb" in text
    assert not re.search(r"\d (mm|cm|kg)\b", text)


@pytest.mark.parametrize(
    ("past", "told"),
    [
        ({}, "Its past: not known; on it: not known; age not known."),
        (
            {"was": Was.DOOR, "finish": (Coat.VARNISH, Coat.WAX), "year": 1971},
            "Its past: door; on it: varnish and wax; from 1971.",
        ),
    ],
)
def test_the_past_is_told_as_it_is_known(past: dict[str, object], told: str) -> None:
    """What the cautions go by stands where the maker looks at the panel."""
    panel = replace(BOARD, **past)  # type: ignore[arg-type]
    assert told in assess_words(panel, Tape()).words[0]


def test_each_defect_has_its_row() -> None:
    """With what it spoils, or that it spoils nothing, and what it is mended by."""
    hole = Defect(
        "hole", round_place(Point(400, 300), 20), frozenset({Spoils.SHOWING}), mend=Mend.PLUG
    )
    line = Defect("glue line", round_place(Point(900, 300), 20), frozenset())
    panel = replace(BOARD, defects=(hole, line))
    (table,) = assess_words(panel, Tape()).tables
    first, second = table.rows
    assert (first[2], first[4]) == ("in the show face: outside the top", "plug")
    assert (second[2], second[4]) == ("nothing", "–")


def test_a_defect_shallower_than_the_tape_divides_is_told_in_decimals() -> None:
    """A scratch half a millimetre deep is not told as 0 in deep."""
    scratch = Defect(
        "scratch", round_place(Point(400, 300), 20), frozenset(), face=Face.UP, depth=0.5
    )
    panel = replace(BOARD, defects=(scratch,))
    (table,) = assess_words(panel, Tape(imperial=True)).tables
    assert table.rows[0][1] == "show face, 0.020 in deep"
