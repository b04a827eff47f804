"""Kinds of values that name edges of the panel by their two corners."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..keys.kinds import Kind
from ..keys.place import Place, shown
from .corners import LETTERS

_WRITTEN = re.compile(rf"([{LETTERS}])\s*[-–]?\s*([{LETTERS}])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class EdgeName(Kind):
    """An edge between two neighbouring corners; which come first does not matter."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        return 'an edge by its corners: `"AB"`'

    def parse(self, value: object, at: Place) -> str | None:
        """Return the two letters, in capitals."""
        found = _WRITTEN.fullmatch(value.strip()) if isinstance(value, str) else None
        if found is None:
            at.wrong(f'{shown(value)} is not an edge: name its two corners, like "AB"')
            return None
        return (found[1] + found[2]).upper()


@dataclass(frozen=True, slots=True)
class EdgeNames(Kind):
    """One edge, or two."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        return 'one edge by its corners, `"AB"`, or a list of two'

    def parse(self, value: object, at: Place) -> tuple[str, ...] | None:
        """Return the letters of each edge, none of them twice."""
        listed = value if isinstance(value, list) else [value]
        if not 1 <= len(listed) <= 2:
            at.wrong(f"{len(listed)} edges are named: keep one, or two opposite ones")
            return None
        names = [
            EdgeName().read(item, at / i if isinstance(value, list) else at)
            for i, item in enumerate(listed)
        ]
        return None if None in names else tuple(dict.fromkeys(names))
