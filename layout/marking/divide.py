"""Dividing a length into equal parts: every mark from one end, so that no error adds up."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import LengthError
from ..units import Tape

LONGEST = 1e9
"""mm that are divided: far beyond any tape, and every mark can be reckoned with."""


@dataclass(frozen=True, slots=True)
class DivisionMark:
    """One mark: its true distance from the start, as the tape reads it, what that misses; mm."""

    exact: float
    rounded: float
    error: float


@dataclass(frozen=True, slots=True)
class Division:
    """A length in equal parts."""

    total: float
    """mm."""
    parts: int
    spacing: float
    """Of one part, mm, exact: not to be stepped off, for its rounding would add up."""
    marks: tuple[DivisionMark, ...]
    """Without the ends."""

    @classmethod
    def of(cls, total: float, parts: int, tape: Tape | None = None) -> Division:
        """Return the marks that divide `total`, mm, each measured from one end.

        Raises
        ------
        LengthError
            If there are fewer than 2 parts, or the length is not above 0.

        Examples
        --------
        >>> [m.rounded for m in Division.of(100.0, 3).marks]
        [33.0, 67.0]
        """
        if parts < 2 or not 0 < total <= LONGEST:
            raise LengthError(
                f"{total:g} mm in {parts} parts: divide a length above 0, at most {LONGEST:g} mm, "
                "in 2 parts or more"
            )
        tape = tape or Tape()
        exact = (total * i / parts for i in range(1, parts))
        rounded = ((mark, tape.nearest(mark)) for mark in exact)
        marks = tuple(DivisionMark(mark, near, near - mark) for mark, near in rounded)
        return cls(total, parts, total / parts, marks)
