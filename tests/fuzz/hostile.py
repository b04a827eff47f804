"""Values that nobody should type, and some that somebody might."""

# ruff: noqa: E501 - lists of odd values read better in long lines
from __future__ import annotations

from random import Random

from panelwright.layout.jobfile.sections import SECTIONS

NUMBERS = (
    "nan", "inf", "-inf", "0", "-0.0", "-1", "1", "1e-9", "1e-300", "1e300", "1e308", "99999", "100000",
    "100001", "0.005", "0.01", "3", "4", "90", "180", "360", "-90", "1e6", "9" * 400, "0x" + "f" * 300,
)  # fmt: skip

TEXTS = (
    '""', '" "', '"1/0 in"', '"31 3/8 in"', "\"5' 3\\\"\"", '"½ in"', '"-3 cm"', '"1e9 m"', '"12 furlongs"',
    '"\\u202eABCD"', '"\\u0000"', '"\\u0007"', '"é̂̂̂"', '"<script>"', '"../../etc"', '"%s{0}{{"',
    "'''\n\n'''", '"' + "A" * 3000 + '"', '"A"', '"AB"', '["AB", "CD"]', '"\\uFEFF"', '"😀"',
)  # fmt: skip

OTHERS = (
    "true", "false", "1979-05-27", "07:32:00", "[]", "{}", "[[]]", "[[], []]", "[nan, nan]", "[0, 0]",
    "[[0, 0], [0, 0], [0, 0]]", "[[0, 0], [1, 0], [2, 0]]", "[" * 60 + "]" * 60, "{ a = { a = { a = 1 } } }",
    "[1, 2, 3, 4, 5, 6, 7]", "[1e5, 1e5]", "[1e-7, 1e-7]", "{ at = [1, 1], diameter = 1 }", "[{}, {}]",
)  # fmt: skip

EXAMPLES = tuple(key.example for section in SECTIONS for key in section.keys if key.example)

FLOATS = (
    float("nan"), float("inf"), -float("inf"), 0.0, -0.0, -1.0, 1.0, 1e-300, 1e-9, 1e-3, 0.1, 45.0, 90.0,
    600.0, 900.0, 1800.0, 1800.0000001, 1e5, 1e9, 1e160, 1e308,
)  # fmt: skip

WORDS = (
    "", " ", "-", "--", "0", "-1", "1", "2", "3", "99", "101", "1e9", "nan", "inf", "900", "80cm", "31 3/8 in",
    "2ft 6in", "1/0", "½", "10 mi", "A4", "roll 36 in", "13 x 19 in", "1x1", "0x0", "1200x600", "job.toml",
    "out", "missing/deep", "job.toml/x", "é", "\u202e", "\udcff", "x" * 300, "oval", "whole", "a\nb", "all",
    "screw hole 8 at 60,400", "circle", "../out", "4", "R12",
)  # fmt: skip


def literal(draw: Random) -> str:
    """Return a value as TOML writes it."""
    pool = draw.choice((NUMBERS, NUMBERS, TEXTS, OTHERS, EXAMPLES, EXAMPLES))
    return draw.choice(pool)
