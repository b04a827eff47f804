"""The printer's error is measured, limited, kept and taken out."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from template_strategies import margins

from panelwright.layout.template.calibration import (
    TRUE,
    CalibrationBars,
    CalibrationError,
    Correction,
    PrinterProfile,
    Reading,
    calibration_sheet,
    longest_bar,
    wrong_prints,
)
from panelwright.layout.template.paper import (
    A3,
    A4,
    LEGAL,
    LETTER,
    PAPERS,
    ROLL_610,
    TABLOID,
    Margins,
    Paper,
)
from panelwright.layout.units import Tape

within = st.floats(0.9715, 1.0299)


@given(within, within)
def test_what_is_measured_is_taken_out(across: float, along: float) -> None:
    """A printer that prints a page at its own scale prints a corrected one at the true size."""
    bars = CalibrationBars.on(A4, Margins.all(10))
    profile = bars.measured("hall printer", bars.across * across, bars.along * along)
    correction = profile.correction
    assert correction.across * across * 1000 == pytest.approx(1000, abs=1.5)
    assert correction.along * along * 1000 == pytest.approx(1000, abs=1.0)


def test_a_difference_below_reading_is_none() -> None:
    """Less than a quarter of a millimetre on the bar cannot be read, and is not corrected."""
    assert Reading(265.0, 265.2).factor == 1.0
    assert Reading(265.0, 264.5).factor == pytest.approx(265 / 264.5)


@pytest.mark.parametrize("measured", [265 * 0.9407, 265 * 1.05])
def test_more_than_three_per_cent_is_refused(measured: float) -> None:
    """A bar that was fitted to the wrong paper is no printer's error, and the message says so."""
    with pytest.raises(CalibrationError, match="no printer's error"):
        PrinterProfile("hall printer", Reading(180, 180), Reading(265, measured))


def test_letter_on_a4_is_told_from_a_printers_error() -> None:
    """Both sides 2.7 % short is a Letter page fitted to A4, though it is less than 3 %."""
    bars = CalibrationBars.on(LETTER, Margins.all(10))
    with pytest.raises(CalibrationError, match="fitted to A4"):
        bars.measured("hall printer", bars.across * 0.9727, bars.along * 0.9727)
    one_side = bars.measured("hall printer", bars.across * 0.9727, bars.along)
    assert one_side.correction.across == pytest.approx(1 / 0.9727)


@given(within, within, st.text(min_size=1, max_size=20))
def test_profiles_come_back_from_their_text(across: float, along: float, name: str) -> None:
    """A profile written and read again is the same."""
    profile = PrinterProfile(name, Reading(180.0, 180 * across), Reading(265.0, 265 * along))
    assert PrinterProfile.from_json(profile.to_json()) == profile


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        "3",
        '{"printer": "x", "across": 3, "along": 4}',
        '{"printer": "x", "across": {"true": "long", "measured": 1}, "along": {}}',
        '{"printer": "x", "across": {"true": NaN, "measured": 1}, "along": {}}',
        "[" * 100_000,
    ],
)
def test_what_is_no_profile_is_refused(text: str) -> None:
    """A damaged profile is refused in one sentence, whatever the damage."""
    with pytest.raises(CalibrationError, match=r"no printer profile|cannot measure") as caught:
        PrinterProfile.from_json(text)
    assert "\n" not in str(caught.value)


def test_a_profile_is_a_text_to_read() -> None:
    """It names the printer, the paper, and each bar with what it should be and what it was."""
    bars = CalibrationBars.on(A4, Margins.all(10))
    lines = bars.measured("büro", 179.25, 260.0).to_json().splitlines()
    assert '  "printer": "büro",' in lines
    assert '  "paper": "A4",' in lines
    assert '    "measured": 179.25' in lines


def test_a_page_on_its_side_is_corrected_on_its_side() -> None:
    """The factor of the paper's short edge goes up a landscape page."""
    correction = Correction(1.004, 0.999)
    assert correction.for_page(landscape=False) == (1.004, 0.999)
    assert correction.for_page(landscape=True) == (0.999, 1.004)
    assert TRUE.is_none
    assert not correction.is_none


def test_wrong_paper_reads_as_measured() -> None:
    """A4 fitted to Letter leaves 94.07 of 100, Letter on A4 97.27, within margins 95.97."""
    on_letter = {w.sheet: 100 * w.scale for w in wrong_prints(A4)}
    assert on_letter["Letter"] == pytest.approx(94.07, abs=0.01)
    assert on_letter[""] == pytest.approx(95.97, abs=0.01)
    on_a4 = {w.sheet: 100 * w.scale for w in wrong_prints(LETTER)}
    assert on_a4["A4"] == pytest.approx(97.27, abs=0.01)
    assert wrong_prints(ROLL_610) == ()


def test_only_mistakes_that_could_pass_are_told() -> None:
    """A3 is held against Tabloid, not against A4, half its size; Legal against both small ones."""
    assert [w.sheet for w in wrong_prints(A3)][:-1] == ["Tabloid"]
    assert [w.sheet for w in wrong_prints(TABLOID)][:-1] == ["A3"]
    assert [w.sheet for w in wrong_prints(LEGAL)][:-1] == ["A4", "Letter"]


@pytest.mark.parametrize("paper", PAPERS.values())
@given(white=margins)
def test_bars_lie_between_the_margins(paper: Paper, white: Margins) -> None:
    """A calibration rectangle is of round sides, and takes most of what the margins leave."""
    bars = CalibrationBars.on(paper, white)
    room = calibration_sheet(paper, white).printable
    assert room.holds_box(bars.box.grown(2.5))
    assert bars.across > 0.87 * (room.width - 8)
    assert bars.along > 0.87 * (room.height - 8)
    unit = 25.4 if paper.imperial else 10.0
    assert 2 * bars.across / unit == pytest.approx(round(2 * bars.across / unit))
    assert bars.diagonal**2 == pytest.approx(bars.across**2 + bars.along**2)


sheets = st.tuples(st.sampled_from(list(PAPERS.values())), margins)


@given(sheets, sheets, within, within)
def test_a_sheet_is_never_taken_for_another(
    printed: tuple[Paper, Margins], told: tuple[Paper, Margins], across: float, along: float
) -> None:
    """Where other paper or margins are named than were printed, and the bars differ, it is seen."""
    assume(printed[0].imperial == told[0].imperial)
    one, other = CalibrationBars.on(*printed), CalibrationBars.on(*told)
    try:
        other.measured("hall printer", one.across * across, one.along * along)
    except CalibrationError:
        return
    assert (one.across, one.along) == pytest.approx((other.across, other.along))


@given(st.floats(60.0, 900.0), st.booleans())
def test_the_longest_bar_is_a_whole_length(room: float, imperial: bool) -> None:
    """A bar fits its room, is whole 5 mm or quarter inches, and no longer one fits."""
    step = 6.35 if imperial else 5.0
    length = longest_bar(room, Tape(imperial=imperial))
    assert length <= room + 1e-6 < length + step + 1e-5
    assert length / step == pytest.approx(round(length / step))


def test_larger_paper_holds_longer_bars() -> None:
    """The bars of an A3 sheet are longer than those of an A4 sheet both ways."""
    small, large = (CalibrationBars.on(p, Margins.all(10)) for p in (A4, A3))
    assert (large.across, large.along) > (small.across, small.along)
    assert (small.across, small.along) == (180.0, 260.0)
