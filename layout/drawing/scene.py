"""A neutral drawing: what a sheet shows, before any file format.

A scene is in paper millimetres at true size, y up. Whoever composes it has already scaled what it
shows, so a writer only translates. How wide words are is known here too: all writers set Helvetica
or a face of the same widths, PDF with Symbol beside it for signs such as ′ − ≥ →; characters that
neither holds would print as black boxes, so `plain` spells them out.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ..geometry import Bounds, Path, Point, circle
from ..geometry.tolerance import ROUNDING
from ..units import MIXED

_WORD = re.compile(rf"(?:{MIXED.pattern}|\S)+")  # a whole number and its fraction are one word
Anchor = Literal["start", "middle", "end"]  # which end of its words a text is held by
Hatching = Literal["none", "solid", "diagonal", "cross"]  # how an area is filled
SPACING = 3.0  # distance between hatch lines, mm on paper: open enough to read what lies under them
HATCH_WIDTH = 0.18  # width of a hatch line, mm: the finest of ISO 128-2's common series


@dataclass(frozen=True, slots=True)
class Layer:
    """One meaning on a drawing, and how its lines look."""

    key: str
    """Lower-case words joined by hyphens: ``finish-line``. An SVG group, a DXF layer and a PDF
    layer are named by it."""
    title: str
    """The same for people: ``Finish line``."""
    colour: str = "#000000"
    """``#rrggbb``."""
    line_width: float = 0.25
    """mm on paper, from the ISO 128-2 series (0.18, 0.25, 0.35, 0.5, 0.7, 1)."""
    dashes: tuple[float, ...] = ()
    """Drawn and empty lengths in turn, mm on paper; empty for a continuous line."""
    hatching: Hatching = "none"
    """How the areas of the layer are filled."""
    hatch: tuple[float, float] = (SPACING, HATCH_WIDTH)
    """Distance between its hatch lines, and their width, mm on paper."""


Sign = Literal["point", "middle", "centre", "nail", "hole"]
"""What a mark is for, told by its shape where no letters can be read."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line along a path."""

    path: Path
    phase: float = 0.0
    """How far into its layer's dashes the line begins, mm: where it carries on another one."""


@dataclass(frozen=True, slots=True)
class Area:
    """A closed boundary with holes, filled as its layer says; its edge is drawn where `edged`."""

    boundary: Path
    holes: tuple[Path, ...] = ()
    edged: bool = True


@dataclass(frozen=True, slots=True)
class Mark:
    """A place that is pricked or drilled: a cross whose arms are `arm` long, mm on paper.

    With `diameter` a circle of that size, at the scale of the drawing, is drawn round it.
    """

    at: Point
    arm: float = 3.0
    diameter: float = 0.0
    sign: Sign = "point"
    """Lines are added to the cross by what it is for."""
    name: str = ""
    """What it is called, for a file format that can hold it beside the lines."""


@dataclass(frozen=True, slots=True)
class Text:
    """Words in one line."""

    at: Point
    """The baseline's start, middle or end, as `anchor` says."""
    words: str
    height: float = 2.5
    """Height of a capital letter, mm on paper (ISO 3098: 1.8, 2.5, 3.5, 5, 7, 10)."""
    anchor: Anchor = "start"
    turn: float = 0.0
    """Direction of the baseline, radians."""
    bold: bool = False
    halo: float = 0.0
    """How wide the paper's colour is kept round the letters, mm; only SVG heeds it."""


Item = Stroke | Area | Mark | Text


def line(*points: Point, closed: bool = False) -> Stroke:
    """Return the straight line through points."""
    return Stroke(Path.through(points, closed=closed))


@dataclass(frozen=True, slots=True)
class Group:
    """Items of one layer that belong together; later groups lie on top of earlier ones."""

    layer: Layer
    items: tuple[Item, ...]


def grouped(drawn: Iterable[tuple[Layer, Item]]) -> tuple[Group, ...]:
    """Return items as one group for each layer, in the order in which layers first come."""
    held: dict[Layer, list[Item]] = {}
    for layer, item in drawn:
        held.setdefault(layer, []).append(item)
    return tuple(Group(layer, tuple(items)) for layer, items in held.items())


@dataclass(frozen=True, slots=True)
class Scene:
    """One sheet."""

    title: str
    frame: Bounds
    """The sheet of paper (or the extent of an endless one), paper mm."""
    groups: tuple[Group, ...]
    """From the bottom to the top."""
    stretch: tuple[float, float] = (1.0, 1.0)
    """How much wider and higher than true a page must be written so that a printer which is off by
    the same comes out true; about the middle of the frame. Only pages (PDF) heed it."""


_CORNERS: dict[Sign, tuple[float, ...]] = {
    "point": (),
    "nail": (),
    "middle": (45.0, 135.0, 225.0, 315.0),
    "centre": (90.0, 210.0, 330.0),
    "hole": (0.0, 90.0, 180.0, 270.0),
}
"""Directions, degrees, in which the corners of the figure round a mark lie: a square round the
middle, a triangle round the centre of an arc, a diamond round a hole; nothing round a point, and
round a nail only the ring of its own size."""


def mark_lines(mark: Mark) -> tuple[Path, ...]:
    """Return a mark as lines: its cross, the ring of its diameter, the figure of its sign.

    >>> [len(mark_lines(Mark(Point(0, 0), sign=sign))) for sign in ("point", "hole")]
    [2, 3]
    """
    arms = Point(mark.arm, 0.0), Point(0.0, mark.arm)
    cross = tuple(Path.through((mark.at - arm, mark.at + arm)) for arm in arms)
    ring = (circle(mark.at, mark.diameter / 2),) if mark.diameter else ()
    corners = [mark.at + Point.polar(mark.arm, math.radians(d)) for d in _CORNERS[mark.sign]]
    figure = (Path.through(corners, closed=True),) if corners else ()
    return (*cross, *ring, *figure)


CAP_HEIGHT = 0.718  # of Helvetica, by its size (Adobe font metrics, `CapHeight 718`)
DESCENT = 0.29  # of letters below the baseline, by the height of a capital (`Descender -207` / 718)

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
    spelt = ""
    for letter in words:
        if letter in _SPELT:
            spelt += " " * (spelt[-1:].isdigit() and "/" in _SPELT[letter]) + _SPELT[letter]
        elif _is_held(letter):
            spelt += letter
        else:
            bare = "".join(c for c in unicodedata.normalize("NFKD", letter) if _is_held(c))
            spelt += bare or "?"
    return spelt


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
    box = Bounds(start, -DESCENT * text.height, start + width, text.height)
    if text.turn == 0:
        return box.moved(text.at)
    return Bounds.around(corner.turned(text.turn) + text.at for corner in box.corners)


def wrapped(words: str, height: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Return the words in lines no wider than `width`, mm; a longer word stands alone.

    >>> wrapped("guide 6 9/16 in off", 2.5, 15.0)
    ('guide', '6 9/16 in', 'off')
    """
    lines: list[str] = []
    for word in (found[0] for found in _WORD.finditer(words)):
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
