"""Words are measured before they are set."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.drawing.scene import (
    CAP_HEIGHT,
    Text,
    fitted_height,
    paragraph,
    plain,
    text_box,
    text_width,
    wrapped,
)
from panelwright.layout.geometry.point import Point

heights = st.sampled_from([1.8, 2.5, 3.5, 5.0, 7.0, 10.0])
sentences = st.text(alphabet="abcdefg HIJ 0123/×°−", max_size=80)


def test_widths_are_those_of_helvetica() -> None:
    """A digit is 556 and a space 278 thousandths of the size wide (Adobe's metrics)."""
    assert text_width("0", CAP_HEIGHT) == pytest.approx(0.556)
    assert text_width(" ", CAP_HEIGHT) == pytest.approx(0.278)
    assert text_width("W", CAP_HEIGHT, bold=True) == pytest.approx(0.944)


@given(sentences, sentences, heights)
def test_widths_add_up(one: str, other: str, height: float) -> None:
    """Two words set together are as wide as both, and twice the height is twice the width."""
    both = text_width(one + other, height)
    assert both == pytest.approx(text_width(one, height) + text_width(other, height), abs=1e-9)
    assert text_width(one, 2 * height) == pytest.approx(2 * text_width(one, height))


@given(st.text(max_size=40))
def test_every_letter_has_a_shape(words: str) -> None:
    """Whatever a maker writes, what is set holds no letter that would print as a black box."""
    set_words = plain(words)
    assert "■" not in set_words
    assert plain(set_words) == set_words


@pytest.mark.parametrize("sign", "×°øØ–—−′″½¼¾≥≤±²·→←↑↓√π≈éüñß")
def test_the_signs_of_the_sheets_are_kept(sign: str) -> None:
    """Signs that the sheets use are set as they are."""
    assert plain(sign) == sign


@given(sentences, heights, st.floats(min_value=10.0, max_value=200.0))
def test_wrapping_keeps_words_and_width(words: str, height: float, width: float) -> None:
    """No row is wider than asked unless it is one word, and no word is lost."""
    rows = wrapped(words, height, width)
    assert " ".join(rows).split() == words.split()
    assert all(text_width(row, height) <= width + 1e-9 or " " not in row for row in rows)


@given(sentences.filter(str.strip), st.floats(min_value=5.0, max_value=100.0))
def test_fitted_words_fit(words: str, width: float) -> None:
    """Words set at the fitted height are no wider than asked, and never higher than asked."""
    height = fitted_height(words, 5.0, width)
    assert height <= 5.0
    assert text_width(words, height) <= width + 1e-9


@pytest.mark.parametrize(("anchor", "left"), [("start", 0.0), ("middle", -0.5), ("end", -1.0)])
def test_a_box_hangs_from_its_anchor(anchor: str, left: float) -> None:
    """A text's box begins where its anchor says, and turns with it."""
    text = Text(Point(10, 20), "Hinge", 5.0, anchor)  # type: ignore[arg-type]
    box, wide = text_box(text), text_width("Hinge", 5.0)
    assert box.left == pytest.approx(10 + left * wide)
    assert box.width == pytest.approx(wide)
    assert box.top == pytest.approx(25.0)
    upright = text_box(Text(Point(10, 20), "Hinge", 5.0, anchor, math.pi / 2))  # type: ignore[arg-type]
    assert upright.height == pytest.approx(wide)
    assert upright.left == pytest.approx(5.0)


def test_a_paragraph_runs_down_from_its_corner() -> None:
    """Rows stand below the corner, each under the one before."""
    rows = paragraph(Point(5, 50), "one two three four five six seven eight", 30.0)
    assert len(rows) > 1
    assert rows[0].at.y == pytest.approx(47.5)
    assert all(a.at.y - b.at.y == pytest.approx(4.25) for a, b in pairwise(rows))
