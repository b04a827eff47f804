"""[top]: which shapes, a top of the maker's own, and whether the limits leave anything."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from ..cutting.profile import EdgeProfile
from ..fit.wish import (
    AS_FOUND,
    EVERY,
    OWN,
    ROUNDED,
    STRAIGHT_SIDED,
    WITHOUT_LIPPING,
    Goal,
    Limits,
    Span,
    Wish,
    shapes_meant,
)
from ..keys.key import Values
from ..keys.place import Place
from ..keys.plane import is_simple
from ..outlines import Freeform
from .sections import TOP, read_section


@dataclass(frozen=True, slots=True)
class TopRead:
    """[top] as far as it could be read."""

    values: Values
    wish: Wish | None
    """None where something was noted."""
    profile: EdgeProfile = EdgeProfile()  # noqa: RUF009 frozen, so it may be shared
    """A square edge where something was noted of it."""


def read_top(raw: object, place: Place, thickness: float | None = None) -> TopRead:
    """Return the wish; the top will be so thick, mm, as far as that is known."""
    values = read_section(raw, TOP, place)
    profile = _profile(values, thickness)
    shapes = shapes_of(values)
    own = read_own(values, shapes)
    length, width, ratio, radius = (
        _span(values, name) for name in ("length", "width", "ratio", "corner_radius")
    )
    wanted, nearest_is_whole = _wanted(values)
    if not (length and width and ratio and radius and nearest_is_whole):
        return TopRead(values, None, profile)
    _check_spans(values, length, width, ratio)
    _check_width(values, width, radius, shapes)
    limits = values.made(Limits, length=length, width=width, ratio=ratio, corner_radius=radius)
    made = {"shapes": shapes, "limits": limits, "wanted": wanted, "own": own}
    return TopRead(values, values.made(Wish, **made) if limits is not None else None, profile)


def _profile(values: Values, thickness: float | None) -> EdgeProfile:
    """Return the profile of the edge; note one that leaves no edge."""
    if not values.sound("round_over", "bevel"):
        return EdgeProfile()
    inwards, up = values["bevel"] or (0.0, 0.0)
    profile = EdgeProfile(values["round_over"], inwards, up)
    if thickness is not None and thickness - profile.bevel_up <= profile.round_over:
        name = "bevel" if up else "round_over"
        taken = values.place.length(up + profile.round_over)
        values.at(name).wrong(
            f"bevel and round-over take {taken} of an edge of {values.place.length(thickness)}: "
            "leave some of it"
        )
    return profile


def _span(values: Values, name: str) -> Span | None:
    """Return the limits of a size; of one value where it is fixed, which a goal may not do."""
    least, most = f"least_{name}", f"most_{name}"
    is_near = name in ("length", "width") and values["goal"] is Goal.NEAREST
    if values.has(name) and not is_near:
        alone = values.not_with(name, (least, most), f"{name} alone fixes it")
        return Span(values[name], values[name]) if alone and values[name] is not None else None
    if not values.given & {least, most}:
        usual: Span = getattr(Limits(), name)
        return usual
    low, high = values[least], values[most]
    if low is None or high is None:
        return None
    if low > high:
        written = "{:g}".format if name == "ratio" else values.place.length
        values.at(least).wrong(
            f"{least} {written(low)} is above {most} {written(high)}: nothing lies between them"
        )
        return None
    return Span(low, high)


def _wanted(values: Values) -> tuple[tuple[float, float] | None, bool]:
    """Return the size that the nearest top is measured from, and whether nothing is amiss."""
    if values["goal"] is not Goal.NEAREST:
        return None, True
    missing = [name for name in ("length", "width") if not values.has(name)]
    for name in filter(values.lacks, missing):
        values.at(name).wrong(
            f'{name} is missing: goal "nearest" needs length and width to be near'
        )
    length, width = values["length"], values["width"]
    if missing or length is None or width is None:
        return None, False
    return (length, width), True


def _check_spans(values: Values, length: Span, width: Span, ratio: Span) -> None:
    """Note a width above every length, and a ratio that no length and width allowed can have."""
    if width.least > length.greatest:
        name = "width" if values.has("width") else "least_width"
        values.at(name).wrong(
            f"the top is at least {values.place.length(width.least)} wide but at most "
            f"{values.place.length(length.greatest)} long: its length is its longer side, so "
            "swap them"
        )
    most = length.greatest / width.least if width.least else math.inf
    least = length.least / width.greatest
    out = {"least_ratio": ratio.least > most, "most_ratio": ratio.greatest < least}
    for name in out:
        if values.has(name) and out[name]:
            values.at(name).wrong(
                f"{name} {values[name]:g} cannot be had: with these limits the length is "
                f"{least:.3g} to {most:.3g} times the width"
            )


def _check_width(values: Values, width: Span, radius: Span, shapes: tuple[str, ...]) -> None:
    """Note a corner radius or a lipping that no width allowed can hold."""
    half = width.greatest / 2
    asked = any(name.endswith("corner_radius") for name in values.given)
    if ROUNDED in shapes and radius.least > half and (asked or len(shapes) == 1):
        name = "least_corner_radius" if values.has("least_corner_radius") else "corner_radius"
        values.at(name).wrong(
            f"a corner radius of {values.place.length(radius.least)} is more than half the width, "
            f"{values.place.length(half)}: make it smaller, or ask for a capsule"
        )
    lipping = values["lipping"]
    if lipping is not None and lipping >= half:
        values.at("lipping").wrong(
            f"a lipping of {values.place.length(lipping)} leaves no core in a top at most "
            f"{values.place.length(2 * half)} wide: make it thinner"
        )


_NEEDS: Mapping[str, str] = {OWN: "outline", AS_FOUND: "keep"}
_BELONGS = {"exponent": "superellipse", "outline": OWN, "scaled": OWN, "ends": AS_FOUND}


def shapes_of(values: Values) -> tuple[str, ...]:
    """Return the wished-for shapes; note keys that go with none of them."""
    kept = values.has("keep")
    shapes = shapes_meant(values["shape"] or (EVERY,), kept=kept, lipped=bool(values["lipping"]))
    if not values.sound("shape"):
        return shapes
    for shape, key in _NEEDS.items():
        if shape in shapes and values.lacks(key):
            values.at(key).wrong(f'{key} is missing: shape "{shape}" needs it')
    for key, shape in _BELONGS.items():
        if values.has(key) and shape not in shapes:
            values.at(key).wrong(f'{key} belongs to shape "{shape}": wish for it, or leave it out')
    bare = [shape for shape in shapes if shape in WITHOUT_LIPPING]
    if bare and values["lipping"]:
        values.at("lipping").wrong(
            f'no strip bends or mitres round a "{bare[0]}": leave lipping out, or wish for another'
        )
    for shape in shapes:
        if kept and shape not in (*STRAIGHT_SIDED, AS_FOUND):
            values.at("keep").wrong(
                f'a "{shape}" has no long straight side to lie on an edge: wish for '
                f"{', '.join(STRAIGHT_SIDED)} or {AS_FOUND}"
            )
    return shapes


def read_own(values: Values, shapes: tuple[str, ...]) -> Freeform | None:
    """Return the outline of the maker's own, or note what is wrong with it."""
    points, place = values["outline"], values.at("outline")
    if points is None or OWN not in shapes or not is_simple(points, place):
        return None
    own = place.made(Freeform.through, points, OWN)
    if own is not None and values["scaled"] and not own.is_convex:
        values.at("scaled").wrong(
            "the outline is hollow somewhere, so it is laid at its own size only: leave scaled out"
        )
    return own
