"""A key of a job file and a section of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .kinds import Kind


@dataclass(frozen=True, slots=True)
class Key:
    """One key: how it is read and how it is documented."""

    name: str
    kind: Kind
    meaning: str
    """For the documents, a sentence without its full stop."""
    default: Any = None
    """What the library holds where the file says nothing; None where that means something."""
    usual: str = ""
    """The default in words; empty where the key must be given, or has none."""
    example: str = ""
    """A value, as TOML writes it."""


@dataclass(frozen=True, slots=True)
class Section:
    """A table of a job file."""

    heading: str
    """As a file writes it: ``[panel]``; empty for the top of the file."""
    meaning: str
    """For the documents."""
    keys: tuple[Key, ...]

    def __getitem__(self, name: str) -> Key:
        """Return the key of that name."""
        return next(key for key in self.keys if key.name == name)

    def __contains__(self, name: object) -> bool:
        """Return whether there is a key of that name."""
        return any(key.name == name for key in self.keys)
