"""Every family, however it may turn and within whatever limits, is settled on every kept panel.

The heavy run takes each family on each panel at each turn, free and within one of the five sets
of limits; by hand it is held within every one.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from panelwright.layout.fit import Limits, Span, Wish
from panelwright.layout.fit.families import Answer, answered
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import PROOF_ALLOWANCE
from panelwright.layout.panel.sound import SoundWood

pytestmark = pytest.mark.heavy

CASES: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8")
)["cases"]
SHAPES = (
    "circle", "oval", "capsule", "superellipse", "hexagon", "octagon", "rectangle",
    "rounded rectangle",
)  # fmt: skip
TURNS = (0.0, 5.0, 15.0, 90.0)
LIMITS = ("ratio", "wide", "long", "narrow", "short")
ROUND = 1 + 1e-9
"""What rounding may do to a score."""
LITTLE_ROOM = (
    ("live_200", "rectangle", 0.0, "wide"),  # among 200 short edges there are many local bests
    ("T_notch2", "rectangle", 90.0, "long"),  # 3 mm wide and 1.5 m long: a hair counts
    ("L_shape", "capsule", 90.0, "long"),  # longer than either arm, past the corner
)
"""Limits that leave so little that it takes a good look to find it."""


def panel_of(name: str) -> Region:
    """Return a kept panel."""
    case = CASES[name]
    return Region.from_rings(
        np.array(case["exterior"], float), [np.array(h, float) for h in case["holes"]]
    )


def asked(name: str, shape: str, degrees: float, **limits: Span) -> Answer:
    """Return what the search finds for the largest top of a shape."""
    return ask(panel_of(name), shape, degrees, CASES[name]["corner_radius"], **limits)


def ask(panel: Region, shape: str, degrees: float, radius: float, **limits: Span) -> Answer:
    """Return what the search finds for the largest top of a shape on a panel."""
    own = Limits(corner_radius=Span(radius, radius), most_turn_deg=degrees, **limits)
    return answered(SoundWood.exact(panel), Wish((shape,), limits=own), shape)


def score(answer: Answer) -> float:
    """Return the score of the top found; 0 where none was."""
    return 0.0 if answer.fit is None else answer.fit.score


def limited(free: Answer, limits: str) -> dict[str, Span] | None:
    """Return limits stricter than none that the best of all tops does not keep."""
    if limits == "ratio":
        return {"ratio": Span(1.6, 2.2)}
    if free.fit is None:
        return None
    length, width = free.fit.outline.length, free.fit.outline.width
    return {
        "wide": {"width": Span(round(1.1 * width))},
        "long": {"length": Span(round(1.1 * length))},
        "narrow": {"width": Span(0.0, round(0.7 * width))},
        "short": {"length": Span(0.0, round(0.7 * length))},
    }[limits]


def assert_settled(answer: Answer) -> None:
    """Hold a top to its bound, within the gap of 0.1 % and what its proof may take off it."""
    if answer.bound == 0:
        assert answer.fit is None
        return
    assert answer.fit is not None
    outline = answer.fit.outline
    lost = 2 * PROOF_ALLOWANCE * (1 / outline.length + 1 / outline.width)
    assert score(answer) >= (1 - 0.001 - lost) * answer.bound


def held_to(name: str, shape: str, degrees: float, kinds: tuple[str, ...]) -> Iterator[str]:
    """Hold a family on a panel to its bound, free and within limits; yield what was looked at."""
    free = asked(name, shape, degrees)
    assert_settled(free)
    for kind in kinds:
        limits = limited(free, kind)
        if limits is None:
            continue
        strict = asked(name, shape, degrees, **limits)
        assert_settled(strict)
        assert score(strict) <= free.bound * ROUND
        yield kind


@pytest.mark.parametrize(("name", "shape", "degrees", "kind"), LITTLE_ROOM)
def test_limits_that_leave_little_room_are_settled_to_the_gap(
    name: str, shape: str, degrees: float, kind: str
) -> None:
    """The best top is found though it is hard to find, and no size is 0.005 mm below its limit."""
    limits = limited(asked(name, shape, degrees), kind)
    assert limits is not None
    answer = asked(name, shape, degrees, **limits)
    assert score(answer) >= (1 - 0.001) * answer.bound
    assert answer.fit is not None
    outline = answer.fit.outline
    sizes = {"length": outline.length, "width": outline.width}
    assert all(sizes[size] >= span.least - PROOF_ALLOWANCE for size, span in limits.items())


@pytest.mark.parametrize("every", [False, pytest.param(True, marks=pytest.mark.by_hand)])
@pytest.mark.parametrize("degrees", TURNS)
@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("shape", SHAPES)
def test_every_family_is_settled_within_limits(
    shape: str, name: str, degrees: float, every: bool
) -> None:
    """Free and within one set of limits or every one; limits never make a top better."""
    turn = SHAPES.index(shape) + [*CASES].index(name) + TURNS.index(degrees)
    some = LIMITS[turn % 2 :: 2]
    kinds = LIMITS if every else some[turn // 2 % len(some) :][:1]
    kinds = () if shape == "circle" else kinds
    assert tuple(held_to(name, shape, degrees, kinds)) == kinds


@pytest.mark.parametrize("shape", ["oval", "capsule", "rectangle", "rounded rectangle"])
@pytest.mark.parametrize("name", ["L_shape", "trapezoid"])
def test_more_turn_never_makes_a_top_smaller(name: str, shape: str) -> None:
    """The best top at a stricter turn is within the bound of every looser one."""
    answers = [asked(name, shape, degrees) for degrees in TURNS]
    for i, strict in enumerate(answers):
        assert all(score(strict) <= loose.bound * ROUND for loose in answers[i + 1 :])


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("name", ["trapezoid", "screw_holes8", "star5"])
def test_a_bigger_hole_and_a_thicker_clearance_never_enlarge(name: str, shape: str) -> None:
    """What fits the worse panel is within the bound of the better one, and its bound above it."""
    panel, radius = panel_of(name), CASES[name]["corner_radius"]
    deep = Point.of(*panel.shape.representative_point().coords)
    place = Point(deep.x + 40.0, deep.y - 25.0)
    worse = [panel.minus(Region.disk(place, r, around=True)) for r in (4.0, 15.0, 60.0)]
    for panels in ([panel, *worse], [panel, *(panel.shrunk(by) for by in (1.0, 6.0, 20.0))]):
        answers = [ask(one, shape, 15.0, radius) for one in panels]
        for i, harder in enumerate(answers):
            assert harder.bound >= score(harder)
            assert all(score(harder) <= easier.bound * ROUND for easier in answers[:i])
