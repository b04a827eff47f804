"""Is the panel square, is a bow an arc, and what to do where it is not."""

from __future__ import annotations

from collections.abc import Iterator

from ...job.plan import Plan
from ..steps.setting_out import square_scene
from .rows import BenchStep, Table, unit_words

DIAGONAL = 3.0
"""A diagonal out by more than this is no slip of the tape, mm (common practice)."""


def is_square(plan: Plan) -> BenchStep:
    """Return how to see whether the panel is square, and what follows."""
    words = _by_corners(plan) if plan.check.squares else _by_triangle(plan)
    return BenchStep(
        "Is it square?",
        tuple(words),
        _corners(plan),
        tuple(_not_square(plan)),
        drawing=square_scene(plan),
        more=_bows(plan),
    )


def _by_corners(plan: Plan) -> Iterator[str]:
    tape, datum = plan.job.tape, plan.datum
    yield (
        f"Measure both edges and the diagonal at each end of {datum.name}. Equal diagonals alone "
        "prove nothing: the sides must be as given too."
    )
    yield (
        f"A diagonal that is out by more than {tape.measure(DIAGONAL)}: the panel is not what the "
        f"plan was made for. Measures square from {datum.name} still hold, those from other "
        "corners do not. Either work by the square measures alone and see that what is left beside "
        "the line is still there; or give the corners as points in the job and print anew."
    )


def _by_triangle(plan: Plan) -> Iterator[str]:
    tape, three, datum = plan.job.tape, plan.check.triangle, plan.datum
    yield f"No two edges meet {datum.name} in corners to trust, so every square is raised on it."
    if three is not None:
        yield (
            f"By the tape: {tape.measure(three.along)} along {datum.name} from {datum.first.name}, "
            f"{tape.measure(three.across)} up, and {tape.measure(three.diagonal)} between the two "
            "ends: then it is square."
        )
    yield (
        "Where no edge can be trusted the checks below must come out both ways: diagonals that "
        "differ show a square that is none."
    )


def _corners(plan: Plan) -> Table | None:
    tape = plan.job.tape
    rows = tuple(
        (
            check.corner,
            f"{check.corner}–{check.along_to} {tape.figure(check.along)}",
            f"{check.corner}–{check.across_to} {tape.figure(check.across)}",
            f"{check.along_to}–{check.across_to} {tape.figure(check.found.square_diagonal)}",
            _stands(plan, check.found.out_by) if not check.found.is_square else "square",
        )
        for check in plan.check.squares
    )
    headings = ("Corner", "One edge", "The other", "Diagonal, if square", "In the job it is")
    return Table(headings, rows, f"In {unit_words(tape)}.") if rows else None


def _stands(plan: Plan, out_by: float) -> str:
    way = "outwards" if out_by > 0 else "inwards"
    return f"leaning {way} by {plan.job.tape.figure(abs(out_by))}"


def _not_square(plan: Plan) -> Iterator[str]:
    for check in plan.check.squares:
        if not check.found.is_square:
            yield (
                f"Corner {check.corner} is not square, and the plan knows: take every square from "
                f"{plan.datum.name}, none from {check.corner}–{check.across_to}."
            )


def _bows(plan: Plan) -> Table | None:
    tape = plan.job.tape
    rows = tuple(
        (
            bow.edge,
            tape.figure(bow.chord),
            tape.figure(bow.rise),
            tape.figure(bow.radius),
            f"{tape.figure(bow.quarter)} from each end: {tape.figure(bow.stands)}",
        )
        for bow in plan.check.bows
    )
    headings = ("Bowed edge", "Chord", "Rise", "Radius", "Stands off the chord at a quarter")
    caption = "Where it does not stand so, it is no arc: take offsets every 150 mm or 6 in."
    return Table(headings, rows, caption) if rows else None
