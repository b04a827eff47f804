"""A stranger with one printed sheet and the panel: the outline comes out where it belongs.

Nothing of the program is used but the sheet's own words: marks, curve and saw lines are set out
from the first page alone, and the result is held against the plan's finish line.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from bench_page import page_of
from checker.sheet import Figure, SawRow, Sheet
from kept import plan_of, sample_folders
from readers import off_path
from told import named as mark_called

from panelwright.layout.cutting.cut import StraightCut, TrimKind
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel.datum import Datum
from panelwright.layout.plan.plan import Plan, make_plan

INCH = 25.4


D_END = b"""
[panel]
outline = { axes = [1680, 920] }
thickness = 24
build = "veneered board"
[top]
shape = "D end"
margin = 6
lipping = 5
"""


@pytest.fixture(
    scope="module",
    params=[*sample_folders(), "D end"],
    ids=lambda held: getattr(held, "name", held),
)
def plan_and_page(request: pytest.FixtureRequest) -> tuple[Plan, Sheet]:
    """Lay out a sample, or a D end in an oval panel, and print its sheet."""
    own = isinstance(request.param, str)
    plan = make_plan(read_job(D_END, source="job.toml")) if own else plan_of(request.param)
    return plan, page_of(plan)


def number(words: str, inches: bool) -> float:
    """Return a printed figure, mm."""
    sign = -1 if words[0] in "−▼◄" else 1
    value = sum(Fraction(part) for part in words.lstrip("−▼◄").split())
    return sign * float(value) * (INCH if inches else 1.0)


def marks_on(page: Sheet, inches: bool) -> dict[str, Point]:
    """Return the printed marks, those of the first page and those behind it, from their datum."""
    held = {
        mark.name: Point(
            number(mark.figure("along"), inches), number(mark.figure("square"), inches)
        )
        for mark in page.marks
    }
    (table,) = page.step("Marks from").tables
    behind = {row[0]: Point(number(row[2], inches), number(row[3], inches)) for row in table.rows}
    return held | behind


def decimals(words: str, before: str, inches: bool) -> float:
    """Return the decimal figure that stands before some words, mm."""
    found = re.search(r"([\d.]+) (?:mm|in) " + re.escape(before), words)
    assert found is not None, words
    return float(found[1]) * (INCH if inches else 1.0)


def drawn(page: Sheet, marks: dict[str, Point], inches: bool) -> list[Point]:
    """Return points of the line that the printed steps draw, in the frame of the datum."""
    rod = re.search(r"pencil ([\d /]+) to the pin on the long line, ([\d /]+) to", page.words)
    if rod is not None:
        short, long = (number(figure, inches) for figure in rod.groups())
        along = (marks["L2"] - marks["L1"]).unit()
        return [
            marks["O"] + along * (long * math.cos(t)) + along.left * (short * math.sin(t))
            for t in np.linspace(0, math.tau, 400)
        ]
    swung = re.search(
        r"pencil R ([\d /]+)(?:; core R [\d /]+)? about (\w+)(?: (to|and) (\w+))?", page.words
    )
    assert swung is not None, page.words
    radius = number(swung[1], inches)
    names = [name for name in (swung[2], swung[4]) if name]
    if swung[3] == "to":
        names = [f"K{i}" for i in range(int(names[0][1:]), int(names[1][1:]) + 1)]
    line: list[Point] = []
    for name in names:
        out = marks[name] - marks["O"]
        round_end = name.startswith("C") or name == "K"
        half = math.pi / 2 if round_end else math.pi / 4
        middle = out.angle if round_end else _diagonal(out)
        turns = np.linspace(middle - half, middle + half, 60)
        line += [marks[name] + Point.polar(radius, float(t)) for t in turns]
    for one, other in _straights(marks):
        line += [one + (other - one) * float(share) for share in np.linspace(0, 1, 30)]
    return line


def _straights(marks: dict[str, Point]) -> list[tuple[Point, Point]]:
    """Return the straight parts: from tangent point to tangent point, every other way round."""
    tangents = [marks[f"T{i}"] for i in range(1, 9) if f"T{i}" in marks]
    if len(tangents) == 2:  # a D end: X to X and X to T
        corners = [marks["X1"], marks["X2"]]
        return [(corners[0], corners[1]), *zip(corners, tangents, strict=True)]
    if len(tangents) == 4:  # a capsule: T1–T2 and T3–T4 are its straights
        return [(tangents[0], tangents[1]), (tangents[2], tangents[3])]
    pairs = list(pairwise([*tangents, tangents[0]]))  # T1 lies on an end, T2 on a side, T3 …
    return pairs[1::2]


def _diagonal(out: Point) -> float:
    """Return the diagonal direction of the quarter that a corner's centre lies in."""
    return math.atan2(math.copysign(1, out.y), math.copysign(1, out.x))


def test_the_outline_comes_out_within_what_the_sheet_states(
    plan_and_page: tuple[Plan, Sheet],
) -> None:
    """The line drawn from the printed figures lies within the error that is printed beside them."""
    plan, page = plan_and_page
    inches = plan.job.tape.imperial
    datum = plan.datum if plan.cuts.again is None else plan.cuts.again.datum
    line = drawn(page, marks_on(page, inches), inches)
    on_panel = np.array([tuple(datum.frame(point)) for point in line])
    far = off_path(on_panel, plan.cuts.finish)
    words = page.step("Draw the curve").text
    stated = decimals(words, "at most", inches)
    assert 0 < stated < 3.0
    assert far.max() <= stated + 0.05  # the printed decimals
    gaps = np.hypot(*(plan.cuts.finish.points(0.5)[:, None] - on_panel[None]).transpose(2, 0, 1))
    assert gaps.min(axis=1).max() < 40  # no part of the outline is left undrawn


def test_the_marks_lie_within_their_printed_rounding(plan_and_page: tuple[Plan, Sheet]) -> None:
    """Each mark that is set out lies from where it belongs by what is printed behind it."""
    plan, page = plan_and_page
    inches = plan.job.tape.imperial
    again = plan.cuts.again
    datum, held = (plan.datum, plan.marks) if again is None else (again.datum, again.marks)
    step = page.step("Marks from")
    printed = marks_on(page, inches)
    assert set(printed) == {mark.label for mark in held.marks}
    errors = {row[0]: row[4] for row in step.tables[0].rows}
    errors |= dict(re.findall(r"(\w\d?) (\d+\.\d+)", step.text))
    assert set(errors) == set(printed)
    for name, error in errors.items():
        true = datum.coordinates(mark_called(held, name).point)
        off = printed[name].distance_to(Point(true.along, true.square))
        stated = float(error) * (INCH if inches else 1.0)
        assert off == pytest.approx(stated, abs=0.06 if not inches else 0.006 * INCH)


def test_two_tapes_find_the_same_marks(plan_and_page: tuple[Plan, Sheet]) -> None:
    """Where two printed tapes cross, the mark lies within what the sheet states."""
    plan, page = plan_and_page
    inches = plan.job.tape.imperial
    again = plan.cuts.again
    datum, held = (plan.datum, plan.marks) if again is None else (again.datum, again.marks)
    places = {reference.name: reference.point for reference in datum.references}
    (table,) = page.step("The same by two tapes").tables
    assert len(table.rows) >= 3
    crossed: list[float] = []
    for label, one, other, angle, within in table.rows:
        (first, at), (second, to) = (_tape(words, places, inches) for words in (one, other))
        mark = mark_called(held, label).point
        found = min(_crossing(at, first, to, second), key=mark.distance_to)
        stated = float(within) * (INCH if inches else 1.0)
        assert found.distance_to(mark) <= stated
        ways = (at - mark, to - mark)
        turn = math.degrees(abs(math.atan2(ways[0].cross(ways[1]), ways[0].dot(ways[1]))))
        crossed.append(min(turn, 180 - turn))
        assert crossed[-1] == pytest.approx(float(angle.removesuffix("°")), abs=0.51)
    words = page.step("The same by two tapes").text
    assert ("near a right angle" in words) is (min(crossed) >= 70)
    assert ("at a slant" in words) is (min(crossed) < 45)


def _tape(words: str, places: dict[str, Point], inches: bool) -> tuple[float, Point]:
    figure, name = words.split(" from ")
    return number(figure, inches), places[name]


def _crossing(one: Point, reach: float, other: Point, far: float) -> list[Point]:
    """Return where two circles cross."""
    apart = other - one
    along = (reach**2 - far**2 + apart.norm**2) / (2 * apart.norm)
    across = math.sqrt(max(reach**2 - along**2, 0.0))
    way = apart.unit()
    return [one + way * along + way.left * (across * sign) for sign in (-1, 1)]


def test_the_printed_checks_hold_between_the_printed_marks(
    plan_and_page: tuple[Plan, Sheet],
) -> None:
    """Every check distance is that of the marks as printed, to what rounding leaves."""
    plan, page = plan_and_page
    inches = plan.job.tape.imperial
    marks = marks_on(page, inches)
    (table,) = page.step("Checks").tables
    checked = 0
    for ends, figure, _ in table.rows:
        start, end = ends.split(" to ")
        if start in marks and end in marks:
            off = abs(marks[start].distance_to(marks[end]) - number(figure, inches))
            assert off <= 2.5 * plan.job.tape.division
            checked += 1
    assert checked >= 5


def test_the_saw_lines_run_outside_the_line(plan_and_page: tuple[Plan, Sheet]) -> None:
    """By the figures of the first page no saw line comes nearer to the top than it should."""
    plan, page = plan_and_page
    inches = plan.job.tape.imperial
    core = plan.cuts.core.points(0.5)
    rows = {label: row for row in page.saws for label in row.labels}
    again = plan.cuts.again
    for trim in plan.cuts.trims:
        last = again is not None and trim.kind is not TrimKind.ROUGH
        datum = again.datum if again is not None and last else plan.datum
        start, end = _ends(rows[trim.label], trim, datum, inches)
        way = (end - start).unit()
        off = way.x * (core[:, 1] - start.y) - way.y * (core[:, 0] - start.x)
        nearest = np.abs(off).min()
        assert (off > 0).all() or (off < 0).all()
        rough = 200.0 if trim.kind is TrimKind.ROUGH else 1.5 * plan.job.tape.division
        assert trim.allowance - 0.05 <= nearest <= trim.allowance + rough


def _ends(row: SawRow, trim: StraightCut, datum: Datum, inches: bool) -> tuple[Point, Point]:
    """Return where a line is struck, its other offset being that of the edge it ends on."""
    ends = sorted(
        (trim.start, trim.end),
        key=lambda end: end.square if row.line[0].axis == "along" else end.along,
    )
    figures: list[Figure] = row.line * 2 if len(row.line) == 1 else row.line
    found = []
    for figure, end in zip(figures, ends, strict=True):
        value = number(figure.text, inches)
        offsets = (value, end.square) if figure.axis == "along" else (end.along, value)
        found.append(datum.frame(Point(*offsets)))
    return found[0], found[1]
