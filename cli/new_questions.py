"""What `panelwright new` asks, one question after the other, each answer checked at once."""

from __future__ import annotations

import re
from collections.abc import Generator
from dataclasses import replace
from itertools import count

from . import new_draft as form
from .new_draft import Draft, Question

UNITS = Question("units", "What do you measure in?", "mm, cm, m, in or ft", "mm", str.strip)
NAME = Question("name", "What will the piece be called?", form=str.strip)
PANEL = Question(
    "panel.outline",
    "How long and wide is the panel?",
    "length x width; a round one: its diameter; oval 1400 x 800; else its corners: points",
    form=form.outline,
    apart="points",
)
SIDES = (
    Question(
        "panel.outline",
        "Radius of its corners?",
        "one figure, or four for A, B, C, D; 0 for square ones",
        "0",
        form.unless_none(form.radii),
        key="panel.outline.radius",
    ),
    Question(
        "panel.outline",
        "Do its edges curve?",
        "how far the middle of AB, BC, CD, DA stands out, such as 0, 0, -8, 0",
        "no",
        form.unless_none(lambda text: {"bows": form.figures(text, 4, "AB, BC, CD, DA")}),
        key="panel.outline.bows",
    ),
)
"""Asked of a panel with four sides."""
MADE = (
    Question("panel.thickness", "How thick is it?"),
    Question(
        "panel.build",
        "How is it built?",
        "solid, plywood, MDF, particleboard, blockboard, veneered board, hollow, framed",
        "solid",
        str.strip,
    ),
)
DEFECT = (
    Question(
        "panel.defects",
        "What is wrong with it? Kind of defect {}:",
        "hole, screw hole, nail, metal, split, stain, ring stain, dent, rot, pocket, joint …",
        "nothing",
        lambda text: [{"kind": text.strip()}],
        "panel.defects.kind",
        ("panel.defects[{}].kind",),
        apart="nothing",
    ),
    Question(
        "panel.defects",
        "How large is it?",
        "diameter, or length x width",
        form=form.spot,
        key="panel.defects.size",
        about=("panel.defects[{}].diameter", "panel.defects[{}].size"),
    ),
    Question(
        "panel.defects.at",
        "Where is its middle?",
        "x, y, counted as the outline is: of a rectangle from corner A",
        form=lambda text: form.figures(text, 2, "x, y"),
        about=("panel.defects[{}]",),
    ),
)
"""Asked of each defect, by its number."""
SHAPE = Question(
    "top.shape",
    "Which shape shall the top have?",
    "any, circle, oval, capsule, rectangle, rounded rectangle, superellipse, hexagon, live edge",
    "any",
    form.several,
    about=("top.shape", "top.outline"),
)
KEEP = Question(
    "top.keep",
    "Which edges stay as they are?",
    "AB, or two opposite ones: AB, CD",
    form=lambda text: re.split(r"[,\s]+", text.strip().upper()),
)
MARGIN = Question(
    "top.margin",
    "How much wood stays outside it for the saw, at the panel's edges?",
    usual=("9 mm", "3/8 in"),
)
"""So much is usually left, so that a saw finds wood on both sides."""
MOST = Question(
    "top",
    "How large may it be at most?",
    "length x width",
    "no limit",
    form.unless_none(
        lambda text: dict(zip(("most_length", "most_width"), form.size(text) * 2, strict=False))
    ),
    "top.most_length",
)
COUNT = Question(
    "legs",
    "How many legs?",
    "0 for a top alone",
    "4",
    form.unless_none(lambda text: {"count": form.figure(text)}),
    "legs.count",
)
FEET = (
    Question(
        "legs.foot",
        "What does a foot look like from above?",
        "round, square, rectangular, hexagonal, slab …",
        "square",
        str.strip,
        about=("legs.foot",),
    ),
    Question(
        "legs.size",
        "How large is a foot?",
        "its side or diameter, or length x width",
        ("60 mm", "2 1/2 in"),
        form.one_or_two,
    ),
    Question(
        "legs.table_height",
        "How high shall the table stand?",
        "floor to upper face",
        ("740 mm", "29 in"),
    ),
)
TOOLS = (
    Question("tools.kerf", "How wide does the saw cut?", usual=("2.4 mm", "3/32 in")),
    Question(
        "tools.router", "Is there a router to trim to the line?", "yes or no", "yes", form.yes_or_no
    ),
    Question(
        "template.paper",
        "What paper is in the printer?",
        "A4, A3, Letter, Legal, Tabloid, or a size",
        ("A4", "Letter"),
        str.strip,
    ),
)

Talk = Generator[Question, str, None]
"""Yields questions, is sent answers as they were typed, and ends when all is known."""


def interview(draft: Draft, name: str) -> Talk:
    """Ask for a job, called `name` where nobody says, writing it into a draft."""
    yield from _ask(draft, UNITS, replace(NAME, usual=name))
    apart = yield from _ask(draft, PANEL)
    if apart:
        yield from _corners(draft)
    elif "length" in draft.tables["panel"]["outline"]:
        yield from _ask(draft, *SIDES)
    yield from _ask(draft, *MADE)
    for number in count(1):
        kind, *rest = (_numbered(question, number) for question in DEFECT)
        if (yield from _ask(draft, kind)):
            break
        yield from _ask(draft, *rest)
    yield from _ask(draft, SHAPE)
    if draft.lacks("top.keep"):
        yield from _ask(draft, KEEP)
    yield from _ask(draft, MARGIN, MOST, COUNT)
    if "legs" in draft.tables:
        yield from _ask(draft, *FEET)
    yield from _ask(draft, *TOOLS)


def _ask(draft: Draft, *questions: Question) -> Generator[Question, str, bool]:
    """Ask each until its answer is taken; return whether the last was not to be written down."""
    apart = False
    for question in questions:
        asked = replace(question, usual=draft.usual(question))
        while True:
            answer = (yield asked).strip() or str(asked.usual)
            apart = bool(asked.apart) and answer.casefold().startswith(asked.apart)
            try:
                if not answer:
                    raise ValueError("nothing is usual here: an answer is needed")
                if not apart:
                    draft.hold(asked, asked.form(answer))
                break
            except ValueError as error:
                asked = replace(asked, refused=str(error))
    return apart


def _numbered(question: Question, number: int) -> Question:
    about = tuple(key.format(number) for key in question.about)
    usual = "nothing more" if question.usual and number > 1 else question.usual
    return replace(question, asks=question.asks.format(number), usual=usual, about=about)


def _corners(draft: Draft) -> Talk:
    """Ask for corners, one or more a line, until the ring is closed."""
    held: list[list[int | float | str]] = []
    refused = ""
    while True:
        is_ring = len(held) > 2
        asked = Question(
            "panel.outline",
            f"Corner {len(held) + 1}: x, y?",
            "in order, whichever way round; several on a line: 0,0 1200,0 1200,600"
            + ("; Enter after the last" if is_ring else ""),
            "done" if is_ring else "",
            key="panel.outline.points",
            refused=refused,
        )
        answer = (yield asked).strip()
        new = [] if is_ring and not answer else [answer]
        try:
            points = [*held, *(corner for line in new for corner in form.corners(line))]
            # A ring is looked at as a whole when it is closed; until then each corner alone.
            numbers = range(len(held) + 1, len(points) + 1)
            about = tuple(f"panel.outline.points[{number}]" for number in numbers)
            draft.hold(replace(asked, about=about), {"points": points})
        except ValueError as error:
            refused = str(error) if new else f"{error}; `back` takes the last line away"
            continue
        if not new:
            return
        held, refused = points, ""
