"""The form of a job file as JSON Schema, made from the keys that its reader works by.

Besides what validators and editors heed, each property carries what ``panelwright keys`` searches:
``x-written`` how its value is written, ``x-left-out`` what holds without it, ``x-also`` other words
that are taken and what each stands for, ``x-plain`` words that makers use for the matter.

A length may stand in any unit, so of its limits only the sign is in the schema.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from functools import singledispatch

from ..fit.wish_kinds import Spans
from ..keys.figures import Counts, Length, Number, Range
from ..keys.key import Key, Section
from ..keys.kinds import LONGEST_TEXT, Choice, Kind, Text, YesNo
from ..keys.named import Named, Share, Sum
from ..keys.plane import At, Choices, Four, Pair, Points, Ring
from ..panel.corners import LETTERS
from ..panel.edge_kinds import EdgeName, EdgeNames
from ..plan.form import DRAFT, Schema
from ..template.paper_kinds import PaperSize, White
from ..work.wish import HourSpan
from .sections import SECTIONS


def job_schema(plain_words: Mapping[str, tuple[str, ...]]) -> Schema:
    """Return the schema of a whole job file.

    Parameters
    ----------
    plain_words : mapping
        Of keys such as ``legs.inset``: the words that makers use for them.
    """
    return {
        "$schema": DRAFT,
        "title": "Job file of Panelwright",
        **_table("", plain_words),
        "$defs": {"length": _LENGTH},
    }


_LENGTH: Schema = {
    "description": "A number in the file's units, or a text with its own: 31 3/8 in, 80 cm",
    "anyOf": [{"type": "number"}, {"type": "string", "minLength": 1}],
}
_ANY_LENGTH: Schema = {"$ref": "#/$defs/length"}


def _table(trail: str, plain: Mapping[str, tuple[str, ...]]) -> Schema:
    section = next(s for s in SECTIONS if s.heading.strip("[]") == trail)
    held: Schema = {
        "type": "object",
        "description": section.meaning,
        "properties": {
            key.name: _property(key, _below(trail, key.name), plain) for key in section.keys
        },
        "additionalProperties": False,
    }
    required = [key.name for key in section.keys if key.meaning.endswith("must be given")]
    required += ["panel"] if not trail else []
    return {**held, "required": required} if required else held


def _below(trail: str, name: str) -> str:
    return f"{trail}.{name}" if trail else name


def _property(key: Key, trail: str, plain: Mapping[str, tuple[str, ...]]) -> Schema:
    told: Schema = {"description": key.meaning}
    if key.example and key.example != "{ }":
        told["examples"] = [tomllib.loads(f"key = {key.example}")["key"]]
    told["x-written"] = key.kind.words
    if key.usual:
        told["x-left-out"] = key.usual
    also = _also(key.kind)
    if also:
        told["x-also"] = dict(also)
    if trail in plain:
        told["x-plain"] = list(plain[trail])
    return {**told, **_values(key.kind, trail, plain)}


def _also(kind: Kind) -> Mapping[str, str]:
    if isinstance(kind, Choices):
        return kind.choice.synonyms
    return kind.synonyms if isinstance(kind, Choice) else {}


def _values(kind: Kind, trail: str, plain: Mapping[str, tuple[str, ...]]) -> Schema:
    """Return what a key may hold; for tables, what stands under their heading."""
    headings = {section.heading.strip("[]"): section for section in SECTIONS}
    if trail not in headings:
        return form(kind)
    table = _table(trail, plain)
    section: Section = headings[trail]
    if not section.heading.startswith("[["):
        return table
    if trail.endswith("bows"):
        return {"anyOf": [form(Four(Length())), {"type": "array", "items": table}]}
    if trail.endswith("cutouts"):
        return {"type": "array", "items": {"anyOf": [form(Ring()), table]}}
    return {"type": "array", "items": table}


@singledispatch
def form(kind: Kind) -> Schema:
    """Return the schema of the values of a kind."""
    raise TypeError(f"{type(kind).__name__} has no form in a schema")


@form.register
def _(kind: Text) -> Schema:
    return {"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}


@form.register
def _(kind: YesNo) -> Schema:
    return {"type": "boolean"}


@form.register
def _(kind: Choice) -> Schema:
    return {"type": "string", "enum": list(dict.fromkeys((*kind.options, *kind.synonyms)))}


@form.register
def _(kind: Number) -> Schema:
    return {"type": "integer" if kind.whole else "number", **_within(kind.limits)}


@form.register
def _(kind: Sum) -> Schema:
    return {"type": "number", "minimum": 0}


@form.register
def _(kind: Share) -> Schema:
    return {"type": "number", **_within(kind.limits)}


@form.register
def _(kind: HourSpan) -> Schema:
    hours = {"type": "number", "minimum": 0}
    return {"anyOf": [hours, _row(hours, 2)]}


@form.register
def _(kind: Named) -> Schema:
    names = {"enum": list(kind.names)}
    return {"type": "object", "propertyNames": names, "additionalProperties": form(kind.kind)}


@form.register
def _(kind: Length) -> Schema:
    if kind.limits.least != 0.0:
        return _ANY_LENGTH
    number = {"type": "number", **_within(Range(0.0, above=kind.limits.above))}
    return {"anyOf": [number, {"type": "string", "minLength": 1}]}


@form.register
def _(kind: Spans) -> Schema:
    return form(kind.kind)


@form.register
def _(kind: Counts) -> Schema:
    sizes = {"minItems": 2, "maxItems": 2} if kind.rising else {"minItems": 1}
    return {"type": "array", "items": form(kind.kind), **sizes}


@form.register
def _(kind: At) -> Schema:
    return _row(_ANY_LENGTH, 2)


@form.register
def _(kind: Points) -> Schema:
    return {"type": "array", "items": form(At()), "minItems": kind.least}


@form.register
def _(kind: Ring) -> Schema:
    return {"type": "array", "items": form(At()), "minItems": 3}


@form.register
def _(kind: Pair) -> Schema:
    pair = _row(form(kind.kind), 2)
    return {"anyOf": [form(kind.kind), pair]} if kind.one_will_do else pair


@form.register
def _(kind: Four) -> Schema:
    return _row(form(kind.kind), 4)


@form.register
def _(kind: Choices) -> Schema:
    names = {"type": "array", "items": form(kind.choice), "minItems": 1}
    return {"anyOf": [form(kind.choice), names]} if kind.one_will_do else names


@form.register
def _(kind: EdgeName) -> Schema:
    letter = f"[{LETTERS}{LETTERS.lower()}]"
    return {"type": "string", "pattern": rf"^\s*{letter}\s*[-–]?\s*{letter}\s*$"}


@form.register
def _(kind: EdgeNames) -> Schema:
    names = {"type": "array", "items": form(EdgeName()), "minItems": 1, "maxItems": 2}
    return {"anyOf": [form(EdgeName()), names]}


@form.register
def _(kind: PaperSize) -> Schema:
    return {"anyOf": [{"type": "string", "minLength": 1}, _row(form(Length()), 2)]}


@form.register
def _(kind: White) -> Schema:
    return {"anyOf": [form(Length(Range(0.0))), _row(form(Length(Range(0.0))), 4)]}


def _row(items: Schema, count: int) -> Schema:
    return {"type": "array", "items": items, "minItems": count, "maxItems": count}


def _within(limits: Range) -> Schema:
    held: Schema = {}
    if math.isfinite(limits.least):
        held["exclusiveMinimum" if limits.above else "minimum"] = limits.least
    if math.isfinite(limits.most):
        held["maximum"] = limits.most
    return held
