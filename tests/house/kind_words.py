"""How each kind of value is told on the page of keys: how it is written, and what holds without."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from panelwright.layout.fit.wish_kinds import Spans
from panelwright.layout.keys.figures import Counts, Length, Named, Number, Range, Share, Sum
from panelwright.layout.keys.key import Key
from panelwright.layout.keys.kinds import Choice, Kind, Text, YesNo
from panelwright.layout.keys.plane import At, Choices, Four, Pair, Points, Ring, Table
from panelwright.layout.panel.named_edges import EdgeName, EdgeNames
from panelwright.layout.template.paper import PAPERS
from panelwright.layout.template.wish import WHITE, PaperSize, White
from panelwright.layout.work.wish import HourSpan


def words_of(kind: Kind) -> str:
    """Return how a maker writes a value of a kind."""
    return next(_WORDS[cls] for cls in type(kind).__mro__ if cls in _WORDS)(kind)


def left_out(key: Key) -> str:
    """Return what holds where a key is left out; empty where it must be given or nothing does."""
    if key.usual or key.default in (None, ()):
        return key.usual
    ways = (_HELD[cls] for cls in type(key.kind).__mro__ if cls in _HELD)
    return next(ways, lambda kind, held: f"{held:g}" if isinstance(held, float) else str(held))(
        key.kind, key.default
    )


def _mm(length: float) -> str:
    return f"{length:g} mm" if length else "0"


def _within(what: str, limits: Range, form: Callable[[float], str] = "{:g}".format) -> str:
    low, high = form(limits.least), form(limits.most)
    if math.isfinite(limits.most):
        return f"{what}, above {low}, to {high}" if limits.above else f"{what}, {low} to {high}"
    if not math.isfinite(limits.least):
        return what
    return f"{what}, above {low}" if limits.above else f"{what}, {low} or more"


def _choice(kind: Choice) -> str:
    if kind.described:
        return kind.described
    names = ", ".join(f'`"{name}"`' for name in kind.options)
    also = ", ".join(f'`"{word}"` ({name})' for word, name in kind.synonyms.items())
    return f"{names}; also {also}" if also else names


def _counts(kind: Counts) -> str:
    return ("`[least, most]`, " if kind.rising else "list of ") + words_of(kind.kind)


_WORDS: Mapping[type, Callable[[Any], str]] = {
    Text: lambda kind: "text",
    YesNo: lambda kind: "`true` or `false`",
    Choice: _choice,
    Number: lambda kind: _within(
        kind.unit or ("whole number" if kind.whole else "number"), kind.limits
    ),
    Length: lambda kind: _within("length", kind.limits, _mm),
    Spans: lambda kind: words_of(kind.kind),
    Counts: _counts,
    Sum: lambda kind: "sum of money, 0 or more",
    Share: lambda kind: _within("percent", kind.limits),
    Named: lambda kind: f"table of {words_of(kind.kind)}",
    At: lambda kind: "`[x, y]`",
    Points: lambda kind: "`[[x, y], …]`" + (f", {kind.least} at least" if kind.least > 1 else ""),
    Ring: lambda kind: "`[[x, y], …]`, 3 at least, in order",
    Pair: lambda kind: ("length, or " if kind.one_will_do else "") + f"`{kind.form}`, above 0",
    Four: lambda kind: f"list of four lengths: {kind.order}",
    Choices: lambda kind: (
        ("one or a list" if kind.one_will_do else "list") + f" of {words_of(kind.choice)}"
    ),
    Table: lambda kind: kind.described,
    EdgeName: lambda kind: 'an edge by its corners: `"AB"`',
    EdgeNames: lambda kind: 'one edge by its corners, `"AB"`, or a list of two',
    HourSpan: lambda kind: "hours, or `[least, most]`",
    PaperSize: lambda kind: (
        ", ".join(f'`"{name}"`' for name in PAPERS)
        + '; a size: `"320 x 450"` or `[320, 450]`; any roll: `"roll 36 in"`'
    ),
    White: lambda kind: f"{words_of(WHITE)}; or `[left, bottom, right, top]`",
}
"""How each kind is written; one that derives from another goes by that one's row."""

_HELD: Mapping[type, Callable[[Any, Any], str]] = {
    YesNo: lambda kind, held: str(held).lower(),
    Choice: lambda kind, held: next(f'"{n}"' for n, known in kind.options.items() if known == held),
    Length: lambda kind, held: _mm(held),
    Sum: lambda kind, held: f"{held:f}",
    Spans: lambda kind, held: (
        _HELD.get(type(kind.kind), lambda _, one: f"{one:g}")(kind.kind, held.least)
        if held.least == held.greatest
        else ""
    ),
}
"""How a value that holds without the key is told, where it is not its own words."""
