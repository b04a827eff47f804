"""Kinds of values: how each is written and read; here texts, yes or no, and names.

A kind turns what stands in a file into what the library holds (mm, shares, members of enums), and
back, or notes what is wrong and returns None; nothing is ever clamped. A program may give what is
held, too.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

import numpy as np

from ..geometry.point import Point
from ..units import Units
from .place import UNREADABLE, Place, closest, shown

LONGEST_TEXT = 200
"""Letters of a name: more does not go on a sheet."""


Held = Any
"""What the library holds for a value: each kind says of which type."""

Spelt = Any
"""What TOML holds: texts, numbers, lists of them."""


class Kind(ABC):
    """What a key may hold."""

    __slots__ = ()

    @abstractmethod
    def _parse(self, value: object, at: Place) -> Held:
        """Return what the library holds for a value, or note what is wrong and return None."""

    def read(self, value: object, at: Place) -> Held:
        """Return what `_parse` does; None of what was no TOML, of which all has been said."""
        if at.held:
            return self._parse(_as_typed(value), at)
        return None if value == UNREADABLE else self._parse(value, at)

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return what is held as a file has it whose lengths count in `units`."""
        return list(held) if isinstance(held, tuple) else held


def _as_typed(value: object) -> object:
    """Return lists where a program gives tuples, sets, points or arrays; anything else as it is."""
    shape = getattr(value, "__geo_interface__", None)
    if isinstance(shape, dict) and shape.get("type") in ("Point", "Polygon"):
        rings = shape["coordinates"]
        point = shape["type"] == "Point"
        return list(rings[:2]) if point else [list(row[:2]) for row in rings[0]] if rings else []
    if isinstance(value, np.generic | np.ndarray):
        return value.tolist()
    if isinstance(value, tuple | Point):
        return list(value)
    if isinstance(value, frozenset | set):
        return sorted(value, key=repr)
    return value


def each(kind: Kind, value: object, at: Place, wanted: str, count: int | None = None) -> Held:
    """Return what a kind makes of all items, `count` of them, of a list that is `wanted`."""
    if not isinstance(value, list) or (count is not None and len(value) != count):
        at.wrong(f"{shown(value)} is not {wanted}")
        return None
    held = tuple(kind.read(item, at / i) for i, item in enumerate(value))
    return None if any(one is None for one in held) else held


@dataclass(frozen=True, slots=True)
class Text(Kind):
    """A text of a line."""

    def _parse(self, value: object, at: Place) -> str | None:
        if not isinstance(value, str):
            at.wrong(f"{shown(value)} is not a text: put it in quotes")
        elif not value.strip() or not value.isprintable():
            at.wrong(f"{shown(value)} is empty or has signs that cannot be printed: write a line")
        elif len(value) > LONGEST_TEXT:
            at.wrong(f"{shown(value)} has {len(value)} letters: at most {LONGEST_TEXT}")
        else:
            return value.strip()
        return None


@dataclass(frozen=True, slots=True)
class YesNo(Kind):
    """Yes or no."""

    def _parse(self, value: object, at: Place) -> bool | None:
        if isinstance(value, bool):
            return value
        at.wrong(f"{shown(value)} is neither true nor false: write one of them, without quotes")
        return None


@dataclass(frozen=True, slots=True)
class Choice(Kind):
    """One of some names, in small or capital letters."""

    options: Mapping[str, Any]
    """What the library holds for each name."""
    synonyms: Mapping[str, str] = field(default_factory=dict)
    """Other words that makers use, and the name that each stands for."""
    refused: Mapping[str, str] = field(default_factory=dict)
    """Words that makers use and that cannot be taken, and why."""
    described: str = ""
    """In place of the names where the documents would be swamped by them."""

    def _parse(self, value: object, at: Place) -> Held:
        if isinstance(value, Enum) and type(value) in map(type, self.options.values()):
            return value
        if not isinstance(value, str):
            at.wrong(f"{shown(value)} is not a name in quotes: use one of {self._names}")
            return None
        word = " ".join(value.casefold().split())
        for known, why in self.refused.items():
            if known.casefold() == word:
                at.wrong(f"{shown(value)} {why}")
                return None
        by_word = {name.casefold(): name for name in self.options}
        by_word |= {word.casefold(): name for word, name in self.synonyms.items()}
        if word in by_word:
            return self.options[by_word[word]]
        near = closest(word, [*self.options, *self.synonyms])
        hint = f"; did you mean {near}?" if near else ":"
        at.wrong(f"{shown(value)} is not known{hint} use one of {self._names}")
        return None

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return the name of an option."""
        return next(name for name, option in self.options.items() if option == held)

    @property
    def _names(self) -> str:
        also = f"; or, as makers say, {', '.join(self.synonyms)}" if self.synonyms else ""
        return ", ".join(self.options) + also


def names(*options: str) -> dict[str, str]:
    """Return the options of a choice that the library holds by the same names."""
    return {option: option for option in options}


@dataclass(frozen=True, slots=True)
class Only(Kind):
    """A value of one class, which a program alone gives."""

    cls: type
    how: str
    """What to do."""

    def _parse(self, value: object, at: Place) -> Held:
        if not isinstance(value, self.cls):
            at.wrong(f"{shown(value)} does not go here: {self.how}")
        return value
