"""`panelwright mark`: quick answers as JSON, as words in the maker's units, and at full size."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
import svgelements
from click.testing import CliRunner, Result

from panelwright.cli.main import command_of, main

INCH = 25.4


def run(*words: object) -> Result:
    """Run the command line as a person would."""
    result = CliRunner().invoke(main, ["mark", *(str(word) for word in words)])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def answer(*words: object) -> dict[str, Any]:
    """Return an answer in JSON."""
    result = run(*words, "--json")
    assert result.exit_code == 0, result.stderr
    held: dict[str, Any] = json.loads(result.stdout)
    return held


def method(held: dict[str, Any], name: str) -> dict[str, Any]:
    """Return one method of an answer."""
    (found,) = [m for m in held["methods"] if m["name"] == name]
    figures: dict[str, Any] = found["figures"]
    return figures


@pytest.mark.parametrize(
    ("size", "nails", "loop"),
    [
        ((1800, 900), 1558.8457, 3358.8457),
        ((1500, 1000), 1118.0340, 2618.0340),
        ((1200, 700), 974.6794, 2174.6794),
    ],
)
def test_nails_and_string_of_an_oval(size: tuple[int, int], nails: float, loop: float) -> None:
    """Nails √(L² − W²) apart, a bare loop of that and L (computed; read in several books)."""
    held = answer("oval", *size)
    string = method(held, "string and nails")
    assert string["nail_spacing"] == pytest.approx(nails, abs=5e-5)
    assert held["bare_loop"] == pytest.approx(loop, abs=5e-5)
    assert string["loop"] * 1.003 == pytest.approx(loop + 3 * math.pi, abs=1e-3)
    bare = answer("oval", *size, "--nail", 0, "--pencil", 0, "--string", "wire")
    assert method(bare, "string and nails")["loop"] == pytest.approx(loop, abs=5e-5)


def test_arcs_of_an_oval() -> None:
    """1800 × 900: end 225, side 1800; best four arcs 285.88, 1516.93, 8.78 off (computed)."""
    held = answer("oval", 1800, 900)
    assert (held["end_radius"], held["side_radius"]) == (225, 1800)
    assert held["perimeter"] == pytest.approx(4359.801697, abs=1e-5)
    best = method(held, "four-centre oval, best")
    assert best["end_radius"] == pytest.approx(285.88, abs=0.01)
    assert best["side_radius"] == pytest.approx(1516.93, abs=0.01)
    assert best["farthest_from_ellipse"] == pytest.approx(8.78, abs=0.005)
    assert best["end_centre"] == pytest.approx(900 - best["end_radius"], abs=1e-5)
    assert best["side_centre"] == pytest.approx(best["side_radius"] - 450, abs=1e-5)
    forty_five = method(answer("oval", 1200, 700), "four-centre oval, 45°")
    assert forty_five["end_centre"] == pytest.approx(250 * (1 + math.sqrt(2) / 2), abs=1e-5)


def test_what_a_slip_of_the_loop_does() -> None:
    """At 1200 × 700 a loop 1 % too long makes it 22 mm longer and 37 wider (computed)."""
    held = answer("oval", 1200, 700)
    percent, millimetre = held["slip_of_1_percent"], held["slip_of_1_mm"]
    assert (round(percent["length"]) - 1200, round(percent["width"]) - 700) == (22, 37)
    assert millimetre["length"] == pytest.approx(1201, abs=1e-6)
    assert millimetre["width"] - 700 == pytest.approx(1200 / 700, rel=0.01)


def test_a_capsule_and_a_circle() -> None:
    """1800 × 900: radius 450, centres 900 apart, 4627.4334 round; a circle has one centre."""
    held = answer("capsule", 1800, 900)
    assert (held["radius"], held["centres_apart"]) == (450, 900)
    assert held["perimeter"] == pytest.approx(4627.4334, abs=5e-5)
    assert method(held, "trammel bar") == {
        "radius": 450,
        "centres": [[-450, 0], [450, 0]],
        "hollow": False,
    }
    assert answer("circle", "48in")["radius"] == pytest.approx(24 * INCH)


def test_a_rounded_rectangle() -> None:
    """1800 × 900 with 150: 5142.4778 round, centres 1500 by 600 apart."""
    held = answer("rounded", 1800, 900, "--radius", 150)
    assert held["perimeter"] == pytest.approx(5142.4778, abs=5e-5)
    assert (held["centres_apart"], held["centres_across"]) == (1500, 600)
    assert held["diagonal"] == pytest.approx(math.hypot(1500, 600), abs=1e-5)


@pytest.mark.parametrize(("rise", "radius"), [("12in", 102), ("24in", 60)])
def test_an_arc(rise: str, radius: int) -> None:
    """A span of 96 in that rises 12 has radius 102, one that rises 24 has 60 (read)."""
    held = answer("arc", "--chord", "96in", "--rise", rise)
    assert held["radius"] / INCH == pytest.approx(radius)
    assert held["rise"] / INCH == pytest.approx(float(rise[:-2]))


def test_an_arc_by_its_radius() -> None:
    """Chord and radius, or rise and radius, serve as well; one figure or three do not."""
    by_chord = answer("arc", "--chord", "96in", "--radius", "102in")
    by_rise = answer("arc", "--rise", "12in", "--radius", "102in")
    assert by_chord["rise"] == pytest.approx(by_rise["rise"], abs=1e-5)
    assert by_chord["chord"] == pytest.approx(by_rise["chord"], abs=1e-5)
    for given in (("--chord", "900"), ("--chord", "900", "--rise", "1", "--radius", "9")):
        result = run("arc", *given)
        assert result.exit_code == 2
        assert "two of --chord, --rise and --radius" in result.output


def test_an_exponent_is_no_length() -> None:
    """A superellipse of exponent 2.5 tells 2.5, in millimetres as in inches."""
    for size in (("1200", "700"), ("48in", "28in")):
        lines = run("superellipse", *size).output.splitlines()
        assert [line.split() for line in lines if "exponent" in line] == [["exponent", "2.5"]]


def test_ordinates_of_an_arc() -> None:
    """Chord 96, rise 12, at 0, 8, … 48 in (Hatfield's rule, art. 520; computed)."""
    held = answer("arc", "--chord", "96in", "--rise", "12in")
    ups = [ordinate["up"] / INCH for ordinate in held["ordinates"]]
    expected = [12, 11.68579, 10.73728, 9.13627, 6.85040, 3.82963, 0]
    assert ups == pytest.approx(expected, abs=5e-6)
    assert method(held, "ordinates")["ordinates"] == held["ordinates"]


def test_a_superellipse() -> None:
    """An exponent of 2 is the oval itself."""
    held = answer("superellipse", 1800, 900, "--exponent", 2)
    for ordinate in held["ordinates"]:
        level = (ordinate["out"] / 900) ** 2 + (ordinate["up"] / 450) ** 2
        assert level == pytest.approx(1.0, abs=1e-6)


def test_dividing_an_awkward_length() -> None:
    """107 5/8 in in 15: each mark within half a sixteenth of its place, from one end."""
    held = answer("divide", "107 5/8 in", 15)
    assert held["spacing"] == pytest.approx(107.625 / 15 * INCH)
    assert len(held["marks"]) == 14
    for i, mark in enumerate(held["marks"], start=1):
        assert mark["exact"] / INCH == pytest.approx(107.625 * i / 15)
        assert abs(mark["error"]) <= INCH / 32 + 1e-9
    words = run("divide", "107 5/8 in", 15).stdout
    assert "50 1/4" in words  # seven parts, not seven times 7 3/16


@pytest.mark.parametrize(
    ("words", "unit", "figure"),
    [(("oval", "1800", "900"), "mm", "1559"), (("oval", "70 in", "36in"), "inches", "60 1/16")],
)
def test_words_are_in_the_units_of_the_question(
    words: tuple[str, ...], unit: str, figure: str
) -> None:
    """Asked in inches it answers in inches and sixteenths, else in mm; the best way comes first."""
    text = run(*words).stdout
    assert f"all in {unit}" in text
    assert figure in text
    assert text.index("trammel rod (") < text.index("string and nails (")


@pytest.mark.parametrize(
    ("words", "length", "width"),
    [
        (("oval", 1200, 700), 1200, 700),
        (("capsule", "48 in", "20 in"), 48 * INCH, 20 * INCH),
        (("rounded", 900, 500, "--radius", 80), 900, 500),
        (("circle", 640), 640, 640),
        (("arc", "--chord", 1000, "--rise", 125), 1000, 125),
    ],
)
def test_the_drawing_is_at_full_size(
    tmp_path: Path, words: tuple[object, ...], length: float, width: float
) -> None:
    """Read by another library at 25.4 pixels an inch, the finish line has the size asked for."""
    path = tmp_path / "drawing.svg"
    assert run(*words, "--svg", path).exit_code == 0
    drawing = svgelements.SVG.parse(str(path), ppi=INCH)  # one unit is one millimetre
    lines = [
        element
        for group in drawing.select(lambda e: isinstance(e, svgelements.Group))
        if str(group.id or "").startswith("finish-line")
        for element in group.select(lambda e: isinstance(e, svgelements.Path))
    ]
    assert lines
    left, top, right, bottom = max(
        (line.bbox() for line in lines), key=lambda box: (box[2] - box[0]) * (box[3] - box[1])
    )
    assert (right - left, bottom - top) == pytest.approx((length, width), abs=0.002)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("oval", 700, 900), "width < length"),
        (("oval", 900, "many"), "not a length"),
        (("oval", -900, 500), "No such option"),
        (("rounded", 900, 500, "--radius", 300), "make them smaller"),
        (("arc", "--chord", 100, "--rise", 0), "above 0"),
        (("divide", 100, 1), "1"),
    ],
)
def test_what_cannot_be_answered_ends_with_two(words: tuple[object, ...], says: str) -> None:
    """The message says why, to a person and to a machine."""
    result = run(*words)
    assert result.exit_code == 2
    assert says in result.stderr
    assert result.stdout == ""
    asked = run(*words, "--json")
    assert asked.exit_code == 2
    assert says in asked.stderr or says in json.loads(asked.stdout)["problems"][0]["message"]


def test_every_shape_has_an_example() -> None:
    """The help of each shape shows how it is typed."""
    group = command_of("mark")
    for name in group.commands:  # type: ignore[attr-defined]
        assert f"panelwright mark {name}" in run(name, "--help").stdout
