"""What the bench sheet prints: each figure its coordinate, each sign as its caption says."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Pair, dot, sub
from checker.record_cuts import End, Straight
from checker.record_marks import Setting
from checker.sheet import Sheet, SheetStep, SheetTable


def marks_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Each row of the table of marks is its mark's two offsets to the tape's nearest division."""
    for sheet, step, setting in _settings(plan, "Marks"):
        rows = step.tables[0].rows
        ledger.near("rows of the table of marks", len(rows), len(setting.marks), 0)
        named = {mark.label: mark for mark in setting.marks}
        for row in rows:
            mark = named.get(row[0])
            ledger.hold(mark is not None, f"the sheet has a mark {row[0]}, the plan has none")
            if mark is not None:
                _printed(sheet, ledger, f"along of {row[0]}", row[2], mark.along)
                _printed(sheet, ledger, f"square of {row[0]}", row[3], mark.square)
        first = setting.reference.names[0]
        heads = " ".join(step.tables[0].headings)
        ledger.hold(first in heads, f"offsets are taken from {first}, the table says {heads}")


def tapes_and_checks_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Tape measurements and check distances on the sheet are those of the plan."""
    for sheet, step, setting in _settings(plan, "The same by two tapes"):
        named = {mark.label: mark for mark in setting.marks}
        for row in step.tables[0].rows:
            mark = named[row[0]]
            for text, (name, told) in zip(row[1:3], mark.tapes, strict=True):
                _printed(sheet, ledger, f"tape to {row[0]}", text, told)
                ledger.hold(text.endswith(f"from {name}"), f"{row[0]}: {text}")
            if row[3].endswith("°"):
                sharp = 90.0 - abs(90.0 - (mark.crossing or 0.0))
                ledger.near(f"crossing at {row[0]}", float(row[3][:-1]), sharp, 0.51)
        if "right angle" in step.text:
            told = [named[row[0]].crossing for row in step.tables[0].rows]
            angles = [90 - abs(90 - crossing) for crossing in told if crossing]
            worst = min(angles, default=90.0)
            ledger.hold(worst >= 60.0, f"near a right angle is told, one crosses at {worst:.0f}°")
    for sheet, step, setting in _settings(plan, "Checks"):
        for row, check in zip(step.tables[0].rows, setting.checks, strict=False):
            ledger.hold(row[0] == f"{check['start']} to {check['end']}", f"check {row[0]}")
            _printed(sheet, ledger, f"check {row[0]}", row[1], check["distance"])


def a_printed_saw_line_is_never_nearer_to_the_top(plan: Plan, ledger: Ledger) -> None:
    """Drawn by its printed figures a saw line leaves the top no less than its allowance."""
    for sheet, row, cut in _saw_rows(plan, "saw"):
        reference = plan.record.reference_of(cut)
        for text, end in zip(row[1:3], (cut.start, cut.end), strict=True):
            along, square = _offsets(sheet, text)
            at = reference.frame.out((along, square))
            towards_top = -dot(sub(at, end.at), cut.waste)
            words = f"{cut.label} by its figures ({text}) runs {towards_top:.2f} nearer to the top"
            ledger.hold(towards_top <= 0.05, words)


def saw_lines_and_guides_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Where lines and guides meet the edge is printed within a division of where they do."""
    for what in ("saw", "guide"):
        for sheet, row, cut in _saw_rows(plan, what):
            if what == "guide" and cut.guide is None:
                ledger.hold(False, f"{cut.label} has a guide on the sheet and none in the plan")
                continue
            held = cut if what == "saw" else cut.guide
            assert held is not None
            for text, end in zip(row[1:3], (held.start, held.end), strict=True):
                _end(sheet, ledger, f"{cut.label} {what}", text, end)


def the_waste_lies_where_the_caption_has_it(plan: Plan, ledger: Ledger) -> None:
    """The side of the waste is that of the panel as it lies, mirrored where it lies face down."""
    if plan.sheet is None:
        return
    for cut in plan.record.straight:
        for step in plan.sheet.titled(f"{cut.label}:"):
            said = re.search(r"Waste on the (\w+) side", " ".join(t.caption for t in step.tables))
            if said is None:
                continue
            x = -cut.waste[0] if plan.record.face_down else cut.waste[0]
            ways = {"right": x, "left": -x, "upper": cut.waste[1], "lower": -cut.waste[1]}
            ledger.hold(ways[said[1]] > 0.7, f"{cut.label}: waste {said[1]}, it lies {ways}")


def legs_and_battens_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Each row is the middle of its leg or batten from O, and minus is where the caption has it."""
    if plan.sheet is None or plan.record.legs is None or plan.record.table is None:
        return
    held = (("Legs", plan.record.legs["legs"]), ("Keep it flat", plan.record.table["battens"]))
    for title, things in held:
        for step in plan.sheet.titled(title)[:1]:
            for table in step.tables[:1]:
                ledger.near(f"rows of {title}", len(table.rows), len(things), 0)
                for row, thing in zip(table.rows, things, strict=False):
                    for text, due in zip(row[1:3], thing["middle"], strict=True):
                        _printed(plan.sheet, ledger, f"{title} {row[0]}", text, due)
                _minus(plan, ledger, title, table)


def _minus(plan: Plan, ledger: Ledger, title: str, table: SheetTable) -> None:
    """Hold that what plus and minus are towards is there, and lies on that side."""
    ways = r"plus is towards (.+?) and minus towards (\w.*?)[;,.]"
    said = re.search(rf"along, {ways} across, {ways}", table.caption)
    ledger.hold(said is not None, f"{title}: no direction is named")
    if said is None:
        return
    setting = plan.record.settings[-1]
    corners = {f"corner {name}": at for name, at in setting.reference.points.items()}
    points = {**corners, **setting.reference.points, **setting.points}
    for i, name in enumerate(said.groups()):
        at = points.get(name)
        ledger.hold(at is not None, f"{title}: a sign is towards {name}, which is nowhere")
        if at is not None:
            own = plan.record.own.own(at)[i // 2]
            ledger.hold(own > 0 if i % 2 == 0 else own < 0, f"{title}: {name} lies at {own:.1f}")


def _settings(plan: Plan, title: str) -> Iterator[tuple[Sheet, SheetStep, Setting]]:
    """Yield the steps of that title with the setting out that each belongs to."""
    if plan.sheet is None:
        return
    steps = [step for step in plan.sheet.titled(title) if step.tables]
    if len(steps) == len(plan.record.settings):
        for step, setting in zip(steps, plan.record.settings, strict=True):
            yield plan.sheet, step, setting


def _saw_rows(plan: Plan, what: str) -> Iterator[tuple[Sheet, Sequence[str], Straight]]:
    """Yield the rows of all saw lines or guides, each with its cut."""
    if plan.sheet is None:
        return
    named = {f"{cut.label}, {what}": cut for cut in plan.record.straight}
    for step in plan.sheet.titled("Saw lines and guides"):
        for table in step.tables:
            for row in table.rows:
                if row[0] in named:
                    yield plan.sheet, row, named[row[0]]


def _offsets(sheet: Sheet, text: str) -> Pair:
    along, _, rest = text.partition(" along ")
    square = rest.partition(", ")[2]
    return sheet.mm(along), sheet.mm(square)


def _end(sheet: Sheet, ledger: Ledger, what: str, text: str, end: End) -> None:
    along, square = _offsets(sheet, text)
    division = 2 * sheet.half_division + 0.02
    ledger.near(f"{what} along", along, end.along, division)
    ledger.near(f"{what} square", square, end.square, division)
    corner = re.search(r"\(([^()]*) from (\S+)\)", text)
    if corner:
        ledger.hold(corner[2] == end.corner, f"{what}: {text} where {end.corner} is near")
        ledger.near(f"{what} from {corner[2]}", sheet.mm(corner[1]), end.distance, division)


def _printed(sheet: Sheet, ledger: Ledger, what: str, text: str, due: float) -> None:
    ledger.near(what, sheet.mm(text), due, sheet.half_division + 0.01)
