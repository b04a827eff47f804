"""What `panelwright new` asks, one question after the other, each answer checked at once."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace

from . import new_puts as puts
from .new_draft import Draft, RefusedError
from .new_puts import Put, Tables

KINDS = "hole, screw hole, nail, metal, split, stain, ring stain, dent, rot, pocket, joint …"
SHAPES = (
    "any, circle, oval, capsule, rectangle, rounded rectangle, superellipse, hexagon, live edge"
)
BUILDS = "solid, plywood, MDF, particleboard, blockboard, veneered board, hollow, framed"
FEET = "round, square, rectangular, hexagonal, slab …"


@dataclass(frozen=True, slots=True)
class Question:
    """A question as a person sees it."""

    asks: str
    takes: str = ""
    """How an answer is written."""
    usual: str = ""
    """What Enter stands for; empty where there is nothing usual."""
    key: tuple[str, ...] = ()
    """The key that tells more of it."""
    refused: str = ""
    """Why the answer before was not taken; then the question is the same one again."""


Talk = Generator[Question, str, None]
"""Yields questions, is sent answers as they were typed, and ends when all is known."""


def interview(draft: Draft, name: str) -> Talk:
    """Ask for a job, writing it into a draft.

    Parameters
    ----------
    name : str
        What the piece is called where nobody says.
    """
    units = Question("What do you measure in?", "mm, cm, m, in or ft", "mm", ("units",))
    yield from _ask(draft, units, puts.put_key("", "units", word=True), "units")
    called = Question("What will the piece be called?", "", name, ("name",))
    yield from _ask(draft, called, puts.put_key("", "name", word=True), "name")
    yield from _panel(draft)
    yield from _defects(draft)
    yield from _top(draft)
    yield from _legs(draft)
    yield from _tools(draft)


def _ask(draft: Draft, question: Question, put: Put, *about: str) -> Generator[Question, str, str]:
    """Ask until the answer is taken, and return it."""
    while True:
        answer = (yield question).strip() or question.usual
        try:
            if not answer:
                raise RefusedError("nothing is usual here: an answer is needed")
            draft.take(put, answer, *about)
        except RefusedError as error:
            question = replace(question, refused=str(error))
        else:
            return answer


def _panel(draft: Draft) -> Talk:
    outline = Question(
        "How long and wide is the panel?",
        "length x width; a round one: its diameter; an oval one: oval 1400 x 800; else: points",
        "",
        ("panel", "outline"),
    )
    answer = yield from _ask(draft, outline, _panel_or_points, "panel.outline")
    if answer.casefold() == "points":
        yield from _points(draft)
    elif "length" in draft.tables["panel"]["outline"]:
        radius = Question(
            "Radius of its corners?",
            "one figure, or four for A, B, C, D; 0 for square ones",
            "0",
            ("panel", "outline", "radius"),
        )
        yield from _ask(draft, radius, puts.put_radius, "panel.outline")
        bows = Question(
            "Do its edges curve?",
            "how far the middle of AB, BC, CD, DA stands out, such as 0, 0, -8, 0",
            "no",
            ("panel", "outline", "bows"),
        )
        yield from _ask(draft, bows, puts.put_bows, "panel.outline")
    thick = Question("How thick is it?", "", "", ("panel", "thickness"))
    yield from _ask(draft, thick, puts.put_key("panel", "thickness"), "panel.thickness")
    build = Question("How is it built?", BUILDS, "solid", ("panel", "build"))
    yield from _ask(draft, build, puts.put_key("panel", "build", word=True), "panel.build")


def _panel_or_points(tables: Tables, text: str) -> None:
    """Take a size, or the word that asks for points: then a stand-in holds their place."""
    if text.casefold() == "points":
        puts.put_panel(tables, "1 x 1")
    else:
        puts.put_panel(tables, text)


def _points(draft: Draft) -> Talk:
    """Ask for corners one by one until the ring is closed."""
    held: list[str] = []
    refused = ""
    while True:
        question = Question(
            f"Corner {len(held) + 1}: x, y?",
            "in order, whichever way round" + ("; Enter after the last" if len(held) > 2 else ""),
            "done" if len(held) > 2 else "",
            ("panel", "outline", "points"),
            refused,
        )
        answer = (yield question).strip()
        refused = ""
        is_last = not answer and len(held) > 2
        corners = held if is_last else [*held, answer]

        def put(tables: Tables, _: str, corners: list[str] = corners) -> None:
            puts.put_corners(tables, corners)

        # A ring is looked at as a whole when it is closed; until then each corner alone.
        about = "panel.outline" if is_last else f"panel.outline.points[{len(corners)}]"
        try:
            draft.take(put, answer, about)
        except RefusedError as error:
            refused = str(error)
            if is_last:
                refused += "; `back` takes the last corner away"
            continue
        if is_last:
            return
        held = corners


def _defects(draft: Draft) -> Talk:
    number = 0
    while True:
        number += 1
        here = f"panel.defects[{number}]"
        kind = Question(
            f"What is wrong with it? Kind of defect {number}:",
            KINDS,
            "nothing more" if number > 1 else "nothing",
            ("panel", "defects", "kind"),
        )
        answer = yield from _ask(draft, kind, _new_defect, f"{here}.kind")
        if answer.startswith("nothing"):
            return
        size = Question(
            "How large is it?", "diameter, or length x width", "", ("panel", "defects", "size")
        )
        yield from _ask(draft, size, puts.put_defect_size, f"{here}.diameter", f"{here}.size")
        at = Question("Where is its middle, from corner A?", "x, y", "", ("panel", "defects", "at"))
        yield from _ask(draft, at, puts.put_defect_at, here)


def _new_defect(tables: Tables, text: str) -> None:
    if not text.startswith("nothing"):
        tables["panel"].setdefault("defects", []).append({"kind": text.strip()})


def _top(draft: Draft) -> Talk:
    shape = Question("Which shape shall the top have?", SHAPES, "any", ("top", "shape"))
    yield from _ask(draft, shape, puts.put_shape, "top.shape", "top.outline")
    if draft.lacks("top.keep"):
        keep = Question(
            "Which edges stay as they are?", "AB, or two opposite ones: AB, CD", "", ("top", "keep")
        )
        yield from _ask(draft, keep, puts.put_edges, "top")
    inches = draft.tables["units"].startswith(("in", "f"))
    margin = Question(
        "How much wood stays outside it for the saw, at the panel's edges?",
        "",
        "3/8 in" if inches else "9 mm",
        ("top", "margin"),
    )
    yield from _ask(draft, margin, puts.put_key("top", "margin"), "top")
    most = Question(
        "How large may it be at most?", "length x width", "no limit", ("top", "most_length")
    )
    yield from _ask(draft, most, _most, "top")


def _most(tables: Tables, text: str) -> None:
    puts.put_most(tables, "" if text == "no limit" else text)


def _legs(draft: Draft) -> Talk:
    count = Question("How many legs?", "0 for a top alone", "4", ("legs", "count"))
    yield from _ask(draft, count, puts.put_legs, "legs")
    if "legs" not in draft.tables:
        return
    inches = draft.tables["units"].startswith(("in", "f"))
    foot = Question("What does a foot look like from above?", FEET, "square", ("legs", "foot"))
    yield from _ask(draft, foot, puts.put_key("legs", "foot", word=True), "legs.foot")
    size = Question(
        "How large is a foot?",
        "its side or diameter, or length x width",
        "2 1/2 in" if inches else "60 mm",
        ("legs", "size"),
    )
    yield from _ask(draft, size, _foot_size, "legs")
    high = Question(
        "How high shall the table stand?",
        "floor to upper face",
        "29 in" if inches else "740 mm",
        ("legs", "table_height"),
    )
    yield from _ask(draft, high, puts.put_key("legs", "table_height"), "legs")


def _foot_size(tables: Tables, text: str) -> None:
    parts = puts.size(text)
    tables["legs"]["size"] = parts[0] if len(parts) == 1 else parts


def _tools(draft: Draft) -> Talk:
    inches = draft.tables["units"].startswith(("in", "f"))
    kerf = Question(
        "How wide does the saw cut?", "", "3/32 in" if inches else "2.4 mm", ("tools", "kerf")
    )
    yield from _ask(draft, kerf, puts.put_key("tools", "kerf"), "tools")
    router = Question(
        "Is there a router to trim to the line?", "yes or no", "yes", ("tools", "router")
    )
    yield from _ask(draft, router, puts.put_router, "tools")
    paper = Question(
        "What paper is in the printer?",
        "A4, A3, Letter, Legal, Tabloid, or a size",
        "Letter" if inches else "A4",
        ("template", "paper"),
    )
    yield from _ask(draft, paper, puts.put_key("template", "paper", word=True), "template")
