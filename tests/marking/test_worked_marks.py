"""The marks of five panels that were set out by hand, to the nearest mm or 1/16 in."""

from __future__ import annotations

import pytest
from told import named as mark_called
from worked_panels import BENCH_TOP, BOWED_TOP, DOOR, SLAB, WORKTOP, Worked


def tie(job: Worked, label: str) -> dict[str, str]:
    """Return the tie measurements of a mark."""
    cross = mark_called(job.marks, label).ties
    assert cross is not None
    return {t.name: job.tape.figure(t.distance) for t in (cross.first, cross.second)}


def offsets(job: Worked, label: str) -> list[str]:
    """Return the offsets of a mark."""
    mark = mark_called(job.marks, label)
    return job.figures(mark.along, mark.square)


def check(job: Worked, start: str, end: str) -> str:
    """Return a check distance."""
    found = [c.distance for c in job.marks.checks if (c.start, c.end) == (start, end)]
    return job.tape.figure(found[0])


@pytest.mark.parametrize(
    ("job", "label", "where", "ties"),
    [
        (DOOR, "C1", ["450", "370"], {"A": "583", "D": "649"}),
        (DOOR, "C2", ["1530", "370"], {"B": "583", "C": "650"}),
        (BENCH_TOP, "C1", ["340", "322"], {"A": "468", "D": "508"}),
        (BENCH_TOP, "C2", ["1140", "322"], {"B": "1013", "C": "1032"}),
        (SLAB, "K1", ["470", "86"], {"P": "478", "Q": "1682"}),
        (SLAB, "K2", ["2010", "86"], {"P": "2012", "Q": "164"}),
        (BOWED_TOP, "N1", ["7", "15 1/2"], {"A": "17", "D": "16 1/8"}),
        (BOWED_TOP, "N2", ["47", "15 1/2"], {"B": "17", "C": "16 1/8"}),
        (WORKTOP, "K1", ["230", "75"], {"A": "242", "D": "573"}),
        (WORKTOP, "K4", ["230", "515"], {"A": "564", "D": "245"}),
    ],
)
def test_centres_and_nails(job: Worked, label: str, where: list[str], ties: dict[str, str]) -> None:
    """Offsets and tie measurements of every centre are those found by hand."""
    assert offsets(job, label) == where
    assert tie(job, label) == ties


@pytest.mark.parametrize(
    ("job", "start", "end", "distance"),
    [
        (DOOR, "A", "C", "2151"),
        (DOOR, "B", "D", "2151"),
        (DOOR, "C1", "C2", "1080"),
        (DOOR, "T1", "T3", "1298"),
        (DOOR, "T2", "T4", "1298"),
        (BENCH_TOP, "C1", "C2", "800"),
        (BENCH_TOP, "T1", "T4", "600"),
        (BENCH_TOP, "T1", "T3", "1000"),
        (SLAB, "X1", "X3", "1838"),
        (SLAB, "X2", "X4", "1838"),
        (SLAB, "K1", "K3", "1632"),
        (BOWED_TOP, "N1", "S1", "25"),
        (WORKTOP, "X1", "X3", "1554"),
        (WORKTOP, "K2", "K4", "1401"),
    ],
)
def test_check_distances(job: Worked, start: str, end: str, distance: str) -> None:
    """The distances that show a slip are those found by hand."""
    assert check(job, start, end) == distance


def test_core_line_of_the_door() -> None:
    """With 6 mm of lipping the core has radius 354 and its straights lie at 16 and 724."""
    (compass,) = DOOR.marks.compasses
    assert (compass.centres, compass.radius, compass.core_radius) == (("C1", "C2"), 360.0, 354.0)
    assert offsets(DOOR, "t1") == ["450", "16"]
    assert offsets(DOOR, "t3") == ["1530", "724"]
    assert offsets(DOOR, "T1") == ["450", "10"]
    assert offsets(DOOR, "T3") == ["1530", "730"]


def test_corner_of_the_slab_from_its_own_end() -> None:
    """K1 is tied from P and K2 from Q, the struck points nearest to each."""
    assert SLAB.datum.names == ("P", "Q")
    assert tie(SLAB, "K1")["P"] == "478"
    assert tie(SLAB, "K2")["Q"] == "164"


def test_string_of_the_bowed_top() -> None:
    """The nails stand 40 in apart, the loop is 90 3/8 in; 1/8 in more adds 7/32 to the width."""
    loop = BOWED_TOP.marks.loop
    assert loop is not None
    assert BOWED_TOP.figures(loop.nail_spacing, loop.loop) == ["40", "90 3/8"]
    inch = 25.4
    slipped = loop.slipped(inch / 8)
    assert slipped.length / inch == pytest.approx(50 + 1 / 8, abs=1e-9)
    assert round((slipped.width / inch - 30) * 32) == 7


def test_ordinates_of_the_bowed_top() -> None:
    """From O the line passes 15 out 12 up, 20 out 9 up, 24 out 4 3/16 up."""
    figures = [BOWED_TOP.figures(o.out, o.up) for o in BOWED_TOP.marks.ordinates]
    assert figures == [["15", "12"], ["20", "9"], ["24", "4 3/16"]]
