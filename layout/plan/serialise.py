"""One generic way from the values of a plan to JSON: no page of it is written by hand.

Every field of every value is written under its own name. Numbers are in mm, mm², degrees, kg and
N whatever the job's units. An angle (a field whose metadata says ``{"unit": "rad"}``) is written
in degrees under its name and ``_deg``. A field whose metadata says ``{"json": False}`` is left out:
it stands elsewhere in the record. Coordinates are pairs; a path is a list of its segments.
"""

from __future__ import annotations

import dataclasses
import json
import math
from collections.abc import Mapping
from decimal import Decimal
from enum import Enum
from typing import Any

import numpy as np

from ..fit.found import Bound, Fit
from ..geometry import Arc, EllipticArc, Line, Path, Placement, Point, Region, Segment
from ..outlines import Outline

DIGITS, FINE = 6, 9
"""Decimals kept, and those of an angle: a millionth of a mm, also at the end of an arc whose radius
is 500 km; far below any tolerance and free of rounding noise."""


def to_json(value: object) -> str:
    """Return the JSON text of a `plain` value; it is not rounded again, its angles least of all."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def plain(value: object) -> Any:  # noqa: ANN401, PLR0911 - JSON is anything, and each kind has its own way
    """Return a value made of dictionaries, lists, texts, numbers and None only.

    Infinite numbers become None: JSON has none. Decimals are texts, to their last figure.
    """
    if value is None or isinstance(value, bool | str | int):
        return value
    if isinstance(value, float | np.floating):
        return _number(float(value))
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Decimal):
        return f"{value:f}"
    special = _geometry(value)
    if special is not None:
        return special
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return _record(value)
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, frozenset):
        return sorted(plain(item) for item in value)
    if isinstance(value, tuple | list | np.ndarray):
        return [plain(item) for item in value]
    raise TypeError(f"{type(value).__name__} has no place in a plan")


def _number(value: float) -> float | None:
    return round(value, DIGITS) + 0.0 if math.isfinite(value) else None


def _record(value: Any) -> dict[str, Any]:  # noqa: ANN401 - any dataclass
    record: dict[str, Any] = {}
    for item in dataclasses.fields(value):
        if not item.metadata.get("json", True):
            continue
        held = getattr(value, item.name)
        if item.metadata.get("unit") == "rad":
            record[f"{item.name}_deg"] = _degrees(held)
        else:
            record[item.name] = plain(held)
    return record


def _degrees(value: object) -> Any:  # noqa: ANN401 - a number, or a tuple of them
    if isinstance(value, tuple):
        return [_degrees(item) for item in value]
    degrees = None if value is None else math.degrees(float(value))  # type: ignore[arg-type]
    return None if degrees is None or not math.isfinite(degrees) else round(degrees, FINE) + 0.0


def _geometry(value: object) -> Any:  # noqa: ANN401, PLR0911 - see `plain`
    """Return the JSON of a geometric value, None for any other."""
    if isinstance(value, Point):
        return [_number(value.x), _number(value.y)]
    if isinstance(value, Placement):
        return {"centre": plain(value.centre), "turn_deg": _degrees(value.turn)}
    if isinstance(value, Path):
        return [_segment(segment) for segment in value.segments]
    if isinstance(value, Region):
        return [[plain(ring) for ring in (p.exterior, *p.holes)] for p in value.pieces]
    if isinstance(value, Outline):
        return outline_record(value)
    if isinstance(value, Bound):
        return _number(value.value)
    return None


def outline_record(outline: Outline) -> dict[str, Any]:
    """Return shape, sizes, area and perimeter of an outline, and what else its kind has."""
    return {
        "shape": outline.name,
        "length": _number(outline.length),
        "width": _number(outline.width),
        "corner_radius": corner_radius(outline),
        **own_figures(outline),
        "area": _number(outline.area),
        "perimeter": _number(outline.perimeter),
    }


def own_figures(outline: Outline) -> dict[str, Any]:
    """Return what only this kind of outline has besides length and width; empty for most."""
    return {
        name: figure if isinstance(figure, int) else _number(figure)
        for name, figure in outline.figures.items()
    }


def corner_radius(outline: Outline) -> Any:  # noqa: ANN401 - one number, four or None
    """Return the corner radius, mm: one figure, four where they differ, None without corners."""
    radii = getattr(outline, "radii", None)
    if not radii or not any(radii):
        return None
    return _number(radii[0]) if len(set(radii)) == 1 else [_number(r) for r in radii]


def _segment(segment: Segment) -> dict[str, Any]:
    if isinstance(segment, Line):
        return {"line": [plain(segment.start), plain(segment.end)]}
    angles = {"from_deg": _degrees(segment.from_angle), "sweep_deg": _degrees(segment.sweep)}
    if isinstance(segment, Arc):
        return {"arc": {"centre": plain(segment.centre), "radius": plain(segment.radius), **angles}}
    assert isinstance(segment, EllipticArc)
    return {
        "elliptic_arc": {
            "centre": plain(segment.centre),
            "half_length": plain(segment.half_length),
            "half_width": plain(segment.half_width),
            "turn_deg": _degrees(segment.turn),
            **angles,
        }
    }


OUTLINE_TOLERANCE = 0.05
"""The polygon given of an outline stays within this of the curve, inside it, mm."""


def fit_record(fit: Fit, seconds: float | None = None) -> dict[str, Any]:
    """Return a found top as plain JSON values: mm, mm², degrees.

    `bound` and `gap` are None until they are proved; `seconds` is left out where not given. Of an
    outline that comes in one size, `bound` is that of its `clearance`, and `clearance_gap` the mm
    between them.
    """
    outline, clearance = fit.outline, {}
    if fit.clearance is not None:
        clearance = {"clearance": plain(fit.clearance), "clearance_gap": plain(fit.clearance_gap)}
    return {
        "shape": outline.name,
        "length": plain(outline.length),
        "width": plain(outline.width),
        "corner_radius": corner_radius(outline),
        **own_figures(outline),
        "centre": plain(fit.placement.centre),
        "turn_deg": plain(math.degrees(fit.placement.turn)),
        "area": plain(outline.area),
        "bound": plain(fit.bound),
        "gap": None if fit.gap is None else plain(fit.gap),
        **clearance,
        **({} if seconds is None else {"seconds": round(seconds, 4)}),
        "outline": plain(fit.points(OUTLINE_TOLERANCE)),
    }
