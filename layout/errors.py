"""The errors that this library raises: one small tree, each also a ``ValueError``.

A message says what is wrong, where, the value and its limit, and what to do about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


class LayoutError(ValueError):
    """Anything that the maker, or a caller, can put right by changing what was given."""


class LengthError(LayoutError):
    """A text that is no length."""


class GeometryError(LayoutError):
    """A path, ring or region that cannot exist as given."""


class OutlineError(LayoutError):
    """A shape of top that cannot exist with these numbers."""


class PanelError(LayoutError):
    """A panel or defect that cannot exist with these numbers."""


class LegsError(LayoutError):
    """Legs that cannot stand with these numbers."""


class NothingFitsError(LayoutError):
    """No top within the limits lies in the sound wood; the message says why."""


class UndecidedError(NothingFitsError):
    """No top was found, but the search ended before it could rule all of them out."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with a job file."""

    key: str
    """Where, as the maker writes it: ``panel.defects[1].size``; empty for the whole file."""
    message: str
    """What is wrong, the value and its limit, and what to do."""
    line: int | None = None
    """The line in the file, counted from 1, where one can be named."""

    def __str__(self) -> str:
        """Return ``line 12, panel.thickness: …``, leaving out what is not known."""
        line = f"line {self.line}" if self.line is not None else ""
        where = ", ".join(part for part in (line, self.key) if part)
        return f"{where}: {self.message}" if where else self.message


class JobError(LayoutError):
    """A job file with problems, all of them listed."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        """Every problem found, in the order of the file."""
        super().__init__("\n".join(str(problem) for problem in self.problems))
