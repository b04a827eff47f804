"""The form of a job file as JSON Schema and as a page, made from the keys its reader works by.

A length may stand in any unit, so of its limits only the sign is in the schema.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping
from typing import Any

from kind_words import left_out, words_of
from plain_words import PLAIN_WORDS

from panelwright.layout.fit.wish_kinds import Spans
from panelwright.layout.jobfile.sections import SECTIONS
from panelwright.layout.keys.figures import Counts, Length, Named, Number, Range, Share, Sum
from panelwright.layout.keys.key import Key, Section
from panelwright.layout.keys.kinds import LONGEST_TEXT, Choice, Kind, Text, YesNo
from panelwright.layout.keys.plane import At, Choices, Four, Pair, Points, Ring
from panelwright.layout.legs.foot import MASONRY, METALS
from panelwright.layout.panel.defect_kinds import DEFECT_KINDS
from panelwright.layout.panel.edges import LETTERS
from panelwright.layout.panel.materials import MATERIALS
from panelwright.layout.panel.named_edges import EdgeName, EdgeNames
from panelwright.layout.template.wish import PaperSize, White
from panelwright.layout.work.wish import HourSpan

Schema = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> Schema:
    """Return the schema of a whole job file."""
    return {
        "$schema": DRAFT,
        "title": "Job file of Panelwright",
        **_table(""),
        "$defs": {"length": _LENGTH},
    }


_LENGTH: Schema = {
    "description": "A number in the file's units, or a text with its own: 31 3/8 in, 80 cm",
    "anyOf": [{"type": "number"}, {"type": "string", "minLength": 1}],
}
_ANY_LENGTH: Schema = {"$ref": "#/$defs/length"}


def _table(trail: str) -> Schema:
    section = next(s for s in SECTIONS if s.heading.strip("[]") == trail)
    held: Schema = {
        "type": "object",
        "description": section.meaning,
        "properties": {key.name: _property(key, _below(trail, key.name)) for key in section.keys},
        "additionalProperties": False,
    }
    required = [key.name for key in section.keys if key.meaning.endswith("must be given")]
    required += ["panel"] if not trail else []
    return {**held, "required": required} if required else held


def _below(trail: str, name: str) -> str:
    return f"{trail}.{name}" if trail else name


def _property(key: Key, trail: str) -> Schema:
    told: Schema = {"description": key.meaning}
    if key.example and key.example != "{ }":
        told["examples"] = [tomllib.loads(f"key = {key.example}")["key"]]
    return {**told, **_values(key.kind, trail)}


def _values(kind: Kind, trail: str) -> Schema:
    """Return what a key may hold; for tables, what stands under their heading."""
    headings = {section.heading.strip("[]"): section for section in SECTIONS}
    if trail not in headings:
        return form(kind)
    table = _table(trail)
    section: Section = headings[trail]
    if not section.heading.startswith("[["):
        return table
    if trail.endswith("bows"):
        return {"anyOf": [form(Four(Length())), {"type": "array", "items": table}]}
    if trail.endswith("cutouts"):
        return {"type": "array", "items": {"anyOf": [form(Ring()), table]}}
    return {"type": "array", "items": table}


def form(kind: Kind) -> Schema:
    """Return the schema of the values of a kind."""
    found = next((_FORMS[cls] for cls in type(kind).__mro__ if cls in _FORMS), None)
    if found is None:
        raise TypeError(f"{type(kind).__name__} has no form in a schema")
    return found(kind)


def _row(items: Schema, count: int) -> Schema:
    return {"type": "array", "items": items, "minItems": count, "maxItems": count}


def _within(limits: Range) -> Schema:
    held: Schema = {}
    if math.isfinite(limits.least):
        held["exclusiveMinimum" if limits.above else "minimum"] = limits.least
    if math.isfinite(limits.most):
        held["maximum"] = limits.most
    return held


def _length(kind: Length) -> Schema:
    if kind.limits.least != 0.0:
        return _ANY_LENGTH
    number = {"type": "number", **_within(Range(0.0, above=kind.limits.above))}
    return {"anyOf": [number, {"type": "string", "minLength": 1}]}


def _list(items: Kind, least: int = 1, most: int | None = None) -> Schema:
    ends = {"minItems": least} if most is None else {"minItems": least, "maxItems": most}
    return {"type": "array", "items": form(items), **ends}


def _one_or(one: Schema, more: Schema) -> Schema:
    return {"anyOf": [one, more]}


_LETTER = f"[{LETTERS}{LETTERS.lower()}]"
_TEXT: Schema = {"type": "string", "minLength": 1}
_HOURS: Schema = {"type": "number", "minimum": 0}
_FROM_0 = Length(Range(0.0))

_FORMS: Mapping[type, Callable[[Any], Schema]] = {
    Text: lambda kind: {**_TEXT, "maxLength": LONGEST_TEXT},
    YesNo: lambda kind: {"type": "boolean"},
    Choice: lambda kind: {"type": "string", "enum": list({**kind.options, **kind.synonyms})},
    Number: lambda kind: {"type": "integer" if kind.whole else "number", **_within(kind.limits)},
    Sum: lambda kind: _HOURS,
    Share: lambda kind: {"type": "number", **_within(kind.limits)},
    HourSpan: lambda kind: _one_or(_HOURS, _row(_HOURS, 2)),
    Named: lambda kind: {
        "type": "object",
        "propertyNames": {"enum": list(kind.names)},
        "additionalProperties": form(kind.kind),
    },
    Length: _length,
    Spans: lambda kind: form(kind.kind),
    Counts: lambda kind: _list(kind.kind, 2, 2) if kind.rising else _list(kind.kind),
    At: lambda kind: _row(_ANY_LENGTH, 2),
    Points: lambda kind: _list(At(), kind.least),
    Ring: lambda kind: _list(At(), 3),
    Pair: lambda kind: (
        _one_or(form(kind.kind), _row(form(kind.kind), 2))
        if kind.one_will_do
        else _row(form(kind.kind), 2)
    ),
    Four: lambda kind: _row(form(kind.kind), 4),
    Choices: lambda kind: (
        _one_or(form(kind.choice), _list(kind.choice)) if kind.one_will_do else _list(kind.choice)
    ),
    EdgeName: lambda kind: {
        "type": "string",
        "pattern": rf"^\s*{_LETTER}\s*[-–]?\s*{_LETTER}\s*$",
    },
    EdgeNames: lambda kind: _one_or(form(EdgeName()), _list(EdgeName(), 1, 2)),
    PaperSize: lambda kind: _one_or(_TEXT, _row(form(Length()), 2)),
    White: lambda kind: _one_or(form(_FROM_0), _row(form(_FROM_0), 4)),
}
"""The form of each kind; one that derives from another has its form where it has none."""


def rows() -> list[dict[str, Any]]:
    """Return every key as `panelwright keys` searches and tells it, in the order of the page."""
    return [_row_of(section, key) for section in SECTIONS for key in section.keys if _is_told(key)]


def _is_told(key: Key) -> bool:
    return key.example != "{ }"


def _row_of(section: Section, key: Key) -> dict[str, Any]:
    choice = key.kind.choice if isinstance(key.kind, Choices) else key.kind
    synonyms = dict(choice.synonyms) if isinstance(choice, Choice) else {}
    options = choice.options if isinstance(choice, Choice) else {}
    trail = _below(section.heading.strip("[]"), key.name)
    table = next((other.meaning for other in SECTIONS if other.heading == f"[{trail}]"), "")
    return {
        "table": section.heading,
        "name": key.name,
        "written": words_of(key.kind),
        "left_out": left_out(key),
        "meaning": table or key.meaning,
        "example": f"{key.name} = {key.example}" if key.example else "",
        "also": synonyms,
        "words": PLAIN_WORDS.get(trail, ()),
        "values": list({**options, **synonyms}),
    }


def keys_as_markdown() -> str:
    """Return the documents of every key: one heading and one table a section."""
    parts = [_told(section) for section in SECTIONS]
    return "\n\n".join((*parts, _defect_kinds(), _materials())) + "\n"


def _told(section: Section) -> str:
    title = f"`{section.heading}`" if section.heading else "Top of the file"
    rows = ["| key | value | where it is left out | meaning | example |", "|---|---|---|---|---|"]
    rows += [_line(key) for key in section.keys if _is_told(key)]
    return f"### {title}\n\n{section.meaning}\n\n" + "\n".join(rows)


def _line(key: Key) -> str:
    example = f"`{key.name} = {key.example}`" if key.example else ""
    cells = (f"`{key.name}`", words_of(key.kind), left_out(key) or "–", key.meaning, example)
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _defect_kinds() -> str:
    rows = ["| kind | spoils | clear | ends |", "|---|---|---|---|"]
    for name, kind in DEFECT_KINDS.items():
        spoils = ", ".join(spoilt.value for spoilt in kind.spoils) or "nothing"
        rows.append(f"| `{name}` | {spoils} | {kind.clear:g} mm | {kind.ends:g} mm |")
    meaning = (
        "What each spoils and keeps clear where its keys are left out (common practice). What no "
        "blade may cross is kept clear by at least what saw, jigsaw and router take outside the "
        "line. A split runs on by `ends` past both ends of an oblong `size`, else along the grain, "
        "whatever its `clear`; by `points` without a `clear` the larger of the two is kept all "
        "round."
    )
    return f"### Kinds of defects\n\n{meaning}\n\n" + "\n".join(rows)


def _materials() -> str:
    names = ", ".join(f"`{name}` {material.density:.0f}" for name, material in MATERIALS.items())
    legs = ", ".join(f"`{name}` {m.density:.0f}" for name, m in {**METALS, **MASONRY}.items())
    return (
        f"### Materials\n\nEach with the density, kg/m³, that it is weighed by: {names}.\n\n"
        f"Legs may also be of {legs}."
    )
