"""The whole work in order: from seeing the panel to weighing the table, with hours and waits.

Rules of the order, each with its reason:

- a coat that may hold lead is tested for it and comes off wet before a saw, a plane or a sander
  meets it, and the bare wood is tested again; first comes off, too, any coat where something is
  mended, for nothing holds on it; every other coat guards the face until the top is cut out;
- what is glued in is tried dry just before;
- sanding comes after all cutting and gluing of the edge, coats after the dust is off;
- the underside and the edge are coated before the legs are on, for they cannot be reached later;
- legs that are glued are tried, and their places masked, before any coat.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..cutting.cut import TrimKind
from ..cutting.plan import REST
from ..legs.wish import Fixing
from .coats import NewCoat
from .deeds import Day, Deed, Per, Range, days_of
from .items import first_grit, grits_between
from .piece import FITTED, Piece
from .wish import WorkWish

DRIES, STRIPPED_DRIES, RAISED_DRIES = 12.0, 24.0, 4.0
"""Until washed, stripped and watered wood is dry, hours (common practice)."""

CRAMPED = 24.0
"""Until a glued lipping may be flushed, hours (common practice)."""


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do, and what is waited for after it."""

    deed: Deed
    of: Deed | None = None
    """What a dry fit tries, or what the dust is taken off for."""
    part: int = 1
    parts: int = 1
    """Which of so many coats; 2 for what is done a second time."""
    grits: tuple[int, ...] = ()
    """What is sanded with, coarsest first."""
    wet: bool = False
    """Whether no dust may fly: with stripper and water."""
    perhaps: bool = False
    """Whether nobody knows yet that it is needed."""
    least: float = field(default=0.0, metadata={"unit": "h"})
    most: float = field(default=0.0, metadata={"unit": "h"})
    """Hours of work."""
    wait: Range = field(default=(0.0, 0.0), metadata={"unit": "h"})
    """Before the next one, hours, least and most."""
    day: Day = Day(1, 1)  # noqa: RUF009 frozen, so it may be shared
    """On which it is begun."""


@dataclass(frozen=True, slots=True)
class WorkOrder:
    """Everything to do, in order."""

    tasks: tuple[Task, ...]
    least: float = field(metadata={"unit": "h"})
    most: float = field(metadata={"unit": "h"})
    """Hours of work in all."""
    ready: Day
    """Day on which it can be used with care, if begun on day 1."""
    cured: Day
    """Day on which its finish is as hard as it gets."""


def work_order(piece: Piece, wish: WorkWish | None = None) -> WorkOrder:
    """Return the whole work on a piece, its days counted from the first."""
    asked = wish or WorkWish()
    tasks = tuple(_tasks(piece))
    hours = _hours(piece, asked, [task.deed for task in tasks])
    days = days_of([(work, t.wait) for work, t in zip(hours, tasks, strict=True)], asked.day)
    dated = tuple(
        replace(task, least=least, most=most, day=day)
        for task, (least, most), day in zip(tasks, hours, days, strict=False)
    )
    ready, cure = days[-1], piece.finish.cure
    return WorkOrder(
        dated,
        sum(least for least, _ in hours),
        sum(most for _, most in hours),
        ready,
        Day(ready.least + cure, ready.most + cure),
    )


def _tasks(piece: Piece) -> Iterator[Task]:
    yield from (Task(Deed.ASK), Task(Deed.CLEAN, wait=(DRIES, DRIES)))
    if piece.may_hold_lead:
        yield Task(Deed.TEST)
    yield Task(Deed.METAL)
    if piece.strips_first:
        yield from _strip(piece)
    yield from _marked(piece)
    yield Task(Deed.CUT)
    if piece.strips and not piece.strips_first:
        yield from _strip(piece)
    yield from _edged(piece)
    first = first_grit(piece.panel, stripped=piece.strips)
    yield Task(Deed.SAND, grits=grits_between(first, max(first, piece.finish.last_grit)))
    yield from _finished(piece)


def _strip(piece: Piece) -> Iterator[Task]:
    unknown = not piece.panel.finish
    wait = (STRIPPED_DRIES, STRIPPED_DRIES)
    yield Task(Deed.STRIP, wet=piece.may_hold_lead, perhaps=unknown, wait=wait)
    if piece.may_hold_lead:
        yield Task(Deed.TEST, part=2)


def _marked(piece: Piece) -> Iterator[Task]:
    """Yield what comes between stripping and the first cut through the panel."""
    slab = piece.cuts.again is not None
    short = any(trim.kind is TrimKind.ROUGH for trim in piece.cuts.trims)
    if short:
        yield from (Task(Deed.MARK), Task(Deed.CHECK), Task(Deed.SHORTEN))
    if piece.panel.flattened is not None:
        yield Task(Deed.FLATTEN)
    if slab:
        yield from _mended(piece)
        yield Task(Deed.REST, wait=(REST * 24.0, REST * 24.0))
    yield from (Task(Deed.MARK, part=2 if short else 1), Task(Deed.CHECK))
    if not slab:
        yield from _mended(piece)


def _mended(piece: Piece) -> Iterator[Task]:
    mends = piece.cuts.mends
    if any(mend.how in FITTED for mend in mends):
        yield Task(Deed.FIT, of=Deed.MEND)
    if mends:
        wait = max(mend.wait for mend in mends)
        yield Task(Deed.MEND, wait=(wait, wait))


def _edged(piece: Piece) -> Iterator[Task]:
    edging = piece.cuts.edging
    if edging is not None and edging.thickness:
        yield Task(Deed.FIT, of=Deed.LIP)
        yield Task(Deed.LIP, wait=(CRAMPED, CRAMPED))
    elif edging is not None:
        yield Task(Deed.EDGE)
    yield Task(Deed.PROFILE)


def _finished(piece: Piece) -> Iterator[Task]:
    finish, fixing = piece.finish, piece.fixing
    coating = finish.coating
    held = fixing is not None and fixing is not Fixing.LOOSE
    if coating.raises:
        yield Task(Deed.RAISE, wait=(RAISED_DRIES, RAISED_DRIES))
        yield Task(Deed.SAND, grits=(finish.last_grit,), part=2)
    if held:
        yield Task(Deed.FIT, of=Deed.LEGS)
    if finish.masked:
        yield Task(Deed.MASK)
    yield from _coated(piece, Deed.UNDERSIDE)
    if piece.table is not None and piece.table.battens:
        yield Task(Deed.BATTENS)
    if fixing is not None:
        glue = None if piece.table is None else piece.table.glue
        sets = (0.0, 0.0) if glue is None else (24 * glue.least_days, 24 * glue.most_days)
        yield Task(Deed.LEGS, wait=sets)
    if finish.faces:
        yield from _coated(piece, Deed.COAT)
    if fixing is not None:
        yield Task(Deed.LEVEL)
    yield from (Task(Deed.PHOTOGRAPH), Task(Deed.WEIGH))


def _coated(piece: Piece, deed: Deed) -> Iterator[Task]:
    """Yield the coats of one side, each on wood or on a coat that the dust is off."""
    finish = piece.finish
    if finish.coat is NewCoat.NONE:
        return
    last = deed is Deed.COAT or not finish.faces
    for number in range(1, finish.coats + 1):
        if number > 1 and finish.coating.between:
            yield Task(Deed.RUB, of=deed, grits=(finish.coating.between,))
        yield Task(Deed.DUST, of=deed)
        dries = finish.use if last and number == finish.coats else finish.recoat
        yield Task(deed, part=number, parts=finish.coats, wait=(dries, dries))


def _hours(piece: Piece, wish: WorkWish, deeds: list[Deed]) -> list[Range]:
    """Return the hours of each step; what a job gives for one is shared by its turns."""
    own, hours = dict(wish.hours), []
    for deed in deeds:
        if deed.value in own:
            (least, most), times = own[deed.value], 1 / deeds.count(deed)
        else:
            (least, most), times = wish.pace_of(deed), _count(deed.per, piece)
        hours.append((least * times, most * times))
    return hours


def _count(per: Per, piece: Piece) -> float:
    """Return how often a job has what the hours of a step are counted by."""
    cuts = piece.cuts
    curves = sum(cut.line.length for cut in cuts.curve_cuts) / 1000
    lines = sum(trim.kind is not TrimKind.ROUGH for trim in cuts.trims) + len(cuts.corner_cuts)
    return {
        Per.PIECE: 1,
        Per.PANEL: piece.panel.area * 1e-6,
        Per.STRIPPED: piece.stripped,
        Per.TOP: piece.face,
        Per.FACES: piece.sanded,
        Per.COATED: piece.sanded / (2 if piece.finish.faces else 1),
        Per.EDGE: piece.edge,
        Per.CUT: lines + curves,
        Per.MEND: len(cuts.mends),
        Per.BATTEN: len(piece.table.battens) if piece.table else 0,
        Per.LEG: piece.leg_count,
    }[per]
