"""Whatever is typed into a job file comes back as a job or as problems, never as an accident."""

from __future__ import annotations

import math

from hypothesis import example, given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import JobError
from panelwright.layout.jobfile import Reading, look_over
from panelwright.layout.jobfile.sections import (
    BOW,
    CUT_OUT,
    DATUM,
    DEFECT,
    HEAD,
    LEGS,
    OUTLINE,
    PANEL,
    SECTIONS,
    TEMPLATE,
    TOOLS,
    TOP,
)
from panelwright.layout.jobfile.toml import tables_of
from panelwright.layout.keys.key import Section
from panelwright.layout.keys.place import shown

MAIN = {"panel": PANEL, "top": TOP, "legs": LEGS, "tools": TOOLS, "template": TEMPLATE}

GROUND = "panel.outline = { length = 1000, width = 600 }\n"

LENGTHS_AND_NOT = st.sampled_from(
    ["5' 3\"", "80 cm", "1/2", "1/0", "", " ", "-3 in", "1e9 m", "x", "\x7f", "½", "ABCD", "north"]
)
SCALARS = st.one_of(
    st.integers(-(10**20), 10**20),
    st.integers(-3, 5000),
    st.floats(),
    st.booleans(),
    LENGTHS_AND_NOT,
    st.sampled_from([word for section in SECTIONS for word in (key.name for key in section.keys)]),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=5),
        st.dictionaries(
            st.sampled_from(["at", "size", "points", "from", "rise", "length", "width", "x"]),
            inner,
            max_size=4,
        ),
    ),
    max_leaves=12,
)


def toml(value: object) -> str:
    """Return a value as TOML writes it on one line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return (
            ("nan" if math.isnan(value) else "inf" if value > 0 else "-inf")
            if not (math.isfinite(value))
            else repr(value)
        )
    if isinstance(value, int):
        return str(value)
    if isinstance(value, str):
        inside = "".join(f"\\U{ord(sign):08x}" for sign in value)
        return f'"{inside}"'
    if isinstance(value, list):
        return f"[{', '.join(toml(item) for item in value)}]"
    assert isinstance(value, dict)
    return "{ " + ", ".join(f"{name} = {toml(item)}" for name, item in value.items()) + " }"


def is_told(reading: Reading) -> bool:
    """Return whether there is a job, or at least one problem, each with a message of one line."""
    for problem in reading.problems:
        assert problem.message and "\n" not in str(problem), problem
    return (reading.job is None) == bool(reading.problems)


@given(st.text())
@example("a" * 100_000)
@example("[" * 10_000)
@example("a = " + "[" * 5000)
@example("a = " + "{a=" * 2000)
@example("a." * 2000 + "b = 1")
@example("a = 0x" + "f" * 6000)
@example("a = " + "9" * 6000)
@example("panel.thickness = 0x" + "f" * 6000)
@example("panel = 1979-05-27")
@example("\ufeff")
@example("\r")
@example("a = 1\r\r\n")
def test_any_text_is_a_job_or_problems(text: str) -> None:
    """No text raises anything."""
    assert is_told(look_over(text))


@given(st.binary())
@example(b"\xff\xfe[\x00p\x00")
@example(b"panel = \xe9")
@example(b"\xef\xbb\xbf")
def test_any_bytes_are_a_job_or_problems(data: bytes) -> None:
    """No bytes raise anything."""
    assert is_told(look_over(data))


@given(st.sampled_from(SECTIONS), st.data())
@settings(max_examples=600)
def test_any_value_of_any_key_is_taken_or_told(section: Section, data: st.DataObject) -> None:
    """A value of any type and size under any key gives a job or problems."""
    key = data.draw(st.sampled_from(section.keys)).name
    pair = f"{key} = {toml(data.draw(VALUES))}"
    assert is_told(look_over(in_its_place(section, pair)))


def in_its_place(section: Section, pair: str) -> str:
    """Return a job file that is right but for one key of a section."""
    path = section.heading.strip("[]")
    if section is OUTLINE:
        return f"panel.outline = {{ {pair} }}\n"
    if section is BOW:
        return f"panel.outline = {{ length = 900, width = 600, bows = [{{ {pair} }}] }}"
    if section.heading.startswith("[["):
        return f"{GROUND}{path} = [{{ {pair} }}]"
    return f"{pair}\n{GROUND}" if section is HEAD else f"{GROUND}{path}.{pair}"


@st.composite
def tables(draw: st.DrawFn, section: Section) -> str:
    """Draw an inline table of some keys of a section: examples, often, or anything."""
    keys = draw(st.lists(st.sampled_from(section.keys), unique_by=lambda key: key.name, max_size=7))
    inner = {"outline": OUTLINE, "datum": DATUM}
    pairs = []
    for key in keys:
        if section is PANEL and key.name in inner and draw(st.booleans()):
            value = draw(tables(inner[key.name]))
        elif section is PANEL and key.name in ("defects", "cutouts") and draw(st.booleans()):
            each = tables(DEFECT if key.name == "defects" else CUT_OUT)
            value = f"[{', '.join(draw(st.lists(each, max_size=4)))}]"
        else:
            value = key.example if draw(st.integers(0, 3)) else toml(draw(VALUES))
        pairs.append(f"{key.name} = {value}")
    return "{ " + ", ".join(pairs) + " }"


@given(st.fixed_dictionaries({name: tables(section) for name, section in MAIN.items()}), VALUES)
@settings(max_examples=200)
def test_any_mixture_of_keys_is_taken_or_told(parts: dict[str, str], units: object) -> None:
    """Right and wrong keys of all tables together give a job or problems."""
    rows = [f"{name} = {table}" for name, table in parts.items()]
    for head in (f"units = {toml(units)}", 'units = "in"'):
        assert is_told(look_over("\n".join([head, *rows])))


@given(VALUES)
def test_a_shown_value_is_short_and_on_one_line(value: object) -> None:
    """What a message repeats of a file never floods it."""
    assert len(shown(value)) < 60 and "\n" not in shown(value)


@given(st.dictionaries(st.text(min_size=1, max_size=8), st.integers(), max_size=6))
def test_every_key_of_a_file_has_a_line(table: dict[str, int]) -> None:
    """Keys of any letters are found where they stand, one a line."""
    text = "".join(f"{toml(name)} = {value}\n" for name, value in table.items())
    lines = tables_of(text).lines
    assert lines == {(name,): number for number, name in enumerate(table, 1)}


def test_tables_that_are_not_toml_raise_with_their_problems() -> None:
    """What cannot be read on for sure ends with the problems found so far."""
    try:
        tables_of("a = 31 3/8\nb = [1,\n2\nc = 3\n")
    except JobError as error:
        assert [(p.key, p.line) for p in error.problems] == [("a", 1), ("b", 4)]
    else:
        raise AssertionError("it was read")
