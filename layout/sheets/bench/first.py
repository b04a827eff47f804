"""The first page: what stands on it, and what gives way so that it is exactly one page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...drawing.scene import CAP_HEIGHT, Scene, text_width, wrapped
from ...geometry import Bounds, at_most
from ...plan.plan import Plan
from ...template.paper import A4
from ...units import MIXED
from ...words import first_page as page_one
from ...words.cautions import Caution, short_cautions
from ...words.first_tables import RoundTable, SawRow, round_table
from ...words.saw_lines import lying_of, rounds_of
from ...words.say import Cell
from ..pictures.legs import quarters_scene
from ..pictures.lying.scene import lying_scene

_LEAST, _MOST = 54.0, 112.0  # height of the drawing, mm
_SAWS = 10  # from this line on the table goes on behind the page
_MANY = 4  # more marks than these stand in lines, each by its two figures
_CAP = 25.4 / 72 * CAP_HEIGHT  # height of a capital, mm, by its size in points
_UNDRAWN = Scene("", Bounds(0.0, 0.0, 0.0, 0.0), ())  # until the room of the drawing is known


@dataclass(frozen=True, slots=True)
class FirstPage:
    """Everything that is pinned over the bench."""

    head: page_one.Head
    face: tuple[str, str]
    lying: Scene
    phone: Scene
    letters: tuple[tuple[str, str], ...]
    also: str
    tables: tuple[RoundTable, ...]
    checks: tuple[tuple[str, str], ...]
    before: str
    slip: str
    legs: tuple[tuple[str, str], ...]
    legs_drawn: Scene | None
    ready: tuple[str, ...]
    cautions: tuple[Caution, ...]
    foot: str
    ready_first: bool = True
    """Whether what to have ready stands on it, and not on the page behind it."""
    more: tuple[RoundTable, ...] = ()
    """What of the saw table found no room."""


def room_of(plan: Plan) -> float:
    """Return the height of a page between margins of 10, mm, less what a browser rounds."""
    paper = plan.job.template.paper
    return min(A4.length, A4.length if paper.roll else paper.length) - 20.0 - 1.5


def first_page(plan: Plan) -> FirstPage:
    """Return the first page, no higher than a page, with its drawing as large as it may be."""
    high, lying, rounds = room_of(plan), lying_of(plan), rounds_of(plan)
    checks, slip = page_one.checks_words(plan, rounds[-1])
    letters, also = page_one.key_of(plan)
    whole = FirstPage(
        head=page_one.head_words(plan),
        face=page_one.face_words(plan, lying),
        lying=_UNDRAWN,
        phone=lying_scene(plan, lying, rounds, tallest=60.0, width=92.0, plain=True),
        letters=letters,
        also=also,
        tables=tuple(round_table(plan, each, lying) for each in rounds),
        checks=checks,
        before=rounds[-1].before,
        slip=slip,
        legs=page_one.legs_words(plan),
        legs_drawn=quarters_scene(plan),
        ready=page_one.ready_words(plan),
        cautions=short_cautions(plan),
        foot=page_one.foot_words(plan.job.tape),
    )
    least = _LEAST + 15.0 * (len(rounds) - 1)  # more with a second tape under it
    page = _given_way(whole, high, least)
    tallest = min(_MOST, high - _without_drawing(page))
    for _ in range(3):
        tallest = max(tallest, 0.8 * least)
        page = replace(page, lying=lying_scene(plan, lying, rounds, tallest=tallest))
        over = height(page) - high
        if at_most(over, 0.0) or at_most(tallest, 0.8 * least):
            break
        tallest = min(tallest, page.lying.frame.height) - over
    return page


def _given_way(page: FirstPage, high: float, least: float) -> FirstPage:
    """Return the page with what gives way first moved off it, until the drawing has its room."""
    unready = replace(page, ready_first=False)
    in_first_words = tuple(
        replace(t, saws=tuple(replace(s, falls=s.falls.split(";")[0]) for s in t.saws))
        for t in page.tables
    )
    for changed in (page, unready, replace(unready, tables=in_first_words)):
        page = changed
        if _without_drawing(page) + least <= high:
            return page
    every = len(page.tables[-1].saws)
    if every <= _SAWS and _without_drawing(page) + 0.8 * least <= high:
        return page
    kept = min(every, _SAWS)
    while kept > 3 and _without_drawing(_cut_off(page, kept)) + 0.8 * least > high:
        kept -= 1
    return _cut_off(page, kept)


def _cut_off(page: FirstPage, kept: int) -> FirstPage:
    """Return the page with so many rows of its last saw table, the others behind it."""
    *before, last = page.tables
    rest = replace(last, saws=last.saws[kept:], marks=(), curve=(), notes=(), title="Saw, and on")
    first = replace(last, saws=last.saws[:kept], rest=())
    return replace(page, tables=(*before, first), more=(rest,))


def height(page: FirstPage) -> float:
    """Return how high a page stands, mm: by the rows and lines that its style sheet sets."""
    return _without_drawing(page) + page.lying.frame.height


def _without_drawing(page: FirstPage) -> float:
    main = sum(_table(table) for table in page.tables) + (5.0 if page.more else 0.0)
    return sum(parts(page).values()) + max(main, _side(page)) + 2.0


def parts(page: FirstPage) -> dict[str, float]:
    """Return the height of each part but the drawing and the tables, mm with what is over it."""
    note = min(105.0, text_width(page.head.note, 10 * _CAP))
    size = max(_wide(page.head.size, 31, bold=True), note)
    notes = _lines([page.head.note], 10, 1.02 * size + 0.5)
    names = min(2, _lines([page.head.name], 15, 184.0 - size, bold=True))
    came = _lines([", ".join(page.head.came)], 10, 184.0 - size)
    key = "".join(f"[m] {name}   " for _, name in page.letters) + page.also
    ready = 2.5 + 4.5 * _lines([f"Have ready    {' · '.join(page.ready)}"], 10, 186.0)
    return {
        "head": max(6.2 * names + 4.4 * came, 12.5 + 4.4 * notes) + 4.8,
        "face": 11.8 + 6.0 * (_lines([page.face[1]], 11.5, 120.0) - 1),
        "key": 6.1 + 4.6 * _lines([key], 9.5, 188.0),
        "ready": ready if page.ready_first else 0.0,
        "cautions": 6.3 + 5.1 * _lines([c.words for c in page.cautions], 10.5, 174.0),
        "foot": 3.1 + 3.8 * _lines([page.foot], 8.5, 188.0),
    }


def _side(page: FirstPage) -> float:
    high = 8.4 + 6.9 * len(page.checks) + 0.8 + 4.2 * _lines([page.slip], 10, 51.4)
    if page.legs_drawn is not None:
        high += 9.4 + page.legs_drawn.frame.height
        high += sum(5.4 * (1 + (_wide(f, 12.5, bold=True) > 51.0)) for f, _ in page.legs if f)
        high += 4.4 * _lines([words for _, words in page.legs], 10.5, 51.4)
    return high


def _table(table: RoundTable) -> float:
    """Return the height of the tables of one round, mm."""
    high = 0.0
    if len(table.marks) > _MANY:
        told = (f"{m.name} {m.along.figure} | {m.square.figure}__" for m in table.marks)
        high += 1.6 + 5.7 * _lines([" ".join(("along A–B from A | square__", *told))], 12.5, 112.0)
    elif table.marks:
        high += 8.1 + 6.8 * len(table.marks)
    high += sum(max(6.3, 1.4 + 4.4 * _lines([words], 10.5, 113.0)) for _, words in table.curve)
    high += 8.1 + sum(_saw(saw) for saw in table.saws) + 4.4 * len(table.notes)
    for _, figure, words in table.rest:
        high += max(7.8 if figure else 6.0, 1.4 + 3.9 * _lines([words], 9.5, 88.0))
    if table.before:
        high += 1.4 + 3.9 * _lines([table.before], 10, 130.0)
    return high


def _saw(saw: SawRow) -> float:
    """Return the height of a row of the saw table, mm."""
    high = [7.8, 1.4 + 3.9 * _lines([saw.falls], 9.5, 38.5)]
    cells = (saw.one, saw.other)
    if all(cell.figure for cell in cells):
        wide = sum(max(25.6, _told(c, 18, bold=True)) for c in cells)
        high.append(1.4 + 6.4 * (1 + (wide > 52.0)))
    else:
        high += [1.9 + 3.9 * _lines([c.note], 9.5, 25.5) for c in cells if not c.figure]
    if len(saw.guide) > 1:
        wide = sum(_told(cell, 11.5) for cell in saw.guide) + 2.6
        high.append(1.6 + 5.0 * (1 + (wide > 21.9)))
    elif saw.guide and saw.guide[0].note:
        lines = _lines([saw.guide[0].note], 9.5, 21.5)
        high.append(1.6 + 6.4 * bool(saw.guide[0].figure) + 3.9 * lines)
    if saw.each:
        wide = sum(_wide(f, 12, bold=True) + _wide(f" {w}", 9.5) + 2.5 for f, w in saw.each)
        high.append(1.6 + 5.0 * -(-int(wide) // 52))
    return max(high)


def _told(cell: Cell, points: float, *, bold: bool = False) -> float:
    """Return how wide a figure stands with its note, mm; two offsets in one are set smaller."""
    size = min(points, 11.0) if cell.axis == "both" else points
    note = _wide(f" {cell.note}", 9.5) if bold and cell.note else 0.0
    return _wide(cell.figure, size, bold=bold) + note


def _wide(words: str, points: float, *, bold: bool = False) -> float:
    """Return how wide words are at a size in points, mm; fractions stand smaller."""
    cap = points * _CAP
    fraction = "".join(found[0] for found in MIXED.finditer(words))
    return text_width(words, cap, bold) - 0.26 * text_width(fraction, cap, bold)


def _lines(words: Sequence[str], points: float, wide: float, *, bold: bool = False) -> int:
    """Return how many lines words take at a size in points."""
    return sum(max(1, len(wrapped(w, points * _CAP, wide / 1.01, bold))) for w in words)
