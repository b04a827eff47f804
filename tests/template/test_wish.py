"""What is asked of the template is checked before anything is planned."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import LayoutError
from panelwright.layout.template.calibration import Correction
from panelwright.layout.template.paper import A4, LETTER, PAPERS, Margins, Paper, PaperError
from panelwright.layout.template.wish import TemplateWish, asked_paper
from panelwright.layout.units import Units


@pytest.mark.parametrize("paper", PAPERS)
def test_the_defaults_suit_every_paper(paper: str) -> None:
    """10 mm of margin and 12 of overlap can be had on every paper that has a name."""
    assert TemplateWish(paper=PAPERS[paper]).overlap == 12.0


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        ({"portion": "third"}, '"third" is not known: use one of auto, whole'),
        ({"dxf_release": "R13"}, '"R13" is not known; did you mean R12'),
        ({"margins": Margins.all(90.0)}, "margins leave 30 by 117 mm"),
        ({"overlap": -1.0}, "overlap: -1 mm is below 0"),
        ({"overlap": 3.0}, "overlap of 3 mm is not between 8 mm"),
        ({"overlap": 75.0}, "overlap of 75 mm is not between"),
        ({"paper": Paper.custom(70, 300)}, "margins leave 50 by 280 mm"),
    ],
)
def test_what_cannot_be_printed_is_told(wish: dict[str, Any], says: str) -> None:
    """A wish that no sheet can meet is refused with its value and its limit."""
    with pytest.raises(LayoutError, match=says):
        TemplateWish(**wish)


def test_a_correction_takes_its_share_of_the_sheet() -> None:
    """An overlap that is just right for a true printer is too much for a sheet written larger."""
    most = TemplateWish(margins=Margins.all(10.0)).paper.width / 3 - 7.0
    assert TemplateWish(overlap=most)
    with pytest.raises(LayoutError, match="overlap"):
        TemplateWish(overlap=most, correction=Correction(1.03, 1.03))


@pytest.mark.parametrize("units", [Units.MM, Units.IN])
@pytest.mark.parametrize("name", PAPERS)
def test_paper_is_known_by_its_name(name: str, units: Units) -> None:
    """Whatever the capitals and the job's units, a name stands for its paper."""
    assert asked_paper(f"  {name.upper()} ", units) == PAPERS[name]


@given(st.integers(60, 400), st.integers(60, 400), st.sampled_from([" x ", "x", " × ", " by "]))
def test_paper_is_known_by_its_size(one: int, other: int, sign: str) -> None:
    """Two sides in any order are the short and the long edge; a unit may stand once or twice."""
    paper = asked_paper(f"{one}{sign}{other}")
    assert (paper.width, paper.length) == (min(one, other), max(one, other))
    tenths = [asked_paper(f"{one / 10}{sign}{other / 10} {unit}") for unit in ("cm", "cm.")]
    assert tenths[0].width == pytest.approx(paper.width)
    assert tenths[0] == tenths[1]
    assert asked_paper(f"{one} mm{sign}{other / 10} cm").length == pytest.approx(paper.length)


def test_inches_make_paper_that_is_made_to_inches() -> None:
    """13 x 19 in, and bare numbers in a job of inches, are sheets of inches; names follow."""
    assert asked_paper('13" x 19"') == asked_paper("19 x 13", Units.IN)
    assert asked_paper("13 x 19 in").name == "13 × 19 in"
    assert asked_paper("13 x 19 in").imperial
    assert asked_paper("roll 36in").width == pytest.approx(914.4)
    assert asked_paper("roll 36in").imperial
    assert not asked_paper("320 x 450").imperial
    assert asked_paper("8 1/2 x 11 in").width == pytest.approx(LETTER.width)
    assert not A4.imperial


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("A5", "'A5' is not known: use one of A4, A3"),
        ("", "is not known"),
        ("320 x", "is not known"),
        ("roll", "is not known"),
        ("roll wide", "is not a length"),
        ("32,0 x 45", "decimal point"),
        ("320 x 0", "must have 0 < width"),
        ("roll 6 m", "must have 0 < width"),
        ("-320 x 450", "must have 0 < width"),
    ],
)
def test_paper_that_cannot_be_is_told(text: str, says: str) -> None:
    """What is neither a name nor a size is refused with what may be written."""
    with pytest.raises(PaperError, match=says):
        asked_paper(text)
