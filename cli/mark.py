"""`panelwright mark SHAPE …`: how to draw an outline, in numbers, without a panel."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .files import FILE, write_at
from .reading import answer, as_json_option, plainly, stop
from .typed import LENGTH, Length

if TYPE_CHECKING:
    from ..layout.units import Tape
    from ..layout.words.ways import Answer

STRETCH = {"braided": 0.003, "wire": 0.0}
"""Share by which each string gives (common practice)."""

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


def _answering(command: Callable[..., Any]) -> Callable[..., None]:
    """Make a command of a function that returns an answer, told in inches where one was typed."""

    @as_json_option
    @wraps(command)
    def answering(svg: Path | None = None, **typed: Any) -> None:  # noqa: ANN401
        from ..layout.words.ways import answer_lines

        found, tape, drawn = command(**typed), _tape(typed.values()), []
        if svg is not None:
            from ..layout.drawing.svg import to_svg
            from ..layout.sheets.without_plan import answer_scene

            write_at(svg, to_svg(answer_scene(found, tape)))
            drawn = [f"Drawn at full size in {svg}"]
        answer(lambda: plainly(found), lambda: (*answer_lines(found, tape), *drawn))

    return answering


def _drawing(command: Callable[..., Any]) -> Callable[..., None]:
    """Make such a command whose answer can be drawn too."""
    drawn = click.option("--svg", type=FILE, help="Write a drawing at full size into this file.")
    return drawn(_answering(command))


def _sizes(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the arguments LENGTH and WIDTH."""
    return click.argument("length", type=LENGTH)(click.argument("width", type=LENGTH)(command))


def _tape(typed: Iterable[object]) -> Tape:
    from ..layout.units import Tape

    return Tape(imperial=any(one.imperial for one in typed if isinstance(one, Length)))


@mark.command(
    epilog="\b\nExamples:\n  panelwright mark oval 1800 900\n"
    '  panelwright mark oval "70 7/8 in" 36in --nail 0 --pencil 0 --string wire'
)
@_sizes
@click.option("--nail", type=LENGTH, default="3 mm", show_default=True, help="Thickness.")
@click.option(
    "--pencil", type=LENGTH, default="3 mm", show_default=True, help="Where the string runs."
)
@click.option(
    "--string",
    type=click.Choice(list(STRETCH)),
    default="braided",
    show_default=True,
    help="Braided line gives by 0.3 %, wire does not.",
)
@_drawing
def oval(length: Length, width: Length, nail: Length, pencil: Length, string: str) -> Answer:
    """Draw an oval LENGTH by WIDTH: string and nails, trammel rod, four and eight centres."""
    from ..layout.marking.method import Workshop
    from ..layout.marking.quick import mark_oval

    workshop = Workshop(nail=nail.mm, pencil=pencil.mm, stretch=STRETCH[string])
    return mark_oval(length.mm, width.mm, workshop)


@mark.command(epilog="\b\nExamples:\n  panelwright mark circle 48in")
@click.argument("diameter", type=LENGTH)
@_drawing
def circle(diameter: Length) -> Answer:
    """Draw a circle of this DIAMETER: string compass, trammel bar, router."""
    from ..layout.marking.quick import mark_circle

    return mark_circle(diameter.mm)


@mark.command(epilog="\b\nExamples:\n  panelwright mark capsule 1800 900")
@_sizes
@_drawing
def capsule(length: Length, width: Length) -> Answer:
    """Draw a capsule LENGTH by WIDTH, overall: end centres, radius, tangent points."""
    from ..layout.marking.quick import mark_capsule

    return mark_capsule(length.mm, width.mm)


@mark.command(epilog="\b\nExamples:\n  panelwright mark rounded 1800 900 --radius 150")
@_sizes
@click.option("--radius", type=LENGTH, required=True, help="Of the four corners.")
@_drawing
def rounded(length: Length, width: Length, radius: Length) -> Answer:
    """Draw a rectangle LENGTH by WIDTH with four rounded corners."""
    from ..layout.marking.quick import mark_rounded

    return mark_rounded(length.mm, width.mm, radius.mm)


@mark.command(epilog="\b\nExamples:\n  panelwright mark superellipse 1800 900 --exponent 2.5")
@_sizes
@click.option("--exponent", type=float, default=2.5, show_default=True, help="2 is an oval.")
@_answering
def superellipse(length: Length, width: Length, exponent: float) -> Answer:
    """Give ordinates of a superellipse LENGTH by WIDTH."""
    from ..layout.marking.quick import mark_superellipse

    return mark_superellipse(length.mm, width.mm, exponent)


@mark.command(
    epilog="\b\nExamples:\n  panelwright mark arc --chord 96in --rise 12in\n"
    "  panelwright mark arc --chord 2400 --radius 3000"
)
@click.option("--chord", type=LENGTH, help="Straight from end to end.")
@click.option("--rise", type=LENGTH, help="From the chord's middle to the arc.")
@click.option(
    "--radius", type=LENGTH, help="Of the circle; over a chord, its flatter arc is meant."
)
@click.option("--stations", type=click.IntRange(1, 100), default=6, show_default=True,
              help="Ordinates from the middle to an end.")  # fmt: skip
@_drawing
def arc(chord: Length | None, rise: Length | None, radius: Length | None, stations: int) -> Answer:
    """Draw a large arc by two of its chord, rise and radius: ordinates, arch trammel, lath."""
    from ..layout.marking.arcs import LargeArc
    from ..layout.marking.quick import mark_arc

    if chord and rise and not radius:
        found = LargeArc.from_chord_and_rise(chord.mm, rise.mm)
    elif chord and radius and not rise:
        found = LargeArc.from_chord_and_radius(chord.mm, radius.mm)
    elif rise and radius and not chord:
        found = LargeArc.from_rise_and_radius(rise.mm, radius.mm)
    else:
        count = sum(length is not None for length in (chord, rise, radius))
        stop(f"an arc is known by two of --chord, --rise and --radius, not by {count or 'none'}")
    return mark_arc(found, stations)


@mark.command(epilog='\b\nExamples:\n  panelwright mark divide "107 5/8 in" 15')
@click.argument("total", type=LENGTH)
@click.argument("parts", type=click.IntRange(2, 1000))
@_answering
def divide(total: Length, parts: int) -> Answer:
    """Divide the length TOTAL in PARTS equal ones: every mark from one end."""
    from ..layout.marking.quick import Division

    return Division.of(total.mm, parts, _tape((total,)))
