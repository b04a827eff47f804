"""How wide words are, so that a composer can keep them apart before anything is written.

All writers set Helvetica or a face of the same widths (Arial, Liberation Sans); PDF has it built
in, with Symbol beside it for signs such as ′ − ≥ →. Characters that neither holds would print as
black boxes, so `plain` spells them out.
"""

from __future__ import annotations

import math
import unicodedata
from functools import lru_cache

from ..geometry import Bounds, Point
from ..geometry.tolerance import ROUNDING
from .scene import Text

CAP_HEIGHT = 0.718
"""Height of a capital in Helvetica, by its size (Adobe font metrics, `CapHeight 718`)."""

DESCENT = 0.29
"""How far letters hang below the baseline, by the height of a capital (`Descender -207` / 718)."""

_SPELT = {
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
    "⌀": "ø", "∅": "ø", "Ł": "L", "ł": "l", "Đ": "D", "đ": "d", "\u2011": "-", "\u202f": " ",
    "\u2009": " ", "\t": " ", "\n": " ",
}  # fmt: skip


@lru_cache(maxsize=4096)
def plain(words: str) -> str:
    """Return the words with characters that the built-in fonts lack spelt out.

    >>> plain("31⅜ in, ⌀ 22 − ok"), plain("řezač")
    ('31 3/8 in, ø 22 − ok', 'rezac')
    """
    spelt: list[str] = []
    for letter in words:
        if letter in _SPELT:
            before = spelt[-1][-1:] if spelt else ""
            spelt.append(" " * (before.isdigit() and "/" in _SPELT[letter]) + _SPELT[letter])
        elif _is_held(letter):
            spelt.append(letter)
        else:
            bare = "".join(c for c in unicodedata.normalize("NFKD", letter) if _is_held(c))
            spelt.append(bare or "?")
    return "".join(spelt)


@lru_cache(maxsize=1024)
def _is_held(letter: str) -> bool:
    """Whether Helvetica, Symbol or Dingbats has the letter (others come back as a black box)."""
    from reportlab.lib.rl_accel import unicode2T1
    from reportlab.pdfbase.pdfmetrics import getFont

    if letter < " " or unicodedata.combining(letter):
        return False
    font = getFont("Helvetica")
    runs = unicode2T1(letter, [font, *font.substitutionFonts])
    return all(not (run.fontName == "ZapfDingbats" and set(text) <= {0x6E}) for run, text in runs)


@lru_cache(maxsize=8192)
def text_width(words: str, height: float, bold: bool = False) -> float:
    """Return how wide words are, mm, with capitals `height` mm high.

    >>> round(text_width("Finish line", 2.5), 2)
    15.67
    """
    from reportlab.pdfbase.pdfmetrics import stringWidth

    font = "Helvetica-Bold" if bold else "Helvetica"
    return float(stringWidth(plain(words), font, height / CAP_HEIGHT))


def text_box(text: Text) -> Bounds:
    """Return the upright box round a text, descenders included, paper mm."""
    width = text_width(text.words, text.height, text.bold)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    low, high = -DESCENT * text.height, text.height
    if text.turn == 0:
        left = text.at.x + start
        return Bounds(left, text.at.y + low, left + width, text.at.y + high)
    corners = [Point(x, y) for x in (start, start + width) for y in (low, high)]
    return Bounds.around(corner.turned(text.turn) + text.at for corner in corners)


def wrapped(words: str, height: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Return the words in lines no wider than `width`, mm; a longer word stands alone."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def paragraph(
    top: Point, words: str, width: float, height: float = 2.5, bold: bool = False
) -> tuple[Text, ...]:
    """Return words set in lines from `top` (the top left corner) downwards, 1.7 heights apart."""
    step = 1.7 * height
    return tuple(
        Text(Point(top.x, top.y - height - step * n), line, height, bold=bold)
        for n, line in enumerate(wrapped(words, height, width, bold))
    )


def fitted_height(words: str, height: float, width: float, bold: bool = False) -> float:
    """Return the height, at most `height`, at which words are no wider than `width`, mm."""
    wide = text_width(words, height, bold)
    return height if wide <= width else math.floor(height * width / wide * 20 + ROUNDING) / 20
