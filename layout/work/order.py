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
from .deeds import Day, Deed, Per, Range, days_of
from .items import first_grit, grits_between
from .piece import FITTED, Finish, Piece
from .wish import WorkWish

DRIES, STRIPPED_DRIES, RAISED_DRIES, CRAMPED = (12.0, 12.0), (24.0, 24.0), (4.0, 4.0), (24.0, 24.0)
"""Until washed, stripped and watered wood is dry, and a glued lipping is flushed, hours (common
practice)."""


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
    least, most = (sum(both) for both in zip(*hours, strict=True))
    return WorkOrder(dated, least, most, ready, Day(ready.least + cure, ready.most + cure))


def _tasks(piece: Piece) -> Iterator[Task]:
    """Yield what is done in turn, each where there is reason to."""
    panel, cuts, finish, fixing = piece.panel, piece.cuts, piece.finish, piece.fixing
    lead, late = piece.may_hold_lead, piece.strips and not piece.strips_first
    stripped = Task(Deed.STRIP, wet=lead, perhaps=not panel.finish, wait=STRIPPED_DRIES)
    tested = Task(Deed.TEST, part=2)
    short = any(trim.kind is TrimKind.ROUGH for trim in cuts.trims)
    slab, mends = cuts.again is not None, bool(cuts.mends)
    tried, fitted = Task(Deed.FIT, of=Deed.MEND), any(m.how in FITTED for m in cuts.mends)
    mended = Task(Deed.MEND, wait=(max((m.wait for m in cuts.mends), default=0.0),) * 2)
    edged, lipped = cuts.edging is not None, bool(cuts.edging and cuts.edging.thickness)
    first = first_grit(panel, stripped=piece.strips)
    grits = grits_between(first, max(first, finish.last_grit))
    raised, stands = finish.coating.raises, fixing is not None
    glue = None if piece.table is None else piece.table.glue
    sets = (0.0, 0.0) if glue is None else (24 * glue.least_days, 24 * glue.most_days)
    steps = (
        (Task(Deed.ASK), True),
        (Task(Deed.CLEAN, wait=DRIES), True),
        (Task(Deed.TEST), lead),
        (Task(Deed.METAL), True),
        (stripped, piece.strips_first),
        (tested, piece.strips_first and lead),
        *((Task(deed), short) for deed in (Deed.MARK, Deed.CHECK, Deed.SHORTEN)),
        (Task(Deed.FLATTEN), panel.flattened is not None),
        (tried, slab and fitted),
        (mended, slab and mends),
        (Task(Deed.REST, wait=(REST * 24.0, REST * 24.0)), slab),
        (Task(Deed.MARK, part=2 if short else 1), True),
        (Task(Deed.CHECK), True),
        (tried, not slab and fitted),
        (mended, not slab and mends),
        (Task(Deed.CUT), True),
        (stripped, late),
        (tested, late and lead),
        (Task(Deed.FIT, of=Deed.LIP), lipped),
        (Task(Deed.LIP, wait=CRAMPED), lipped),
        (Task(Deed.EDGE), edged and not lipped),
        (Task(Deed.PROFILE), True),
        (Task(Deed.SAND, grits=grits), True),
        (Task(Deed.RAISE, wait=RAISED_DRIES), raised),
        (Task(Deed.SAND, grits=(finish.last_grit,), part=2), raised),
        (Task(Deed.FIT, of=Deed.LEGS), stands and fixing is not Fixing.LOOSE),
        (Task(Deed.MASK), finish.masked > 0),
        *((coat, True) for coat in _coats(finish, Deed.UNDERSIDE)),
        (Task(Deed.BATTENS), piece.table is not None and bool(piece.table.battens)),
        (Task(Deed.LEGS, wait=sets), stands),
        *((coat, finish.faces) for coat in _coats(finish, Deed.COAT)),
        (Task(Deed.LEVEL), stands),
        (Task(Deed.PHOTOGRAPH), True),
        (Task(Deed.WEIGH), True),
    )
    yield from (task for task, due in steps if due)


def _coats(finish: Finish, deed: Deed) -> Iterator[Task]:
    """Yield the coats of one side, each on wood or on a coat that the dust is off."""
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
