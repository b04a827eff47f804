"""[top]: shapes that need more than their name, and what ties a top to its panel."""

from __future__ import annotations

import math

import pytest

from panelwright.layout.fit.wish import AS_FOUND, OWN, SHAPES, Ends
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import look_over, read_job

BOARD = "[panel]\noutline = { points = [[0, 0], [1600, 0], [1580, 640], [15, 610]] }\n[top]\n"
HOUSE = "outline = [[0, 0], [900, 0], [900, 400], [450, 620], [0, 400]]\n"
ARROW = "outline = [[0, 0], [900, 300], [0, 600], [300, 300]]\n"


def test_an_own_outline_is_read_in_its_own_frame() -> None:
    """Points from any origin become an outline about the middle of its box, its length on x."""
    own = read_job(f'{BOARD}shape = "own outline"\n{HOUSE}').wish.own
    assert own is not None
    assert (own.name, own.length, own.width) == (OWN, pytest.approx(900), pytest.approx(620))
    assert own.area == pytest.approx(900 * 400 + 900 * 220 / 2)
    turned = HOUSE.replace("[900, 0], [900, 400], [450, 620]", "[400, 0], [400, 900], [200, 1100]")
    turned = turned.replace("[0, 400]", "[0, 900]")
    stood = read_job(f'{BOARD}shape = "own outline"\n{turned}').wish.own
    assert stood is not None
    assert (stood.length, stood.width) == (pytest.approx(1100), pytest.approx(400))


def test_an_exponent_and_a_scale_are_read() -> None:
    """What belongs to a shape reaches the wish."""
    wish = read_job(f'{BOARD}shape = "superellipse"\nexponent = 3').wish
    assert (wish.shapes, wish.exponent) == (("superellipse",), 3.0)
    wish = read_job(f'{BOARD}shape = "own outline"\nscaled = true\n{HOUSE}').wish
    assert wish.scaled


def test_any_is_every_shape_that_needs_no_other_key() -> None:
    """With an edge kept, those with a long straight side are left."""
    assert read_job(f'{BOARD}shape = "any"').wish.shapes == SHAPES
    assert not {OWN, AS_FOUND} & set(SHAPES)
    kept = read_job(f'{BOARD}shape = "any"\nkeep = "AB"').wish.shapes
    assert kept == ("rectangle", "rounded rectangle", "capsule")


@pytest.mark.parametrize("name", ["AB", "ba", "A-B", "A–B", " a b "])
def test_an_edge_may_be_named_either_way(name: str) -> None:
    """The length then runs along it and may not turn."""
    limits = read_job(f'{BOARD}parallel_to = "{name}"').wish.limits
    assert (limits.grain, limits.most_turn) == (pytest.approx(0.0), 0.0)
    limits = read_job(f'{BOARD}parallel_to = "CD"').wish.limits
    assert limits.grain == pytest.approx(math.atan2(30, 1565))


def test_kept_edges_reach_the_wish_with_the_wood_on_their_left() -> None:
    """Two opposite edges of a piece as found, and how its ends are cut."""
    text = f'{BOARD}shape = "piece as found"\nkeep = ["AB", "DC"]\nends = "half-round"'
    keeping = read_job(text).wish.keeping
    assert keeping is not None and keeping.ends is Ends.HALF_ROUND
    first, second = keeping.edges
    assert first.segments[0].start == Point(0, 0)
    assert second.segments[0].start == Point(1580, 640)


def test_points_in_and_out_reach_the_wish() -> None:
    """Each in the file's units, millimetres inside."""
    text = "units = 'cm'\n" + BOARD.replace("1600", "160").replace("1580, 640", "158, 64")
    text = text.replace("15, 610", "1.5, 61") + "covers = [[80, 30]]\navoids = [[10, 10]]"
    wish = read_job(text).wish
    assert (wish.covers, wish.avoids) == ((Point(800, 300),), (Point(100, 100),))


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ('shape = "own outline"', "top.outline", "needs it"),
        ('shape = "piece as found"', "top.keep", "needs it"),
        (f'shape = "oval"\n{HOUSE}', "top.outline", "belongs to"),
        ('shape = "oval"\nexponent = 3', "top.exponent", "belongs to"),
        ('shape = "superellipse"\nexponent = 1', "top.exponent", "below 2"),
        ('shape = "superellipse"\nlipping = 5', "top.lipping", "no strip"),
        (f'shape = "own outline"\nscaled = true\n{ARROW}', "top.scaled", "hollow"),
        (
            'shape = "own outline"\noutline = [[0, 0], [9, 9], [9, 0], [0, 9]]',
            "top.outline",
            "meets the edge",
        ),
        ('shape = "oval"\nkeep = "AB"', "top.keep", "no long straight side"),
        ('shape = "capsule"\nkeep = ["AB", "CD"]', "top.keep", "lies on one edge"),
        ('shape = "capsule"\nkeep = "AC"', "top.keep", "there are: AB, BC, CD, DA"),
        ('shape = "capsule"\nkeep = "sink side"', "top.keep", "two corners"),
        ('shape = "capsule"\nkeep = []', "top.keep", "0 edges"),
        ('shape = "piece as found"\nkeep = ["AB", "BC"]', "top.keep", "not opposite"),
        ('shape = "piece as found"\nkeep = "AB"\nends = "oval"', "top.ends", "use one of"),
        ('shape = "capsule"\nkeep = "AB"\nlipping = 4', "top.lipping", "does not go with"),
        ('parallel_to = "AB"\nmost_turn = 5', "top.most_turn", "does not go with"),
        ('parallel_to = "AX"', "top.parallel_to", "two corners"),
        ("covers = [[9000, 10]]", "top.covers[1]", "off the panel"),
        ("covers = [[90, 10]]\navoids = [[90, 10]]", "top.avoids[1]", "both"),
        ("covers = 4", "top.covers", "not a list of points"),
    ],
)
def test_a_slip_is_told_once_where_it_is(text: str, key: str, words: str) -> None:
    """Each mistake is one problem, under its key, with what to do."""
    found = look_over(BOARD + text).problems
    assert [problem.key for problem in found] == [key], found
    assert words in found[0].message


def test_a_bowed_edge_is_no_side_to_lie_on() -> None:
    """A long side needs a straight edge; the message says how far off it is."""
    bowed = BOARD.replace("[15, 610]]", "[15, 610]], bows = [{ from = 1, rise = 9 }]")
    found = look_over(f'{bowed}shape = "rectangle"\nkeep = "AB"').problems
    assert [problem.key for problem in found] == ["top.keep"]
    assert "9.0 mm" in found[0].message
    assert not look_over(f'{bowed}shape = "piece as found"\nkeep = "AB"').problems
