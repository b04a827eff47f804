"""What is told of the work step by step, where no single act has the words for it."""

from __future__ import annotations

from ..marking.marks import MarkSet
from .marks import marks_advice
from .passage import Passage, Table
from .saw_lines import Round
from .say import Say, listed


def set_out_words(each: Round, held: MarkSet, say: Say) -> Passage:
    """Return how the marks of the first page are set out."""
    first = each.datum.first.name
    words = (
        f"Hook the tape at {first} and strike all ticks of one edge in one pass; then square them "
        f"up from {each.datum.name}. Figures from the first page.",
    )
    return Passage("Set out the marks", words, warnings=tuple(marks_advice(held, say.tape)))


CHECK = Passage(
    "Check before the first cut",
    ("Measure every check of the first page. One that is out shows a slip: find it now.",),
)

SAW_LINES = Passage(
    "Draw the saw lines and guides",
    (
        "All of them, by the first page, and carry their ends down the edges: the first cut takes "
        "the corners that they are measured from.",
    ),
)

KEEP_OFFCUTS = Passage(
    "Put by what is worth keeping",
    (
        "Number each piece that is kept. What each makes is told behind the steps, on the screen: "
        "opened there, it is printed too.",
    ),
)


def skipped_words(told: list[Passage]) -> Passage:
    """Return why some sides are not sawn, together."""
    return Passage("Sides that no saw takes", tuple(f"{p.title}: {p.words[0]}" for p in told))


def marks_behind(held: MarkSet, shown: set[str], say: Say) -> Passage:
    """Return the marks that the first page leaves out, and how far each may be out."""
    tape, datum = say.tape, say.datum
    rows = tuple(
        (
            mark.label,
            mark.kind.value,
            tape.figure(mark.along),
            tape.figure(mark.square),
            tape.exact(mark.rounding_error(tape), 1),
        )
        for mark in held.marks
        if mark.label not in shown
    )
    errors = [
        f"{mark.label} {tape.exact(mark.rounding_error(tape), 1)}"
        for mark in held.marks
        if mark.label in shown
    ]
    words = [
        f"They lie on the centrelines or the line itself and are checked, not set out. Rounded "
        f"figures move the marks of the first page by: {listed(errors)}."
    ]
    if not shown:
        words = ["The first setting out of a slab: to see that the top lies where it should."]
    headings = (
        "Mark",
        "What it is",
        f"Along {datum.name} from {datum.first.name}",
        f"Square from {datum.name}",
        "Rounded by",
    )
    first, last = datum.names
    caption = (
        f"A minus sign along is beyond {first}, away from {last}; square, on the side of "
        f"{datum.name} away from most of the wood."
    )
    return Passage(
        f"Marks from {datum.name}", tuple(words), tables=(Table(headings, rows, caption),)
    )
