"""On which line everything stands, however the file is laid out."""

from __future__ import annotations

import tomllib
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.jobfile.lines import NestedTooDeepError, lines_of
from panelwright.layout.keys.place import Trail, nearest_line

TRICKY = r"""# remark = 1
a = "x # no remark ] } \" \\" # remark [ {
'b.c' . "d\te" = 'its [ not { a list'
e = [ # a list
  1, [2,
  3],   # ]
  { f = 4, g.h = [5,
  6] },
]
i = <<<
j = 7 ""\"
""<<< # two quotes stand before the three
k = ~~~
l = 8 ''
'~~~
m = 1979-05-27 07:32:00 # a date with a blank
[[n]]
o = 9
[n.p]
q = 10
[[n.p.r]]
s = 11
[[n.p.r]]
s = 12
[[n]]
[[n.p]]
t = 13
[u.v]
w = 14
[u]
x = 15
""".replace("<<<", '"""').replace("~~~", "'''")
"""Everything that can hide a key or shift a line."""


def trails(value: object, trail: Trail = ()) -> dict[Trail, object]:
    """Return everything in a tree of tables and lists by the way to it."""
    found: dict[Trail, object] = {trail: value} if trail else {}
    pairs: list[tuple[str | int, object]] = []
    if isinstance(value, dict):
        pairs = list(value.items())
    elif isinstance(value, list):
        pairs = list(enumerate(value))
    for part, inner in pairs:
        found |= trails(inner, (*trail, part))
    return found


def test_the_tricky_text_has_each_number_on_its_own_line() -> None:
    """Strings, remarks and lists over many lines hide nothing and shift nothing."""
    lines, rows = lines_of(TRICKY), TRICKY.split("\n")
    found = trails(tomllib.loads(TRICKY))
    assert set(found) == set(lines)
    numbers = {trail: value for trail, value in found.items() if isinstance(value, int)}
    assert sorted(numbers.values()) == [*range(1, 7), *range(9, 16)]
    for trail, value in numbers.items():
        assert str(value) in rows[lines[trail] - 1], trail


@pytest.mark.parametrize(
    ("trail", "line"),
    [
        (("b.c", "d\te"), 3),
        (("e",), 4),
        (("e", 2, "g"), 7),
        (("m",), 16),
        (("n",), 17),
        (("n", 0, "p"), 19),
        (("n", 0, "p", "r", 1), 23),
        (("n", 1), 25),
        (("n", 1, "p", 0), 26),
        (("u",), 30),  # where its own header stands, though a table of it came first
    ],
)
def test_tables_stand_where_they_are_opened(trail: Trail, line: int) -> None:
    """A table or key stands on the line that opens it."""
    assert lines_of(TRICKY)[trail] == line


@st.composite
def laid_out(draw: st.DrawFn) -> str:
    """Draw a valid TOML text of tables, lists and numbers, each number once, in any layout."""
    numbers, names = count(100), count()

    def gap() -> str:
        return draw(st.sampled_from(["", "\n", " # ] } =\n", "  "]))

    def value(depth: int) -> str:
        kind = draw(st.sampled_from(["number", "number", "list", "table", "text"]))
        if kind == "list" and depth:
            items = [value(depth - 1) for _ in range(draw(st.integers(0, 3)))]
            return "[" + gap() + f"{gap()},{gap()}".join(items) + gap() + "]"
        if kind == "table" and depth:
            pairs = [pair(depth - 1) for _ in range(draw(st.integers(0, 3)))]
            return "{ " + ", ".join(pairs) + " }"
        return f'["""\n[{kind}]\n""", {next(numbers)}]' if kind == "text" else str(next(numbers))

    def key() -> str:
        return draw(st.sampled_from(["k{}", '"k {}"', "'k.{}'", "k . {}"])).format(next(names))

    def pair(depth: int) -> str:
        return f"{key()} = {value(depth)}"

    rows = [pair(2) for _ in range(draw(st.integers(0, 3)))]
    for _ in range(draw(st.integers(0, 4))):
        rows.append(draw(st.sampled_from(["[t{}]", "[ t{}.u ]", "[[r]]", "[[r.s]] # {}"])))
        rows[-1] = rows[-1].format(next(names))
        if rows[-1].startswith("[[r.s") and "[[r]]" not in rows:
            rows.pop()
        rows += [pair(2) for _ in range(draw(st.integers(0, 3)))]
    return "\n".join(rows)


@given(laid_out())
def test_every_number_stands_on_the_line_that_is_told(text: str) -> None:
    """The line of a number is the line on which it is written; nothing is left out or made up."""
    found, lines, rows = trails(tomllib.loads(text)), lines_of(text), text.split("\n")
    assert set(lines) == set(found)
    for trail, value in found.items():
        if isinstance(value, int) and isinstance(trail[-1], int):
            assert str(value) in rows[lines[trail] - 1]
        elif isinstance(value, int):
            assert f"= {value}" in rows[lines[trail] - 1]


def test_what_is_missing_is_told_at_what_is_round_it() -> None:
    """A key that is not there has the line of its table."""
    lines = lines_of("[a]\nb = 1\n\n[c]\n")
    assert nearest_line(lines, ("c", "d", 0, "e")) == 4
    assert nearest_line(lines, ("x",)) is None


@pytest.mark.parametrize("text", ["a = " + "[" * 30 + "]" * 30, "b = 1\n" + "a." * 40 + "c = 1"])
def test_deep_nesting_ends_with_its_line(text: str) -> None:
    """No text makes the walk recurse without end."""
    with pytest.raises(NestedTooDeepError, match=f"line {text.count(chr(10)) + 1} "):
        lines_of(text)
