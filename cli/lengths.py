"""A length as an argument: `900`, `80cm`, `"31 3/8 in"`."""

from __future__ import annotations

from dataclasses import dataclass

import click

from ..layout.errors import LengthError
from ..layout.units import Units, parse_length


@dataclass(frozen=True, slots=True)
class Length:
    """What was typed: mm, and whether it was in feet or inches."""

    mm: float
    imperial: bool


class LengthType(click.ParamType[Length]):
    """Reads a length; a bare number counts in mm."""

    name = "length"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Length:
        """Return the length, or end with a message and exit code 2."""
        if isinstance(value, Length):
            return value
        try:
            mm = parse_length(str(value), Units.MM)
        except LengthError as error:
            self.fail(str(error), param, ctx)
        if not 0 <= mm <= LONGEST:
            self.fail(f"{value!r} is not between 0 and 100 m", param, ctx)
        text = str(value).casefold()
        return Length(mm, any(sign in text for sign in ("in", "ft", "foot", "feet", '"', "'")))


LONGEST = 100_000.0
"""mm: no bench is longer; the limit of the job file too."""

LENGTH = LengthType()
