"""One generic way from the values of a plan to JSON: every field under its own name.

Numbers are in mm, mm², degrees, kg and N whatever the job's units. Metadata says which field is an
angle, ``{"unit": "rad"}``, written in degrees under its name and ``_deg``, and which stands
elsewhere in the record, ``{"json": False}``.
"""

from __future__ import annotations

import dataclasses
import json
import math
from collections.abc import Callable, Mapping
from decimal import Decimal
from enum import Enum
from functools import singledispatch
from typing import Any

import numpy as np

from ..fit.found import Bound, Fit
from ..geometry import Arc, EllipticArc, Line, Path, Placement, Point, Region
from ..outlines import Outline

DIGITS, FINE = 6, 9
"""Decimals kept, and those of an angle: a millionth of a mm, also at the end of an arc whose radius
is 500 km; far below any tolerance and free of rounding noise."""


def to_json(value: object) -> str:
    """Return the JSON text of a `plain` value; it is not rounded again, its angles least of all."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


@singledispatch
def plain(value: object) -> Any:  # noqa: ANN401 - JSON is anything
    """Return a value made of dictionaries, lists, texts, numbers and None only.

    Infinite numbers become None: JSON has none. Decimals are texts, to their last figure.
    """
    if not dataclasses.is_dataclass(value) or isinstance(value, type):
        raise TypeError(f"{type(value).__name__} has no place in a plan")
    record: dict[str, Any] = {}
    for item in dataclasses.fields(value):
        held = getattr(value, item.name)
        if item.metadata.get("unit") == "rad":
            record[f"{item.name}_deg"] = _degrees(held)
        elif item.metadata.get("json", True):
            record[item.name] = plain(held)
    return record


def _rounded(value: float, digits: int = DIGITS) -> float | None:
    return round(float(value), digits) + 0.0 if math.isfinite(value) else None


def _degrees(angle: Any) -> Any:  # noqa: ANN401 - a number, a tuple of them, or None
    if isinstance(angle, tuple):
        return [_degrees(item) for item in angle]
    return None if angle is None else _rounded(math.degrees(angle), FINE)


def _listed(values: Any) -> list[Any]:  # noqa: ANN401 - whatever has an order
    return [plain(item) for item in values]


def _angles(arc: Arc | EllipticArc) -> dict[str, Any]:
    return {"from_deg": _degrees(arc.from_angle), "sweep_deg": _degrees(arc.sweep)}


def _sizes(outline: Outline) -> dict[str, Any]:
    """Return shape and sizes, a corner radius or four that differ, and what only its kind has."""
    radii: tuple[float, ...] = getattr(outline, "radii", ())
    radius = None
    if any(radii):
        radius = plain(radii[0] if len(set(radii)) == 1 else radii)
    sizes = {"shape": outline.name, "length": outline.length, "width": outline.width}
    return {**plain(sizes), "corner_radius": radius, **plain(outline.figures)}


_WAYS: dict[type, Callable[[Any], Any]] = {
    **dict.fromkeys((type(None), bool, str, int), lambda value: value),
    **dict.fromkeys((float, np.floating), _rounded),
    **dict.fromkeys((tuple, list, np.ndarray), _listed),
    Mapping: lambda held: {str(key): plain(item) for key, item in held.items()},
    frozenset: lambda held: sorted(plain(item) for item in held),
    Enum: lambda option: option.value,
    Decimal: "{:f}".format,
    Point: lambda point: [_rounded(point.x), _rounded(point.y)],
    Placement: lambda at: {"centre": plain(at.centre), "turn_deg": _degrees(at.turn)},
    Path: lambda path: _listed(path.segments),
    Line: lambda line: {"line": [plain(line.start), plain(line.end)]},
    Arc: lambda arc: {
        "arc": {"centre": plain(arc.centre), "radius": plain(arc.radius), **_angles(arc)}
    },
    EllipticArc: lambda arc: {
        "elliptic_arc": {
            "centre": plain(arc.centre),
            "half_length": plain(arc.half_length),
            "half_width": plain(arc.half_width),
            "turn_deg": _degrees(arc.turn),
            **_angles(arc),
        }
    },
    Region: lambda region: [_listed((p.exterior, *p.holes)) for p in region.pieces],
    Outline: lambda outline: {
        **_sizes(outline),
        "area": plain(outline.area),
        "perimeter": plain(outline.perimeter),
    },
    Bound: lambda bound: _rounded(bound.value),
}
"""How each kind of value is written; any other dataclass field by field."""

for _kind, _way in _WAYS.items():
    plain.register(_kind, _way)


OUTLINE_TOLERANCE = 0.05
"""The polygon given of an outline stays within this of the curve, inside it, mm."""


def fit_record(fit: Fit, seconds: float | None = None) -> dict[str, Any]:
    """Return a found top as plain JSON values: mm, mm², degrees.

    `bound` and `gap` are None until they are proved; `seconds` is left out where not given. Of an
    outline that comes in one size, `bound` is that of its `clearance`, and `clearance_gap` the mm
    between them.
    """
    clearance = {"clearance": fit.clearance, "clearance_gap": fit.clearance_gap}
    return {
        **_sizes(fit.outline),
        "centre": plain(fit.placement.centre),
        "turn_deg": plain(math.degrees(fit.placement.turn)),
        "area": plain(fit.outline.area),
        "bound": plain(fit.bound),
        "gap": plain(fit.gap),
        **({} if fit.clearance is None else plain(clearance)),
        **({} if seconds is None else {"seconds": round(seconds, 4)}),
        "outline": plain(fit.points(OUTLINE_TOLERANCE)),
    }
