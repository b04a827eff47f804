"""The one table of keys: what it documents is what is read."""

from __future__ import annotations

import re
import tomllib

import pytest
from job_schema import keys_as_markdown
from kind_words import left_out, words_of

from panelwright.layout.fit.wish import Span
from panelwright.layout.jobfile.sections import HEAD, PANEL, SECTIONS, homes, read_section
from panelwright.layout.keys.figures import Number
from panelwright.layout.keys.key import Key, Section
from panelwright.layout.keys.kinds import Choice
from panelwright.layout.keys.place import Notes, Place
from panelwright.layout.keys.plane import Table
from panelwright.layout.panel import MATERIALS, Kind, Spoils
from panelwright.layout.panel.defect_kinds import DEFECT_KINDS

ALL = [(section, key) for section in SECTIONS for key in section.keys]
NAMES = [f"{section.heading}{key.name}" for section, key in ALL]


def read(section: Section, table: dict[str, object]) -> tuple[Notes, dict[str, object]]:
    """Return what was noted of a table, and what was held."""
    notes = Notes({})
    return notes, dict(read_section(table, section, Place(notes)).held)


@pytest.mark.parametrize(("section", "key"), ALL, ids=NAMES)
def test_every_example_is_read_as_it_stands(section: Section, key: Key) -> None:
    """The example of a key is TOML that its own kind takes without a word."""
    notes, held = read(section, tomllib.loads(f"{key.name} = {key.example}"))
    assert notes.are_empty, notes.in_order()
    assert set(held) == {key.name}


@pytest.mark.parametrize(("section", "key"), ALL, ids=NAMES)
def test_every_key_is_documented(section: Section, key: Key) -> None:
    """Each key has its meaning, its kind in words and its row in the documents."""
    assert key.meaning and not key.meaning.endswith(".")
    words = words_of(key.kind)
    assert words
    if key.example != "{ }":
        row = f"| `{key.name}` | {words.replace('|', chr(92) + '|')} |"
        assert row in keys_as_markdown()


PLAIN = re.compile(r'"[^"]+"|\d+(\.\d+)?( mm)?|true|false')
WRITTEN = [(s, k) for s, k in ALL if PLAIN.fullmatch(left_out(k)) and k.default is not None]


@pytest.mark.parametrize(("section", "key"), WRITTEN, ids=[k.name for _, k in WRITTEN])
def test_a_default_in_words_is_the_default_that_is_held(section: Section, key: Key) -> None:
    """Writing down the documented default changes nothing."""
    told = left_out(key)
    value = f'"{told}"' if told.endswith(" mm") else told
    notes, held = read(section, tomllib.loads(f"{key.name} = {value}"))
    assert notes.are_empty, notes.in_order()
    usual = key.default.least if isinstance(key.default, Span) else key.default
    assert held[key.name] == (pytest.approx(usual) if isinstance(usual, float) else usual)


def test_most_defaults_are_written_plainly() -> None:
    """The test above has something to look at."""
    assert len(WRITTEN) > 20


def test_no_section_has_a_key_twice() -> None:
    """A name means one thing in its table."""
    for section in SECTIONS:
        assert len({key.name for key in section.keys}) == len(section.keys)


def test_a_key_knows_the_tables_it_belongs_to() -> None:
    """A key in the wrong table can be sent home."""
    assert homes("kerf") == ("[tools]",)
    assert homes("units") == ("the top of the file",)
    assert homes("margin") == ("[top]", "[template]")
    assert homes("nothing") == ()


def test_the_documents_have_a_row_for_each_section_kind_and_material() -> None:
    """Headings come in the order of the table, and the lists behind them are whole."""
    text = keys_as_markdown()
    headings = [line for line in text.splitlines() if line.startswith("### ")]
    assert headings[1:-2] == [f"### `{section.heading}`" for section in SECTIONS[1:]]
    assert all(f"| `{kind}` |" in text for kind in DEFECT_KINDS)
    assert all(f"`{name}` {material.density:.0f}" in text for name, material in MATERIALS.items())
    assert text.count("\n| ") == text.count(" |\n")  # every row is closed


def test_every_build_and_purpose_can_be_named() -> None:
    """Whatever the library knows, a file can say."""
    kinds = {key.name: key.kind for key in PANEL.keys}
    build, spoils = kinds["build"], {spoilt.value for spoilt in Spoils}
    assert isinstance(build, Choice)
    assert set(build.options.values()) == set(Kind)
    assert spoils == {"showing", "cutting", "bearing"}
    assert all(build.synonyms[word] in build.options for word in build.synonyms)


def test_each_synonym_stands_for_a_name_that_is_known() -> None:
    """No synonym leads nowhere, and none is a name itself."""
    choices = [key.kind for _, key in ALL] + [getattr(key.kind, "choice", None) for _, key in ALL]
    found = [kind for kind in choices if isinstance(kind, Choice)]
    assert len(found) > 10
    for choice in found:
        assert set(choice.synonyms.values()) <= set(choice.options)
        assert not set(choice.synonyms) & set(choice.options)


def test_the_head_hands_every_table_on() -> None:
    """The top of the file has one key for each main table."""
    tables = {key.name for key in HEAD.keys if isinstance(key.kind, Table)}
    main = {section.heading.strip("[]") for section in SECTIONS if "." not in section.heading}
    assert tables == main - {""}


def test_numbers_have_their_unit_in_the_documents() -> None:
    """An angle says degrees, a share percent, a force N."""
    units = {key.kind.unit for _, key in ALL if isinstance(key.kind, Number)}
    assert {"degrees", "percent", "kg", "kg/m³", "N"} <= units
