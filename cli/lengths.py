"""A length as an argument: `900`, `80cm`, `"31 3/8 in"`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import click

from ..layout.errors import LayoutError, LengthError
from ..layout.keys.length import parse_length
from ..layout.units import Units


@dataclass(frozen=True, slots=True)
class Length:
    """What was typed: mm, and whether it was in feet or inches."""

    mm: float
    imperial: bool


class Typed(click.ParamType[Any]):
    """Reads an argument as the library reads it."""

    def __init__(self, name: str, read: Callable[[str], Any]) -> None:
        self.name, self.read = name, read

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Any:  # noqa: ANN401 - as it is read
        """Return what is held, or end with a message and exit code 2."""
        try:
            return self.read(value) if isinstance(value, str) else value
        except LayoutError as error:
            self.fail(str(error), param, ctx)


LONGEST = 100_000.0
"""mm: no bench is longer; the limit of the job file too."""


def _length(text: str) -> Length:
    mm = parse_length(text, Units.MM)
    if not 0 <= mm <= LONGEST:
        raise LengthError(f"{text!r} is not between 0 and 100 m")
    signs = ("in", "ft", "foot", "feet", '"', "'")
    return Length(mm, any(sign in text.casefold() for sign in signs))


LENGTH = Typed("length", _length)
"""A bare number counts in mm."""
