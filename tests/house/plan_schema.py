"""The form of `plan.json` as JSON Schema, from the values of a plan and how they are written."""

from __future__ import annotations

import dataclasses
import inspect
import sys
import types
import typing
from collections.abc import Mapping, Sequence, Set
from decimal import Decimal
from enum import Enum
from typing import Any, Literal, get_args, get_origin

import numpy as np
from job_schema import DRAFT, Schema

from panelwright.layout.fit.found import Bound
from panelwright.layout.geometry import Arc, EllipticArc, Line, Path, Placement, Point, Region
from panelwright.layout.outlines import Outline
from panelwright.layout.plan.form import SCHEMA
from panelwright.layout.plan.plan import ON_THEIR_OWN, Plan

NUMBER: Schema = {"type": ["number", "null"]}
"""An infinite one is null."""

POINT: Schema = {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2}
RING: Schema = {"type": "array", "items": POINT}

_OUTLINE: Schema = {
    "type": "object",
    "properties": {
        "shape": {"type": "string"},
        "length": {"type": "number"},
        "width": {"type": "number"},
        "corner_radius": {"anyOf": [NUMBER, {"type": "array", "items": {"type": "number"}}]},
        "area": {"type": "number"},
        "perimeter": {"type": "number"},
        "exponent": {"type": "number"},
        "sides": {"type": "integer"},
        "across_flats": {"type": "number"},
        "across_corners": {"type": "number"},
    },
    "required": ["shape", "length", "width", "corner_radius", "area"],
}

_FIT: Schema = {
    "description": "A top as it was found; its bound is what no top of its family can beat.",
    "type": "object",
    "properties": {
        **{k: v for k, v in _OUTLINE["properties"].items() if k != "perimeter"},
        "centre": POINT,
        "turn_deg": {"type": "number"},
        "bound": NUMBER,
        "gap": NUMBER,
        "clearance": {"type": "number"},
        "clearance_gap": NUMBER,
        "seconds": {"type": "number"},
        "outline": RING,
    },
    "required": [*_OUTLINE["required"], "centre", "turn_deg", "bound", "gap", "outline"],
    "additionalProperties": False,
}

_COST: Schema = {
    "description": "What mending a defect, or several together, would gain, as a share; `most` at "
    "the most.",
    "type": "object",
    "properties": {
        "names": {"type": "array", "items": {"type": "string"}, "minItems": 1},
        "gain": NUMBER,
        "most": NUMBER,
        "lies": {"type": ["string", "null"]},
        "top": {"anyOf": [{"$ref": "#/$defs/fit"}, {"type": "null"}]},
    },
    "required": ["names", "gain", "most", "lies", "top"],
    "additionalProperties": False,
}

_ARC = {"radius": {"type": "number"}, "from_deg": NUMBER, "sweep_deg": NUMBER}

_SEGMENT: Schema = {
    "anyOf": [
        {"properties": {"line": {"type": "array", "items": POINT}}, "required": ["line"]},
        {"properties": {"arc": {"properties": {"centre": POINT, **_ARC}}}, "required": ["arc"]},
        {"properties": {"elliptic_arc": {"type": "object"}}, "required": ["elliptic_arc"]},
    ]
}

_SPECIAL: Mapping[type, Schema] = {
    Point: POINT,
    Placement: {
        "type": "object",
        "properties": {"centre": POINT, "turn_deg": {"type": "number"}},
        "required": ["centre", "turn_deg"],
    },
    Path: {"type": "array", "items": {"$ref": "#/$defs/segment"}},
    Region: {"type": "array", "items": {"type": "array", "items": RING}},
    Outline: {"$ref": "#/$defs/outline"},
    Bound: NUMBER,
    Line: {"$ref": "#/$defs/segment"},
    Arc: {"$ref": "#/$defs/segment"},
    EllipticArc: {"$ref": "#/$defs/segment"},
    np.ndarray: RING,
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: NUMBER,
    str: {"type": "string"},
    Decimal: {"type": "string"},
    type(None): {"type": "null"},
    Enum: {"type": "string"},
    Any: {},
}
"""What is not written field by field."""


def plan_schema() -> Schema:
    """Return the schema of `plan.json`."""
    held: dict[str, Schema] = {"outline": _OUTLINE, "segment": _SEGMENT, "fit": _FIT}
    whole = _record(Plan, held, apart=ON_THEIR_OWN)
    fit: Schema = {"$ref": "#/$defs/fit"}
    types_of = {item.name: _hint(Plan, item) for item in dataclasses.fields(Plan)}
    own: dict[str, Schema] = {
        "schema": {"const": SCHEMA},
        "top": fit,
        "made": _of(types_of["top"], held),
        "fits": {"type": "array", "items": fit, "minItems": 1},
        "others": {"type": "array", "items": fit},
        "contacts": _of(types_of["contacts"], held),
        "limits_met": _of(types_of["limits_met"], held),
        "costs": {"type": "array", "items": _COST},
    }
    whole["properties"] = own | whole["properties"]
    whole["required"] = [*own, *whole["required"]]
    return {"$schema": DRAFT, "title": "Plan of Panelwright", **whole, "$defs": held}


def _record(cls: Any, held: dict[str, Schema], apart: Sequence[str] = ()) -> Schema:  # noqa: ANN401 - any dataclass
    properties: dict[str, Schema] = {}
    for item in dataclasses.fields(cls):
        if item.name in apart or not item.metadata.get("json", True):
            continue
        if item.metadata.get("unit") == "rad":
            properties[f"{item.name}_deg"] = _of(_hint(cls, item), held)
        else:
            properties[item.name] = _of(_hint(cls, item), held)
    return {
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _hint(cls: Any, item: dataclasses.Field[Any]) -> Any:  # noqa: ANN401 - any type
    """Return the type of one field; that of a field which is not written need not be loaded."""
    owner = next(c for c in cls.__mro__ if item.name in inspect.get_annotations(c))
    alone = types.SimpleNamespace(__annotations__={item.name: item.type})
    return typing.get_type_hints(alone, vars(sys.modules[owner.__module__]))[item.name]


def _of(hint: Any, held: dict[str, Schema]) -> Schema:  # noqa: ANN401 - any type
    """Return the schema of the values of a type; those of dataclasses are held by their names."""
    origin, parts = get_origin(hint), get_args(hint)
    if origin in (typing.Union, types.UnionType):
        return {"anyOf": _without_twins([_of(part, held) for part in parts])}
    if origin is Literal:
        return {"enum": list(parts)}
    if origin is tuple and parts[-1] is not Ellipsis:
        rows = [_of(part, held) for part in parts]
        return {"type": "array", "prefixItems": rows, "minItems": len(rows), "maxItems": len(rows)}
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return {"type": "object", "additionalProperties": _of(parts[1], held)}
    if isinstance(origin, type) and issubclass(origin, tuple | Sequence | Set):
        return {"type": "array", "items": _of(parts[0], held)}
    return _plain(origin or hint, held)


def _plain(cls: Any, held: dict[str, Schema]) -> Schema:  # noqa: ANN401 - any type
    special = next((s for t, s in _SPECIAL.items() if cls is t), None)
    if special is not None:
        return special
    if issubclass(cls, Enum):
        return {"enum": [member.value for member in cls]}
    if issubclass(cls, Outline):
        return _SPECIAL[Outline]
    name = f"{cls.__module__.rpartition('layout.')[2]}.{cls.__name__}"
    if name not in held:
        held[name] = {}  # a value may hold others of its own kind
        held[name] = _record(cls, held)
    return {"$ref": f"#/$defs/{name}"}


def _without_twins(schemas: list[Schema]) -> list[Schema]:
    return [schema for i, schema in enumerate(schemas) if schema not in schemas[:i]]
