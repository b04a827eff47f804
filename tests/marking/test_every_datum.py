"""Whatever the outline and whatever is measured from: printed figures put every mark in place."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.marks import marks_for
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.marking.panel_check import check_panel
from panelwright.layout.outlines import Capsule, Outline
from panelwright.layout.panel import Panel, outline_through, rectangular_outline
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.panel.edges import Found
from panelwright.layout.top import Top
from panelwright.layout.units import MM_PER_INCH, Tape
from panelwright.layout.words.datum import datum_words, reference_words, square_words
from panelwright.layout.words.marks import (
    checks_words,
    left_words,
    lines_words,
    marks_behind,
    ties_words,
)
from panelwright.layout.words.say import Say
from panelwright.layout.words.ways import drawn_words

SIDE = (9000.0, 7000.0)
MIDDLE = Point(4500.3, 3499.7)
BOWED = Panel(rectangular_outline(*SIDE, bows=(40.0, 40.0, 40.0, 40.0)), 20)


def rectangular(**corner: tuple[float, float, float, float]) -> Panel:
    """Return a panel with corners that are not as they were."""
    return Panel(rectangular_outline(*SIDE, **corner), 20)


LEANING = Panel(
    outline_through([Point(300, 0), Point(9000, 0), Point(8700, 7000), Point(0, 7000)]), 20
)

DATUMS = {
    "edge": choose_datum(rectangular()),
    "rounded A": choose_datum(rectangular(radii=(400.0, 0.0, 0.0, 0.0))),
    "every corner rounded": choose_datum(rectangular(radii=(300.0,) * 4)),
    "clipped A": choose_datum(rectangular(clips=(250.0, 0.0, 0.0, 0.0))),
    "damaged A and B": choose_datum(rectangular(), damaged=frozenset({"A", "B"})),
    "struck inside": choose_datum(BOWED),
    "struck across": choose_datum(Panel(circle(MIDDLE, 4000.0), 20)),
    "given": choose_datum(rectangular(), (Point(80, 60), Point(8700, 160))),
    "given upright": choose_datum(rectangular(), (Point(9000, 60), Point(8900, 6900))),
    "another edge": choose_datum(rectangular(bows=(40.0, 0.0, 0.0, 0.0))),
    "leaning": choose_datum(LEANING),
}
PANELS = {name: rectangular() for name in DATUMS}

tapes = st.sampled_from([Tape(), Tape(imperial=True)])


def read(words: str, tape: Tape) -> float:
    """Return a printed figure, mm."""
    value = sum(Fraction(part) for part in words.lstrip("−").split())
    unit = MM_PER_INCH if tape.imperial else 1.0
    return (-1 if words.startswith("−") else 1) * float(value) * unit


def start_of(datum: Datum) -> Point:
    """Return where lengths along a datum start, found as its words tell it: by what they name."""
    if datum.first.found is not Found.PROLONGED:
        return datum.first.point
    # a straightedge along the named edge crosses the line through the two points on the panel
    corners = {corner.name: corner for corner in datum.corners}
    one, other = (corners[letter] for letter in datum.first.edge.split("–"))
    held, last = datum.references[:2]
    way, along = (other.point - one.point).unit(), (last.point - held.point).unit()
    return held.point + along * ((one.point - held.point).cross(way) / along.cross(way))


@pytest.mark.parametrize("kind", DATUMS)
@settings(max_examples=15, deadline=None)
@given(strategies.every_outline, strategies.angles, tapes)
def test_printed_figures_put_every_mark_in_place(
    kind: str, outline: Outline, turn: float, tape: Tape
) -> None:
    """Set off from what the sheet names, each row comes to its mark, to what it says of rounding.

    A minus sign along lies beyond the first name, one square on the side without the wood.
    """
    datum, panel = DATUMS[kind], PANELS[kind]
    marks = marks_for(Top(panel, outline, Placement(MIDDLE, turn)), datum)
    (table,) = marks_behind(marks, set(), Say(tape, datum)).tables
    start, along = start_of(datum), (datum.end - datum.start).unit()
    assert f"from {datum.first.name}" in table.headings[2]
    assert f"beyond {datum.first.name}, away from {datum.last.name}" in table.caption
    for mark, row in zip(marks.marks, table.rows, strict=True):
        far, off = (read(figure, tape) for figure in row[2:4])
        drawn = start + along * far + along.left * off
        unit = MM_PER_INCH if tape.imperial else 1.0
        assert drawn.distance_to(mark.point) == pytest.approx(float(row[4]) * unit, abs=0.06 * unit)
        assert row[2].startswith("−") is ((mark.point - start).dot(along) < -tape.division / 2)
        assert row[3].startswith("−") is ((mark.point - start).cross(along) > tape.division / 2)


@pytest.mark.parametrize("kind", DATUMS)
def test_every_point_of_the_line_is_told(kind: str) -> None:
    """The step on the datum says of each end that is no corner where it is found, in figures."""
    datum = DATUMS[kind]
    told = datum_words(datum, Say(Tape(), datum))
    for point in (datum.first, datum.last):
        if point.found is Found.CORNER:
            continue
        words = reference_words(point, datum, Say(Tape(), datum))
        assert words in told.words
        names = (point.beside or point.edge) in words
        assert names and (point.found is Found.PROLONGED or any(c.isdigit() for c in words))
    assert any("one face" in words for words in told.words) is datum.struck


@pytest.mark.parametrize("kind", DATUMS)
def test_no_tape_is_held_where_there_is_no_wood(kind: str) -> None:
    """Every tape is held to a corner that is there, or to a point that is struck on the panel."""
    datum = DATUMS[kind]
    outline = rectangular(radii=(500.0,) * 4)  # any top that is not round
    marks = marks_for(Top(outline, strategies.RegularPolygon(8, 900), Placement(MIDDLE)), datum)
    held = {r.name for r in datum.references if r.found is not Found.PROLONGED}
    for mark in marks.marks:
        if mark.ties is not None:
            assert {mark.ties.first.name, mark.ties.second.name} <= held
    told = ties_words(marks, Say(Tape(), datum))
    if told is not None:
        angles = [float(row[3].removesuffix("°")) for row in told.tables[0].rows]
        square = any("near a right angle" in words for words in told.words)
        assert square is (min(angles) >= 70)


@pytest.mark.parametrize("kind", DATUMS)
def test_inches_are_told_in_inches(kind: str) -> None:
    """No sentence, caption or heading of datum and marks names a millimetre on a tape in inches."""
    datum, say = DATUMS[kind], Say(Tape(imperial=True), DATUMS[kind])
    panel = rectangular()
    marks = marks_for(Top(panel, strategies.RegularPolygon(8, 900), Placement(MIDDLE)), datum)
    check = check_panel(panel, datum, circle(MIDDLE, 900.0), say.tape)
    told = [
        datum_words(datum, say),
        square_words(check, datum, say),
        marks_behind(marks, set(), say),
        ties_words(marks, say),
        checks_words(marks, say),
        left_words(check, say, lipped=False),
        lines_words(3.0, 6.0, say),
    ]
    for passage in told:
        if passage is not None:
            tables = [w for t in passage.tables for w in (*t.headings, t.caption, *t.rows)]
            assert " mm" not in f"{passage.words} {passage.warnings} {tables}"
            assert " in in " not in f"{passage.words} {tables}"


@pytest.mark.parametrize(("mirrored", "turned_over"), [(True, True), (True, False), (False, True)])
def test_a_pin_is_bored_for_where_it_is_used(mirrored: bool, turned_over: bool) -> None:
    """Holes are told on each face that something is swung on, padded on the show face."""
    top = Top(rectangular(), Capsule(1400, 600), Placement(MIDDLE))
    marks = marks_for(top, DATUMS["edge"])
    bar = [m for m in methods_for(top.outline) if m.name == "trammel bar"]
    say = Say(Tape(), DATUMS["edge"], mirrored)
    told = drawn_words(bar, marks, say, lambda p: p.name, lipping=0.0, turned_over=turned_over)
    words = " ".join(told.words)
    assert ("holes in the underside, where none shows" in words) is mirrored
    assert ("holes in the SHOW face: stick a scrap" in words) is not mirrored
    assert ("turns about the same centres on both faces: bore none through" in words) is turned_over
    assert told.points == ("Swing: point to pencil 300, about centre 1, centre 2.",)


def test_no_line_is_told_nearer_than_it_is() -> None:
    """A lipping of 8.5 is told as it is, an allowance of 1.2 as the next that a tape shows."""
    (core, lines, _) = lines_words(1.2, 8.5, Say(Tape(), DATUMS["edge"])).words
    assert "8.5 mm inside the finish line" in core
    assert "runs 2 mm outside the core line" in lines


def test_words_fit_on_either_face() -> None:
    """A line struck on one face is told to be on one face; a named edge holds on both."""
    for kind, both in (("edge", True), ("given", False), ("struck inside", False)):
        datum = DATUMS[kind]
        words = " ".join(datum_words(datum, Say(Tape(), datum)).words)
        assert ("It is struck on one face" in words) is not both
    assert math.isclose(DATUMS["leaning"].length, 8700.0)
