"""What is done with a mutated job: a command with options right and wrong, or calls of the library."""

# ruff: noqa: E501 - lists of odd values read better in long lines
from __future__ import annotations

import inspect
from collections.abc import Callable
from random import Random
from typing import Any

import click
from fuzz.hostile import FLOATS, WORDS

from panelwright.cli.main import COMMANDS, command_of
from panelwright.layout import outlines
from panelwright.layout.errors import LayoutError
from panelwright.layout.keys.length import parse_length
from panelwright.layout.marking import quick
from panelwright.layout.marking.quick import Division
from panelwright.layout.units import Tape, Units

PLANS, FITS, OTHERS, CALLS = 40, 8, 12, 10
"""Of so many mutations one is planned, one fitted, one given to any command, one is a set of calls."""


def arguments(number: int, *, many: bool = False) -> list[str] | None:
    """Return what is typed for a number; None where the library is called instead."""
    draw = Random(f"call {number}")
    for each, command in ((PLANS, "plan"), (FITS, "fit"), (OTHERS, ""), (CALLS, None)):
        if number % (each if not many else max(3, each // 4)) == 0:
            if command is None:
                return None
            return _sound(command) if command and draw.random() < 0.8 else _typed(draw, command)
    return ["check", "job.toml"]


def _sound(command: str) -> list[str]:
    return [command, "job.toml", *(("--out", "out") if command == "plan" else ())]


def _typed(draw: Random, name: str) -> list[str]:
    """Return a command with options and arguments drawn for their types."""
    name = name or draw.choice(COMMANDS)
    command, typed = command_of(name), [name]
    if isinstance(command, click.Group):
        inner = draw.choice(tuple(command.commands))
        command, typed = command.commands[inner], [name, inner]
    for param in command.params:
        if isinstance(param, click.Argument):
            fits = param.name == "job" and draw.random() < 0.8
            typed += (
                ["job.toml" if fits else _word(draw, param.type)] if draw.random() < 0.95 else []
            )
        elif draw.random() < 0.25:
            name = draw.choice((*param.opts, *param.secondary_opts))
            typed += [name] if getattr(param, "is_flag", False) else [name, _word(draw, param.type)]
    return typed


def _word(draw: Random, kind: click.ParamType[Any]) -> str:
    if isinstance(kind, click.Choice) and draw.random() < 0.8:
        return str(draw.choice(tuple(kind.choices)))
    if isinstance(kind, click.Path) and draw.random() < 0.6:
        return "out"
    return draw.choice(WORDS)


def call_library(number: int) -> int:
    """Call twenty makers with floats of every kind; only errors that are told may come out.

    Returns
    -------
    int
        How many gave something.
    """
    draw = Random(f"library {number}")
    made = 0
    for _ in range(20):
        try:
            draw.choice(MAKERS)(draw)
            made += 1
        except LayoutError as error:
            assert str(error), "an error says nothing"
    return made


def _floats(draw: Random, count: int) -> list[float]:
    return [
        draw.choice(FLOATS) if draw.random() < 0.7 else draw.uniform(1, 2000) for _ in range(count)
    ]


def _outline(draw: Random) -> None:
    kind: Any = draw.choice(
        (outlines.Capsule, outlines.Circle, outlines.Oval, outlines.Rectangle, outlines.RegularPolygon,
         outlines.RoundedRectangle, outlines.Superellipse)
    )  # fmt: skip
    needed = [p for p in inspect.signature(kind).parameters.values() if p.default is p.empty]
    given: list[Any] = list(_floats(draw, len(needed)))
    if kind is outlines.RoundedRectangle:
        given[2] = tuple(_floats(draw, 4))
    outline: outlines.Outline = kind(*given)
    assert outline.area > 0
    outline.path().points(max(0.01, outline.length / 1e4))
    outline.parallel(draw.choice((-1.0, -outline.width / 4, 1.0, -outline.width, 0.0)))


def _own(draw: Random) -> None:
    from panelwright.layout.geometry.path import Path
    from panelwright.layout.geometry.point import Point
    from panelwright.layout.geometry.polygon import Region

    points = [Point(*_floats(draw, 2)) for _ in range(draw.randint(0, 6))]
    Region.of(Path.through(points, closed=True))


def _length(draw: Random) -> None:
    text = "".join(
        draw.choice(("1", "/", " ", "-", "'", '"', "in", "ft", "mm", ".", "½", "e9", "0", "\u0663"))
        for _ in range(6)
    )
    parse_length(text, draw.choice(tuple(Units)))


def _tape(draw: Random) -> None:
    tape, value = Tape(imperial=draw.choice(tuple(Units)).is_imperial), draw.uniform(-1e5, 1e5)
    assert tape.figure(value) and tape.measure(value) and tape.exact(value, 1)


def _mark(draw: Random) -> None:
    name = draw.choice(
        ("mark_oval", "mark_circle", "mark_capsule", "mark_rounded", "mark_superellipse")
    )
    call: Callable[..., object] = getattr(quick, name)
    needed = [p for p in inspect.signature(call).parameters.values() if p.default is p.empty]
    call(*_floats(draw, len(needed)))


def _divide(draw: Random) -> None:
    Division.of(_floats(draw, 1)[0], draw.choice((-1, 0, 1, 2, 15, 1000)))


MAKERS = (_outline, _outline, _own, _length, _tape, _mark, _divide)
