"""Lengths as makers write and read them."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import LengthError
from panelwright.layout.keys.length import parse_length
from panelwright.layout.units import MM_PER_INCH, Tape, Units, two_figures

LENGTHS = st.floats(-5000, 5000)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5' 3 1/2\"", 1612.9),  # 63.5 × 25.4
        ("5'-3 1/2\"", 1612.9),
        ("5′ 3½″", 1612.9),
        ("5'3", 1600.2),
        ("31 3/8 in", 796.925),  # 31.375 × 25.4
        ("31-3/8 in", 796.925),
        ("31⅜ inches", 796.925),
        ('31 3/8"', 796.925),
        ("31 3/8''", 796.925),
        ("2ft 6in", 762.0),
        ("2 ft. 6 in.", 762.0),
        ("2 feet 6 inches", 762.0),
        ("1 ft", 304.8),
        ("80 cm", 800.0),
        ("80cm", 800.0),
        ("1.981 m", 1981.0),
        ("6 mm", 6.0),
        (".5in", 12.7),
        ("-1/2 in", -12.7),
        ("−½ in", -12.7),
        ("-5' 3\"", -1600.2),
        ("⅓ m", 1000 / 3),
    ],
)
def test_a_length_with_its_unit_is_read_whatever_the_job_counts_in(text: str, mm: float) -> None:
    """A length that names its unit means the same in every job, to the last digit."""
    assert [parse_length(text, units) for units in Units] == [mm] * len(Units)


@pytest.mark.parametrize(
    ("text", "units", "mm"),
    [
        ("31-3/8", Units.IN, 796.925),
        ("3/8", Units.IN, 9.525),
        ("½", Units.FT, 152.4),
        ("12", Units.CM, 120.0),
        ("-12", Units.MM, -12.0),
        ("1.5", Units.M, 1500.0),
        ("0", Units.FT, 0.0),
    ],
)
def test_a_bare_number_counts_in_the_units_of_the_job(text: str, units: Units, mm: float) -> None:
    """A number without a unit counts in the job's."""
    assert parse_length(text, units) == mm


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not a length"),
        ("-", "not a length"),
        ("five feet", "not a length"),
        ("1,5", "not a comma"),
        ("5 furlongs", "furlongs"),
        ("3/0 in", "zero"),
        ("5' 12\"", "less than 12"),
        ("3 in 2 ft", "only feet and inches"),
        ("1 m 20 cm", "only feet and inches"),
        ("1/2/3", "not a length"),
        ("5..", "not a length"),
        ("1e3", "unit 'e'"),
        ("nan", "not a length"),
        ("9" * 5000, "and more"),
    ],
)
def test_what_is_no_length_is_told_with_the_text_and_the_reason(text: str, says: str) -> None:
    """A text that is no length raises, and the message says why."""
    with pytest.raises(LengthError, match=says):
        parse_length(text, Units.IN)


@given(st.text(max_size=80), st.sampled_from(Units))
def test_any_text_is_a_finite_length_or_a_length_error(text: str, units: Units) -> None:
    """No text gets past the reader as infinite, as not a number, or as another error."""
    try:
        assert math.isfinite(parse_length(text, units))
    except LengthError as error:
        assert str(error)


@given(st.text("0123456789 ./-'\"ftincm½", max_size=20))
def test_any_text_of_the_signs_of_lengths_is_one_or_a_length_error(text: str) -> None:
    """Signs of lengths in any order make a finite length or a length error."""
    test_any_text_is_a_finite_length_or_a_length_error.hypothesis.inner_test(text, Units.IN)


@given(LENGTHS, st.booleans())
def test_what_a_sheet_writes_reads_back_as_the_nearest_division(mm: float, imperial: bool) -> None:
    """`measure` and `parse_length` are inverse to each other on the divisions of a tape."""
    tape = Tape(imperial)
    read = parse_length(tape.measure(mm), Units.MM)
    assert read == pytest.approx(tape.nearest(mm), abs=1e-9)
    assert abs(read - mm) <= tape.division / 2 + 2e-6


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 15), st.booleans())
def test_feet_inches_and_sixteenths_add_up(feet: int, inches: int, part: int, minus: bool) -> None:
    """Feet, inches and a fraction are their sum, with one sign for all of it."""
    fraction = f" {Fraction(part, 16)}" if part else ""
    text = f"{'-' if minus else ''}{feet}' {inches}{fraction}\""
    mm = (feet * 12 + inches + part / 16) * MM_PER_INCH
    assert parse_length(text, Units.M) == pytest.approx(-mm if minus else mm, abs=1e-9)


@given(LENGTHS, st.sampled_from(Units))
def test_a_decimal_reads_back_exactly(value: float, units: Units) -> None:
    """A decimal in any unit is that many times the unit, rounded once."""
    text = f"{value:.4f}"
    exact = Fraction(text) * Fraction(str(units.mm))
    assert parse_length(text, units) == float(exact)


@given(LENGTHS, st.booleans())
def test_rounding_to_the_tape_knows_no_direction(mm: float, imperial: bool) -> None:
    """A length to the left is written as the same one to the right, but for its sign."""
    tape = Tape(imperial)
    assert tape.nearest(-mm) == -tape.nearest(mm)
    assert tape.figure(-mm).lstrip("−") == tape.figure(mm).lstrip("−")


@pytest.mark.parametrize(
    ("mm", "imperial", "figure"),
    [
        (583.42, False, "583"),
        (583.5, False, "584"),
        (-0.4, False, "0"),
        (-12.0, False, "−12"),
        (796.925, True, "31 3/8"),
        (25.4, True, "1"),
        (9.525, True, "3/8"),
        (0.0, True, "0"),
        (25.39, True, "1"),  # rounds up to a whole inch, not to 16/16
        (-9.525, True, "−3/8"),
    ],
)
def test_a_figure_is_what_a_tape_shows(mm: float, imperial: bool, figure: str) -> None:
    """Millimetres are whole; inches have a fraction in its lowest terms."""
    assert Tape(imperial).figure(mm) == figure


@given(st.integers(0, 4000), st.booleans())
def test_a_half_is_always_rounded_away_from_nothing(count: int, minus: bool) -> None:
    """Halfway between two divisions the larger is read, an odd one as an even one.

    It is so for a length written down and for one worked out, which may be a last digit short.
    """
    sign = -1.0 if minus else 1.0
    for mm in (parse_length(f"{2 * count + 1}/32 in", Units.MM), (2 * count + 1) * 25.4 / 32):
        nearest = Tape(imperial=True).nearest(sign * mm)
        assert nearest == pytest.approx(sign * (count + 1) * 25.4 / 16, abs=1e-9)
    for mm in (count + 0.5, math.nextafter(count + 0.5, 0.0)):
        assert Tape().figure(sign * mm) == f"{'−' if minus else ''}{count + 1}"


def test_exact_figures_have_no_minus_zero() -> None:
    """A hair below nothing is nothing, and a real minus is the long one."""
    assert Tape().exact(-0.001) == "0.00"
    assert Tape().exact(-1.5, 1) == "−1.5"
    assert Tape(imperial=True).exact(583.42) == "22.969"


@pytest.mark.parametrize(
    ("value", "text"),
    [(820.3, "820"), (0.42, "0.42"), (0.0999, "0.10"), (999, "1000"), (-3.14, "-3.1"), (0, "0")],
)
def test_two_figures_are_two_without_an_exponent(value: float, text: str) -> None:
    """Forces and sags are given to two figures."""
    assert two_figures(value) == text


@given(st.floats(1e-6, 1e9))
def test_two_figures_are_within_half_of_the_last_one(value: float) -> None:
    """Rounding to two figures is off by 5 % at most, and by half of the second figure."""
    unit = 10 ** math.floor(math.log10(value)) / 10
    assert abs(float(two_figures(value)) - value) <= unit / 2 * (1 + 1e-9)


def test_the_units_of_a_job_choose_its_tape() -> None:
    """Inches and feet go with an inch tape, all others with millimetres."""
    assert [Tape(units.is_imperial).unit for units in Units] == ["mm", "mm", "mm", "in", "in"]
    assert Units.FT.mm == pytest.approx(12 * Units.IN.mm)


def test_areas_masses_and_forces_come_in_the_units_of_the_tape() -> None:
    """One square foot, one pound and one pound-force by their definitions."""
    metric, imperial = Tape(), Tape(imperial=True)
    assert (metric.area(1e6), imperial.area(304.8**2)) == ("1.000 m²", "1.00 sq ft")
    assert (metric.mass(24.6), imperial.mass(0.45359237 * 12)) == ("25 kg", "12 lb")
    assert (metric.mass(0.345), imperial.mass(0.45359237)) == ("0.34 kg", "1.0 lb")
    assert (metric.force(623), imperial.force(444.82216)) == ("620 N", "440 N (100 lbf)")
