"""What is typed: lengths such as `900`, `80cm`, `"31 3/8 in"`, paper, the choices of a template."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import reduce
from typing import TYPE_CHECKING, Any

import click

from ..layout.errors import LayoutError, LengthError
from ..layout.keys.length import parse_length
from ..layout.units import Units

if TYPE_CHECKING:
    from ..layout.template.paper import Margins, Paper
    from ..layout.template.wish import TemplateWish


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


PORTIONS = ("auto", "whole", "half", "quarter", "end", "corner", "curves")
"""As the library has them; help does without importing it, and a test holds the two alike."""

RELEASES = ("R2010", "R12")
"""Likewise."""

SIDES = ("left", "bottom", "right", "top")


def _paper(text: str) -> Paper:
    from ..layout.template.wish import asked_paper

    return asked_paper(text)


PAPER = Typed("paper", _paper)
"""By its name or size; a bare number counts in mm."""


@dataclass(frozen=True, slots=True)
class Choices:
    """What was typed; None where nothing was."""

    paper: Paper | None = None
    margin: Length | None = None
    margin_left: Length | None = None
    margin_bottom: Length | None = None
    margin_right: Length | None = None
    margin_top: Length | None = None
    overlap: Length | None = None
    portion: str | None = None
    mirrored: bool | None = None
    ordinates: bool | None = None
    dxf_release: str | None = None
    printer: str | None = None

    def margins(self, usual: Margins) -> Margins:
        """Return the margins: `--margin` in place of the usual, single sides in place of both."""
        from ..layout.template.paper import Margins

        base = usual if self.margin is None else Margins.all(self.margin.mm)
        typed = {side: getattr(self, f"margin_{side}") for side in SIDES}
        return replace(base, **{side: held.mm for side, held in typed.items() if held is not None})

    def over(self, wish: TemplateWish) -> TemplateWish:
        """Return a job's wish with what was typed in place of its own."""
        names = ("paper", "portion", "mirrored", "ordinates", "dxf_release", "printer")
        typed = {name: value for name in names if (value := getattr(self, name)) is not None}
        if self.overlap is not None:
            typed["overlap"] = self.overlap.mm
        return replace(wish, margins=self.margins(wish.margins), **typed)


_OPTIONS = (
    click.option("--paper", type=PAPER, help='A4, A3, Letter, Legal, Tabloid, "roll 610", '
                 '"roll 36 in", "320 x 450" and the like.'),
    click.option("--margin", type=LENGTH, help="What the printer leaves white, all round."),
    *(click.option(f"--margin-{side}", type=LENGTH,
                   help=f"The same at the {side} of a sheet held upright.") for side in SIDES),
    click.option("--overlap", type=LENGTH, help="What neighbouring sheets share."),
    click.option("--portion", type=click.Choice(PORTIONS), help="How much is printed."),
    click.option("--mirrored/--face-up", default=None, help="For the underside, or the face."),
    click.option("--ordinates/--no-ordinates", default=None,
                 help="Whether the outline is given in figures too."),
    click.option("--dxf-release", type=click.Choice(RELEASES, case_sensitive=False),
                 help="Release of the DXF file."),
    click.option("--printer", help="Name of a printer that was measured."),
)  # fmt: skip


def with_choices(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options of a template: the fields of `Choices`."""
    return reduce(lambda made, option: option(made), reversed(_OPTIONS), command)
