"""The cuts of five panels that were planned by hand, to the nearest mm or 1/16 in."""

from __future__ import annotations

import pytest
from told import told
from worked_panels import ALL, BENCH_TOP, BOWED_TOP, DOOR, SLAB, WORKTOP, Worked

from panelwright.layout.cutting.cut import JigsawCut, RouterCut, Trim, TrimKind


def line(job: Worked, trim: Trim) -> tuple[str, str, str]:
    """Return the axis, the figure of the saw line and the figure of its guide."""
    guide = trim.guide
    assert guide is not None
    if abs(trim.start.along - trim.end.along) < 1e-6:
        return ("x", *job.figures(trim.start.along, guide.start.along))
    assert trim.start.square == pytest.approx(trim.end.square)
    return ("y", *job.figures(trim.start.square, guide.start.square))


@pytest.mark.parametrize(
    ("job", "lines"),
    [
        (
            DOOR,
            [
                ("x", "93", "208"),
                ("x", "1887", "1772"),
                ("y", "15", "130"),  # 14.5 and 129.5 exactly, as the next two
                ("y", "726", "611"),
            ],
        ),
        (
            BENCH_TOP,
            [("x", "1442", "1327"), ("x", "38", "153"), ("y", "20", "135"), ("y", "624", "509")],
        ),
        (
            SLAB,
            [
                ("x", "380", "495"),
                ("x", "2100", "1985"),
                ("y", "4", "119"),
                # by hand 388 and 2092 from P, which has gone with the rough end at 380
                ("x", "8", "123"),
                ("x", "1712", "1597"),
                ("y", "708", "593"),
            ],
        ),
        (
            BOWED_TOP,
            [
                ("x", "1 7/8", "6 3/8"),
                ("x", "52 1/8", "47 5/8"),
                ("y", "3/8", "4 7/8"),
                ("y", "30 5/8", "26 1/8"),
            ],
        ),
        (
            WORKTOP,
            [("x", "1622", "1507"), ("x", "168", "283"), ("y", "13", "128"), ("y", "577", "462")],
        ),
    ],
)
def test_lines_guides_and_order(job: Worked, lines: list[tuple[str, str, str]]) -> None:
    """Saw lines, guides and the order of the cuts are those planned by hand."""
    assert [line(job, trim) for trim in job.cuts.trims] == lines


@pytest.mark.parametrize(
    ("job", "depths"),
    [
        (DOOR, ["48"]),
        (BENCH_TOP, ["30"]),
        (SLAB, ["30", "59"]),
        (BOWED_TOP, ["1"]),
        (WORKTOP, ["42"]),
    ],
)
def test_depths(job: Worked, depths: list[str]) -> None:
    """The saw reaches 4 mm, or 1/8 in, below the work; thick wood takes two passes."""
    assert job.figures(*job.cuts.trims[0].depths) == depths


@pytest.mark.parametrize(
    ("job", "leg"),
    [(DOOR, "206"), (BENCH_TOP, "174"), (SLAB, "47"), (BOWED_TOP, "10 15/16"), (WORKTOP, "35")],
)
def test_corner_cuts(job: Worked, leg: str) -> None:
    """All four start where they were marked by hand, along both edges of the blank.

    Of the bowed top the two upper corners of the blank are in the air, above the bow: there by hand
    the leg was measured from the crossing of two lines on the paper.
    """
    cuts = job.cuts.corner_cuts
    assert len(cuts) == 4
    legs = [cut.leg for cut in cuts if cut.leg is not None]
    assert {job.tape.figure(held) for held in legs} == {leg}
    assert len(legs) == (2 if job is BOWED_TOP else 4)


@pytest.mark.parametrize(
    ("job", "kinds"),
    [
        (DOOR, [TrimKind.END, TrimKind.END, TrimKind.SIDE, TrimKind.SIDE]),
        (BENCH_TOP, [TrimKind.FREEING, TrimKind.END, TrimKind.SIDE, TrimKind.SIDE]),
        (
            SLAB,
            [TrimKind.ROUGH] * 2 + [TrimKind.FIRST_RIP] + [TrimKind.END] * 2 + [TrimKind.SIDE],
        ),
        (WORKTOP, [TrimKind.FREEING, TrimKind.END, TrimKind.SIDE, TrimKind.SIDE]),
    ],
)
def test_what_comes_first(job: Worked, kinds: list[TrimKind]) -> None:
    """A slab starts with its first rip, a sink end goes first, ends go before long edges."""
    assert [trim.kind for trim in job.cuts.trims] == kinds


@pytest.mark.parametrize(
    ("job", "cut", "widest"),
    [
        (DOOR, 0, 90.6),
        (DOOR, 1, 91.6),
        (DOOR, 2, 12.1),
        (DOOR, 3, 110.1),
        (BENCH_TOP, 0, 655.6),
        (WORKTOP, 0, 1375.6),
    ],
)
def test_what_falls_off(job: Worked, cut: int, widest: float) -> None:
    """The strip beside the kerf is as wide as it was measured by hand."""
    trim = job.cuts.trims[cut]
    assert trim.widest == pytest.approx(widest, abs=0.01)
    assert trim.narrowest == pytest.approx(widest, abs=0.01)


@pytest.mark.parametrize(
    ("job", "length", "width"),
    [(DOOR, 1794, 711), (BENCH_TOP, 1404, 604), (SLAB, 1704, 704), (WORKTOP, 1454, 564)],
)
def test_blanks(job: Worked, length: float, width: float) -> None:
    """The straight cuts leave the blank that the corner cuts are marked on."""
    starts = {(round(t.waste.x), round(t.waste.y)): t for t in job.cuts.trims}
    across = starts[1, 0].start.along - starts[-1, 0].start.along
    up = starts[0, 1].start.square - starts[0, -1].start.square
    assert (across, up) == pytest.approx((length, width), abs=0.01)


def test_last_cut_of_the_bowed_top_enters_the_bow() -> None:
    """It enters the bow 2 15/16 in from end D and leaves at 51 1/16 in."""
    last = BOWED_TOP.cuts.trims[-1]
    assert BOWED_TOP.figures(last.start.along, last.end.along) == ["2 15/16", "51 1/16"]
    assert (last.start.corner, last.end.corner) == ("D", "C")  # show face down, guide on the left


def test_radii_of_the_door() -> None:
    """The jigsaw swings 358 and the router's near edge 354 about the same two centres."""
    jigsaw, router = DOOR.cuts.curve_cuts
    assert isinstance(jigsaw, JigsawCut) and isinstance(router, RouterCut)
    assert (jigsaw.radii[0].radius, router.radii[0].radius) == (358.0, 354.0)
    assert router.radii[0].centres == ("C1", "C2")
    assert router.radii[0].to_bit_middle == 360.0


def test_small_corners_need_no_jigsaw() -> None:
    """After its corner cut a corner of 60 or 80 mm leaves so little that a router takes it."""
    assert [cut.tool.value for job in (SLAB, WORKTOP) for cut in job.cuts.curve_cuts] == [
        "router"
    ] * 2
    assert [cut.tool.value for cut in BENCH_TOP.cuts.curve_cuts] == ["jigsaw", "router"]


def test_lipping_of_the_door() -> None:
    """The lipping is 4384 round and 4.82 m with a tenth more, 48 wide (by hand 4385 and 4.83)."""
    edging = DOOR.cuts.edging
    assert edging is not None
    assert edging.around == pytest.approx(4384.25, abs=0.01)
    assert edging.cut_length == pytest.approx(4822.7, abs=0.1)
    assert edging.strip_width == 48.0


@pytest.mark.parametrize("job", ALL)
def test_every_act_is_told(job: Worked) -> None:
    """Every act of every panel has a title and whole sentences."""
    passages = told(job.cuts, job.datum, job.tape)
    assert len(passages) == len(job.cuts.acts)
    for passage in passages:
        assert passage.title
        assert all(words.endswith(".") for words in passage.words)
