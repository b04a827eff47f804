"""What `panelwright new` asks, one question after the other, each answer checked at once."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace
from itertools import count

from . import new_puts as puts
from .new_puts import Draft, Put, RefusedError, Tables

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
    yield from _key(draft, "units", "What do you measure in?", "mm, cm, m, in or ft", "mm")
    yield from _key(draft, "name", "What will the piece be called?", "", name)
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


_SIZES = tuple(
    f"panel.outline.{name}" for name in ("length", "width", "diameter", "axes", "points")
)


def _key(
    draft: Draft,
    trail: str,
    asks: str,
    takes: str = "",
    usual: str = "",
    *about: str,
    put: Put | None = None,
) -> Generator[Question, str, str]:
    """Ask for the value of a key, given with its table: ``legs.count``.

    Parameters
    ----------
    about : str
        The keys that must be right then; the key itself where there are none.
    put : callable, optional
        What takes an answer that is not written into the key as it stands.
    """
    table, _, name = trail.rpartition(".")
    question = Question(asks, takes, usual, tuple(trail.split(".")))
    taking = put or puts.put_key(table, name)
    return (yield from _ask(draft, question, taking, *(about or (trail,))))


def _panel(draft: Draft) -> Talk:
    sizes = "length x width; a round one: its diameter; oval 1400 x 800; else its corners: points"
    asks = "How long and wide is the panel?"
    yield from _key(draft, "panel.outline", asks, sizes, "", *_SIZES, put=_panel_or_points)
    if "outline" not in draft.tables["panel"]:
        yield from _points(draft)
    elif "length" in draft.tables["panel"]["outline"]:
        yield from _key(
            draft,
            "panel.outline.radius",
            "Radius of its corners?",
            "one figure, or four for A, B, C, D; 0 for square ones",
            "0",
            "panel.outline",
            put=puts.put_radius,
        )
        yield from _key(
            draft,
            "panel.outline.bows",
            "Do its edges curve?",
            "how far the middle of AB, BC, CD, DA stands out, such as 0, 0, -8, 0",
            "no",
            "panel.outline",
            put=puts.put_bows,
        )
    yield from _key(draft, "panel.thickness", "How thick is it?")
    yield from _key(draft, "panel.build", "How is it built?", BUILDS, "solid")


def _panel_or_points(tables: Tables, text: str) -> None:
    """Take a size, or the word that asks for corners: then there is no outline yet."""
    if text.casefold() == "points":
        tables["panel"] = {}
    else:
        puts.put_panel(tables, text)


def _points(draft: Draft) -> Talk:
    """Ask for corners, one or more a line, until the ring is closed."""
    held: list[list[int | float | str]] = []
    refused = ""
    while True:
        is_ring = len(held) > 2
        question = Question(
            f"Corner {len(held) + 1}: x, y?",
            "in order, whichever way round; several on a line: 0,0 1200,0 1200,600"
            + ("; Enter after the last" if is_ring else ""),
            "done" if is_ring else "",
            ("panel", "outline", "points"),
            refused,
        )
        answer = (yield question).strip()
        is_last = is_ring and not answer
        try:
            corners = held if is_last else held + puts.corners(answer)
            # A ring is looked at as a whole when it is closed; until then each corner alone.
            new = range(len(held) + 1, len(corners) + 1)
            about = [f"panel.outline.points[{number}]" for number in new] or ["panel.outline"]
            draft.take(puts.put_corners(corners), answer, *about)
        except ValueError as error:
            refused = f"{error}; `back` takes the last line away" if is_last else str(error)
            continue
        if is_last:
            return
        held, refused = corners, ""


def _defects(draft: Draft) -> Talk:
    for number in count(1):
        here, trail = f"panel.defects[{number}]", "panel.defects"
        asks = f"What is wrong with it? Kind of defect {number}:"
        usual = "nothing more" if number > 1 else "nothing"
        kind = yield from _key(
            draft, f"{trail}.kind", asks, KINDS, usual, f"{here}.kind", put=_new_defect
        )
        if kind.startswith("nothing"):
            return
        about = (f"{here}.diameter", f"{here}.size")
        takes = "diameter, or length x width"
        asks = "How large is it?"
        yield from _key(draft, f"{trail}.size", asks, takes, "", *about, put=puts.put_defect_size)
        takes = "x, y, counted as the outline is: of a rectangle from corner A"
        asks = "Where is its middle?"
        yield from _key(draft, f"{trail}.at", asks, takes, "", here, put=puts.put_defect_at)


def _new_defect(tables: Tables, text: str) -> None:
    if not text.startswith("nothing"):
        tables["panel"].setdefault("defects", []).append({"kind": text.strip()})


def _top(draft: Draft) -> Talk:
    asks = "Which shape shall the top have?"
    about = ("top.shape", "top.outline")
    yield from _key(draft, "top.shape", asks, SHAPES, "any", *about, put=puts.put_shape)
    if draft.lacks("top.keep"):
        asks, takes = "Which edges stay as they are?", "AB, or two opposite ones: AB, CD"
        yield from _key(draft, "top.keep", asks, takes, "", "top", put=puts.put_edges)
    asks = "How much wood stays outside it for the saw, at the panel's edges?"
    usual = puts.usual(draft.tables, puts.MARGIN)
    yield from _key(draft, "top.margin", asks, "", usual, "top")
    asks, takes = "How large may it be at most?", "length x width"
    yield from _key(draft, "top.most_length", asks, takes, "no limit", "top", put=puts.put_most)


def _legs(draft: Draft) -> Talk:
    takes = "0 for a top alone"
    yield from _key(draft, "legs.count", "How many legs?", takes, "4", "legs", put=puts.put_legs)
    if "legs" not in draft.tables:
        return
    asks = "What does a foot look like from above?"
    yield from _key(draft, "legs.foot", asks, FEET, "square")
    usual = puts.usual(draft.tables, ("60 mm", "2 1/2 in"))
    asks, takes = "How large is a foot?", "its side or diameter, or length x width"
    yield from _key(draft, "legs.size", asks, takes, usual, "legs", put=puts.put_foot_size)
    usual = puts.usual(draft.tables, ("740 mm", "29 in"))
    asks, takes = "How high shall the table stand?", "floor to upper face"
    yield from _key(draft, "legs.table_height", asks, takes, usual, "legs")


def _tools(draft: Draft) -> Talk:
    usual = puts.usual(draft.tables, ("2.4 mm", "3/32 in"))
    yield from _key(draft, "tools.kerf", "How wide does the saw cut?", "", usual, "tools")
    asks = "Is there a router to trim to the line?"
    yield from _key(draft, "tools.router", asks, "yes or no", "yes", "tools", put=puts.put_router)
    usual = puts.usual(draft.tables, ("A4", "Letter"))
    asks, takes = "What paper is in the printer?", "A4, A3, Letter, Legal, Tabloid, or a size"
    yield from _key(draft, "template.paper", asks, takes, usual, "template")
