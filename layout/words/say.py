"""What words are told in, and what is told of one fact; shape and size of a top."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from ..outlines import PIECE_AS_FOUND, Outline
from ..panel.datum import Datum
from ..units import Tape

if TYPE_CHECKING:
    from ..plan.plan import Plan

_NUMBERS = ("one", "two", "three", "four", "five", "six")
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
    *words: str | bool,
    points: Iterable[str | bool] = (),
    tables: Iterable[Table] = (),
    warnings: Iterable[str] = (),
    figures: tuple[tuple[str, str], ...] = (),
) -> Passage:
    """Return a passage of whole sentences, without those that say nothing and tables of no row.

    >>> told = passage("Flatten", "both faces", False and "twice", tables=[Table(("Face",), ())])
    >>> told.words, told.tables
    (('Both faces.',), ())
    """
    told, done, warned = (
        tuple(sentence(clause) for clause in clauses if clause and isinstance(clause, str))
        for clauses in (words, points, warnings)
    )
    return Passage(title, told, done, tuple(t for t in tables if t.rows), warned, figures)


def table(
    items: Iterable[T],
    columns: Mapping[str, str | Callable[[T], str]],
    caption: str = "",
    tape: Tape = Tape(),  # noqa: B008 - a value
) -> Table:
    """Return a table with a row for each item: by its headings, what stands under each.

    That is words that the tape fills from the item, or what makes them.

    >>> table([2.0, 3.0], {"Side": "{real:figure}", "Square": lambda side: f"{side**2:g}"}).rows
    (('2', '4'), ('3', '9'))
    """

    def told(item: T, words: str | Callable[[T], str]) -> str:
        return tape.fill(words, item) if isinstance(words, str) else words(item)

    rows = tuple(tuple(told(item, words) for words in columns.values()) for item in items)
    return Table(tuple(columns), rows, caption)


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


def whole_up(value: float) -> int:
    """Return the next whole number; what is above one by rounding alone counts as that."""
    return math.ceil(value - 1e-6)


def counted(count: int, name: str) -> str:
    """Return how many of something there are.

    >>> counted(1, "sheet"), counted(3, "thin coat")
    ('1 sheet', '3 thin coats')
    """
    return f"{count} {name}{'' if count == 1 else 's'}"


def size_words(plan: Plan) -> str:
    """Return shape and size of the top that is made."""
    words, keeping = outline_words(plan.top.outline, plan.job.tape), plan.job.wish.keeping
    if keeping is None or plan.top.outline.name != PIECE_AS_FOUND:
        return words
    return f"{words}, ends {keeping.ends.value}"


def found_words(plan: Plan) -> str:
    """Return what was found before sizes were rounded down, as one clause."""
    fit, tape = plan.fit, plan.job.tape
    if fit.clearance is not None:
        return (
            "it keeps its own size and lies where it is clearest of edges and of what shows, "
            f"{tape.fine(fit.clearance)}"
        )
    found = "the largest found is" if plan.top.outline.free_sizes else "as found,"
    return f"{found} {exact_words(fit.outline, tape)}"


def bare_size(outline: Outline, told: Callable[[float], str]) -> str:
    """Return the size without a unit: a diameter, a width across flats, or length and width."""
    if outline.is_round:
        return f"ø {told(outline.length)}"
    if "across_flats" in outline.figures:
        return told(outline.figures["across_flats"])
    return f"{told(outline.length)} × {told(outline.width)}"


def outline_words(outline: Outline, tape: Tape) -> str:
    """Return shape and size as they are made: ``capsule 1400 × 600 mm``."""
    figures = {} if outline.is_round else outline.figures
    name = "circle" if outline.is_round else outline.name
    words = f"{name} {bare_size(outline, tape.figure)} {tape.unit}"
    if "across_flats" in figures:
        words += " across flats"
        if outline.length != outline.width:  # no round figure; an octagon is as long as wide
            words += f", {tape.fine(outline.length)} across corners"
    if "corner_radius" in figures:
        words += f", corner radius {tape.measure(figures['corner_radius'])}"
    return f"{words}, exponent {figures['exponent']:g}" if "exponent" in figures else words


def exact_words(outline: Outline, tape: Tape) -> str:
    """Return the size as it was found, in decimals: ``1403.7 × 602.1 mm``."""
    flats = " across flats" if "across_flats" in outline.figures else ""
    return f"{bare_size(outline, lambda size: tape.exact(size, 1))} {tape.unit}{flats}"


def people(count: int) -> str:
    """Return a number of people in words.

    >>> people(1), people(4), people(12)
    ('one person', 'four people', '12 people')
    """
    number = _NUMBERS[count - 1] if count <= len(_NUMBERS) else str(count)
    return f"{number} {'person' if count == 1 else 'people'}"
