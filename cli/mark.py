"""`panelwright mark SHAPE …`: how to draw an outline, in numbers, without a panel."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .lengths import LENGTH, Length
from .machine import SCHEMA, as_json_option
from .reading import stop

if TYPE_CHECKING:
    from ..layout.drawing.scene import Scene
    from ..layout.units import Tape

BRAIDED = 0.003
"""Share by which braided line gives (common practice)."""

EXAMPLES = """
\b
Examples:
  panelwright mark oval 1800 900
  panelwright mark capsule 1800 900 --json
  panelwright mark rounded 1800 900 --radius 150 --svg corner.svg
  panelwright mark arc --chord 96in --rise 12in
  panelwright mark divide "107 5/8 in" 15
"""


@click.group(epilog=EXAMPLES)
def mark() -> None:
    """Answer how to draw an outline: figures, steps, and how far each way may be out.

    A length is a number in mm, or carries its own unit: 80cm, "31 3/8 in", "2ft 6in". Where one is
    given in inches or feet, the answer is in inches.
    """


def _answering(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options that every answer has."""
    for option in (
        click.option("--svg", type=click.Path(path_type=Path, dir_okay=False),
                     help="Write a drawing at full size into this file."),
        as_json_option,
    ):  # fmt: skip
        command = option(command)
    return command


@dataclass(frozen=True, slots=True)
class StringKit:
    """What an oval is drawn with, as typed."""

    nail: Length
    pencil: Length
    string: str

    @property
    def stretch(self) -> float:
        """Share by which the string gives."""
        return BRAIDED if self.string == "braided" else 0.0


def _drawn_with_string(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options of an oval's string, handed on as one value, `kit`."""

    @click.option("--nail", type=LENGTH, default="3 mm", show_default=True, help="Thickness.")
    @click.option(
        "--pencil", type=LENGTH, default="3 mm", show_default=True, help="Where the string runs."
    )
    @click.option(
        "--string",
        type=click.Choice(["braided", "wire"]),
        default="braided",
        show_default=True,
        help="Braided line gives by 0.3 %, wire does not.",
    )
    @wraps(command)
    def with_kit(nail: Length, pencil: Length, string: str, **rest: Any) -> None:  # noqa: ANN401
        command(kit=StringKit(nail, pencil, string), **rest)

    return with_kit


OVAL_EXAMPLES = """
\b
Examples:
  panelwright mark oval 1800 900
  panelwright mark oval "70 7/8 in" 36in --nail 0 --pencil 0 --string wire
"""


@mark.command(epilog=OVAL_EXAMPLES)
@click.argument("length", type=LENGTH)
@click.argument("width", type=LENGTH)
@_drawn_with_string
@_answering
def oval(length: Length, width: Length, kit: StringKit, as_json: bool, svg: Path | None) -> None:
    """Draw an oval LENGTH by WIDTH: string and nails, trammel rod, four and eight centres."""
    from ..layout.marking.method import Workshop
    from ..layout.marking.quick import mark_oval

    workshop = Workshop(nail=kit.nail.mm, pencil=kit.pencil.mm, stretch=kit.stretch)
    _answer(lambda: mark_oval(length.mm, width.mm, workshop), (length, width), as_json, svg)


@mark.command(epilog="\b\nExamples:\n  panelwright mark circle 48in")
@click.argument("diameter", type=LENGTH)
@_answering
def circle(diameter: Length, as_json: bool, svg: Path | None) -> None:
    """Draw a circle of this DIAMETER: string compass, trammel bar, router."""
    from ..layout.marking.quick import mark_circle

    _answer(lambda: mark_circle(diameter.mm), (diameter,), as_json, svg)


@mark.command(epilog="\b\nExamples:\n  panelwright mark capsule 1800 900")
@click.argument("length", type=LENGTH)
@click.argument("width", type=LENGTH)
@_answering
def capsule(length: Length, width: Length, as_json: bool, svg: Path | None) -> None:
    """Draw a capsule LENGTH by WIDTH, overall: end centres, radius, tangent points."""
    from ..layout.marking.quick import mark_capsule

    _answer(
        lambda: mark_capsule(length.mm, width.mm),
        (length, width), as_json, svg,
    )  # fmt: skip


@mark.command(epilog="\b\nExamples:\n  panelwright mark rounded 1800 900 --radius 150")
@click.argument("length", type=LENGTH)
@click.argument("width", type=LENGTH)
@click.option("--radius", type=LENGTH, required=True, help="Of the four corners.")
@_answering
def rounded(length: Length, width: Length, radius: Length, as_json: bool, svg: Path | None) -> None:
    """Draw a rectangle LENGTH by WIDTH with four rounded corners."""
    from ..layout.marking.quick import mark_rounded

    _answer(
        lambda: mark_rounded(length.mm, width.mm, radius.mm),
        (length, width, radius), as_json, svg,
    )  # fmt: skip


@mark.command(epilog="\b\nExamples:\n  panelwright mark superellipse 1800 900 --exponent 2.5")
@click.argument("length", type=LENGTH)
@click.argument("width", type=LENGTH)
@click.option("--exponent", type=float, default=2.5, show_default=True, help="2 is an oval.")
@as_json_option
def superellipse(length: Length, width: Length, exponent: float, as_json: bool) -> None:
    """Give ordinates of a superellipse LENGTH by WIDTH."""
    from ..layout.marking.quick import mark_superellipse

    _answer(
        lambda: mark_superellipse(length.mm, width.mm, exponent), (length, width), as_json, None
    )


ARC_EXAMPLES = """
\b
Examples:
  panelwright mark arc --chord 96in --rise 12in
  panelwright mark arc --chord 2400 --radius 3000
"""


@mark.command(epilog=ARC_EXAMPLES)
@click.option("--chord", type=LENGTH, help="Straight from end to end.")
@click.option("--rise", type=LENGTH, help="From the chord's middle to the arc.")
@click.option(
    "--radius", type=LENGTH, help="Of the circle; over a chord, its flatter arc is meant."
)
@click.option("--stations", type=click.IntRange(1, 100), default=6, show_default=True,
              help="Ordinates from the middle to an end.")  # fmt: skip
@_answering
def arc(
    chord: Length | None,
    rise: Length | None,
    radius: Length | None,
    stations: int,
    as_json: bool,
    svg: Path | None,
) -> None:
    """Draw a large arc by two of its chord, rise and radius: ordinates, arch trammel, lath."""
    from ..layout.marking.arcs import LargeArc
    from ..layout.marking.quick import MarkedArc, mark_arc

    given = tuple(length for length in (chord, rise, radius) if length is not None)
    if len(given) != 2:
        stop(
            f"an arc is known by two of --chord, --rise and --radius, not by {len(given) or 'none'}"
        )

    def answer() -> MarkedArc:
        if chord is None and rise is not None and radius is not None:
            return mark_arc(LargeArc.from_rise_and_radius(rise.mm, radius.mm), stations)
        if rise is None and chord is not None and radius is not None:
            return mark_arc(LargeArc.from_chord_and_radius(chord.mm, radius.mm), stations)
        assert chord is not None
        assert rise is not None
        return mark_arc(LargeArc.from_chord_and_rise(chord.mm, rise.mm), stations)

    _answer(answer, given, as_json, svg)


@mark.command(epilog='\b\nExamples:\n  panelwright mark divide "107 5/8 in" 15')
@click.argument("total", type=LENGTH)
@click.argument("parts", type=click.IntRange(2, 1000))
@as_json_option
def divide(total: Length, parts: int, as_json: bool) -> None:
    """Divide the length TOTAL in PARTS equal ones: every mark from one end."""
    from ..layout.marking.divide import Division

    tape = _tape((total,))
    _answer(lambda: Division.of(total.mm, parts, tape), (total,), as_json, None)


def _tape(lengths: tuple[Length, ...]) -> Tape:
    from ..layout.units import Tape

    return Tape(imperial=any(length.imperial for length in lengths))


def _answer(
    ask: Callable[[], Any],
    lengths: tuple[Length, ...],
    as_json: bool,
    svg: Path | None,
) -> None:
    """Print an answer, and write its drawing where one is asked for."""
    from ..layout.errors import LayoutError
    from ..layout.plan.serialise import plain, to_json
    from ..layout.sheets.answers import answer_scene
    from ..layout.words.answers import answer_lines

    try:
        answer = ask()
        scene = answer_scene(answer, _tape(lengths)) if svg is not None else None
    except LayoutError as error:
        stop(str(error))
    if as_json:
        click.echo(to_json({"schema": SCHEMA, **plain(answer)}), nl=False)
    else:
        for line in answer_lines(answer, _tape(lengths)):
            click.echo(line)
    if svg is not None and scene is not None:
        _write_svg(svg, scene, quiet=as_json)


def _write_svg(path: Path, scene: Scene, *, quiet: bool) -> None:
    from ..layout.drawing.svg import to_svg
    from .files import write_all

    try:
        write_all(path.parent, {path.name: to_svg(scene)})
    except OSError as error:
        stop(f"{error.filename or path}: cannot be written ({error.strerror or error})")
    if not quiet:
        click.echo(f"Drawn at full size in {path}")
