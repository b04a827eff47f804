"""The keys of a job file as the command line asks for them: the one place that knows their home."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..layout.keys.key import Key, Section


def sections() -> tuple[Section, ...]:
    """Return every table of a job file with its keys, in the order of the documents."""
    from ..layout.jobfile.sections import SECTIONS

    return SECTIONS


def key_at(trail: Sequence[str | int]) -> Key | None:
    """Return the key that a trail through a job file leads to, None where there is none."""
    *tables, name = [part for part in trail if isinstance(part, str)]
    for section in sections():
        if section.heading.strip("[]") == ".".join(tables) and name in section:
            return section[name]
    return None
