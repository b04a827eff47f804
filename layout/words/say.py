"""What words are told in, and what is told of one fact.

The maker's tape, the line measured from, how the face lies; a title, sentences, points, tables;
shape and size of a top, as it is made and as it was found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from ..geometry.tolerance import SAME_PLACE
from ..outlines import PIECE_AS_FOUND, Outline
from ..panel.datum import Datum
from ..units import Tape

if TYPE_CHECKING:
    from ..plan.plan import Plan

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of words under headings."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """Each as long as the headings."""
    caption: str = ""
    halves: bool = False
    """Whether it is long and narrow, so that it stands in two columns where there is room."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A figure of the first page, with the words that it needs."""

    figure: str = ""
    note: str = ""
    axis: str = ""
    """What it counts along, for programs that read the page."""


@dataclass(frozen=True, slots=True)
class Passage:
    """Everything in words about one act, concern or figure."""

    title: str
    words: tuple[str, ...] = ()
    """Sentences."""
    points: tuple[str, ...] = ()
    """What is done within it, one after the other."""
    tables: tuple[Table, ...] = ()
    warnings: tuple[str, ...] = ()
    figures: tuple[tuple[str, str], ...] = ()
    """At most two that are read from an arm's length, each with the words for its unit."""


def passage(
    title: str,
    *words: str,
    points: Iterable[str] = (),
    tables: Iterable[Table] = (),
    warnings: Iterable[str] = (),
    figures: tuple[tuple[str, str], ...] = (),
) -> Passage:
    """Return a passage of whole sentences, without those that say nothing and tables of no row.

    >>> told = passage("Flatten", "both faces", "", tables=[Table(("Face",), ())])
    >>> told.words, told.tables
    (('Both faces.',), ())
    """
    told, done, warned = (
        tuple(sentence(clause) for clause in clauses if clause)
        for clauses in (words, points, warnings)
    )
    return Passage(title, told, done, tuple(t for t in tables if t.rows), warned, figures)


def table(
    items: Iterable[T],
    columns: Mapping[str, Callable[[T], str]],
    caption: str = "",
    *,
    halves: bool = False,
) -> Table:
    """Return a table with a row for each item: by its headings, what stands under each.

    >>> table([2, 3], {"Side": str, "Square": lambda side: str(side**2)}).rows
    (('2', '4'), ('3', '9'))
    """
    rows = tuple(tuple(told(item) for told in columns.values()) for item in items)
    return Table(tuple(columns), rows, caption, halves)


@dataclass(frozen=True, slots=True)
class Say:
    """What every sentence of a plan needs besides its facts."""

    tape: Tape
    datum: Datum
    """The line that offsets count from."""
    mirrored: bool = False
    """Whether the show face lies down, so that left and right are swapped."""

    @classmethod
    def of(cls, plan: Plan, datum: Datum | None = None) -> Say:
        """Return what words of a plan are told in, from its own datum or from another."""
        return cls(plan.job.tape, datum or plan.datum, plan.cuts.face.mirrored)


def unit_words(tape: Tape) -> str:
    """Return what the figures of a table count in."""
    return "inches" if tape.imperial else "mm"


def thin_words(length: float, tape: Tape) -> str:
    """Return a thickness or a diameter: by the tape where that is true, else in decimals.

    >>> thin_words(3.5, Tape()), thin_words(12.0, Tape()), thin_words(3.175, Tape(imperial=True))
    ('3.5 mm', '12 mm', '1/8 in')
    """
    if abs(tape.nearest(length) - length) <= SAME_PLACE:
        return tape.measure(length)
    return f"{tape.exact(length, 1)} {tape.unit}"


def capital(words: str) -> str:
    """Return words with a capital at their head; names within them stay as they are.

    >>> capital("end along DA")
    'End along DA'
    """
    return words[:1].upper() + words[1:]


def sentence(words: str) -> str:
    """Return words with a capital at their head and a full stop at their end."""
    return capital(words if words.endswith((".", "!", "?")) else f"{words}.")


def listed(names: Iterable[str], last: str = "and") -> str:
    """Return names as a sentence lists them.

    >>> listed(["A", "B", "C"]), listed(["A"])
    ('A, B and C', 'A')
    """
    every = list(names)
    head, tail = every[:-1], every[-1:]
    return f"{', '.join(head)} {last} {tail[0]}" if head else "".join(tail)


def ranged(figures: Iterable[str]) -> str:
    """Return figures from the first to the last, one alone where they are alike.

    >>> ranged(["2", "3"]), ranged(["2", "2"])
    ('2 to 3', '2')
    """
    return " to ".join(dict.fromkeys(figures))


def counted(count: int, name: str) -> str:
    """Return how many of something there are.

    >>> counted(1, "sheet"), counted(3, "thin coat")
    ('1 sheet', '3 thin coats')
    """
    return f"{count} {name}{'' if count == 1 else 's'}"


def size_words(plan: Plan) -> str:
    """Return shape and size of the top that is made."""
    words = outline_words(plan.top.outline, plan.job.tape)
    keeping = plan.job.wish.keeping
    if keeping is not None and plan.top.outline.name == PIECE_AS_FOUND:
        return f"{words}, ends {keeping.ends.value}"
    return words


def found_words(plan: Plan) -> str:
    """Return what was found before sizes were rounded down, as one clause."""
    clearance, tape = plan.fit.clearance, plan.job.tape
    if clearance is None and not plan.top.outline.free_sizes:
        return f"as found, {exact_words(plan.fit.outline, tape)}"
    if clearance is None:
        return f"the largest found is {exact_words(plan.fit.outline, tape)}"
    clear = f"{tape.exact(clearance, 1)} {tape.unit}"
    return (
        f"it keeps its own size and lies where it is clearest of edges and of what shows, {clear}"
    )


def outline_words(outline: Outline, tape: Tape) -> str:
    """Return shape and size as they are made: ``capsule 1400 × 600 mm``."""
    figures = outline.figures
    if outline.is_round:
        return f"circle ø {tape.measure(outline.length)}"
    if "across_flats" in figures:
        words = f"{outline.name} {tape.measure(figures['across_flats'])} across flats"
        if outline.length != outline.width:  # no round figure; an octagon is as long as wide
            words += f", {tape.exact(outline.length, 1)} {tape.unit} across corners"
        return words
    words = f"{outline.name} {tape.figure(outline.length)} × {tape.measure(outline.width)}"
    if "corner_radius" in figures:
        words += f", corner radius {tape.measure(figures['corner_radius'])}"
    return f"{words}, exponent {figures['exponent']:g}" if "exponent" in figures else words


def exact_words(outline: Outline, tape: Tape) -> str:
    """Return the size as it was found, in decimals: ``1403.7 × 602.1 mm``."""
    if outline.is_round:
        return f"ø {tape.exact(outline.length, 1)} {tape.unit}"
    if "across_flats" in outline.figures:
        return f"{tape.exact(outline.width, 1)} {tape.unit} across flats"
    sizes = f"{tape.exact(outline.length, 1)} × {tape.exact(outline.width, 1)}"
    return f"{sizes} {tape.unit}"


_NUMBERS = ("one", "two", "three", "four", "five", "six")


def people(count: int) -> str:
    """Return a number of people in words.

    >>> people(1), people(4), people(12)
    ('one person', 'four people', '12 people')
    """
    number = _NUMBERS[count - 1] if count <= len(_NUMBERS) else str(count)
    return f"{number} {'person' if count == 1 else 'people'}"
