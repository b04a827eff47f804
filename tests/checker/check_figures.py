"""What the bench sheet prints: each figure its coordinate, each sign as its caption says."""

from __future__ import annotations

import re
from collections.abc import Iterator

from checker.ledger import Ledger
from checker.plan import Plan
from checker.plane import Frame, Pair, add, dot, sub, unit
from checker.record_cuts import End, Straight
from checker.record_marks import Reference
from checker.sheet import Figure, SawRow, Sheet


def marks_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Each mark stands once with its two offsets to the tape's nearest division."""
    if plan.sheet is None:
        return
    sheet = plan.sheet
    for setting in plan.record.settings:
        datum = "–".join(setting.reference.names)
        rows = [
            (m.name, m.figure("along"), m.figure("square")) for m in sheet.marks if m.datum == datum
        ]
        for step in sheet.titled(f"Marks from {datum}"):
            rows += [(row[0], row[2], row[3]) for row in step.tables[0].rows]
            heads = " ".join(step.tables[0].headings)
            first = setting.reference.names[0]
            ledger.hold(first in heads, f"offsets are taken from {first}, the table says {heads}")
        ledger.near(f"marks from {datum}", len(rows), len(setting.marks), 0)
        named = {mark.label: mark for mark in setting.marks}
        for name, along, square in rows:
            mark = named.get(name)
            ledger.hold(mark is not None, f"the sheet has a mark {name}, the plan has none")
            if mark is not None:
                _printed(sheet, ledger, f"along of {name}", along, mark.along)
                _printed(sheet, ledger, f"square of {name}", square, mark.square)


def tapes_and_checks_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Tape measurements and check distances on the sheet are those of the plan."""
    if plan.sheet is None:
        return
    sheet, setting = plan.sheet, plan.record.settings[-1]
    named = {mark.label: mark for mark in setting.marks}
    for mark in sheet.marks:
        told = dict(named[mark.name].tapes)
        for name, text in re.findall(r"([A-Z]\S*) (\d[\d ]*(?:/\d+)?)", mark.words):
            if name in told:
                _printed(sheet, ledger, f"{name} to {mark.name}", text, told[name])
    for step in sheet.titled("The same by two tapes"):
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
    due = {f"{check['start']}–{check['end']}": check["distance"] for check in setting.checks}
    for pairs, figure in sheet.checks:
        for pair in pairs.removesuffix(" …").split(" and "):
            ledger.hold(pair in due, f"check {pair} is not of the plan")
            _printed(sheet, ledger, f"check {pair}", figure, due.get(pair, 0.0))
    for step in sheet.titled("Checks"):
        for row, check in zip(step.tables[0].rows, setting.checks, strict=True):
            ledger.hold(row[0] == f"{check['start']} to {check['end']}", f"check {row[0]}")
            _printed(sheet, ledger, f"check {row[0]}", row[1], check["distance"])


def a_printed_saw_line_is_never_nearer_to_the_top(plan: Plan, ledger: Ledger) -> None:
    """Drawn by its printed figures a saw line leaves the top no less than its allowance."""
    for sheet, row, cut in _saw_rows(plan):
        reference = plan.record.reference_of(cut)
        if row.line[0].axis == "leg":
            _leg(sheet, ledger, row, cut)
            continue
        for figure, end in _ends(row.line, cut.start, cut.end):
            at = _place(sheet, figure, end, reference)
            towards_top = -dot(sub(at, end.at), cut.waste)
            words = f"{cut.label} by {figure.text} runs {towards_top:.2f} nearer to the top"
            ledger.hold(towards_top <= 0.05, words)


def saw_lines_and_guides_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Where lines and guides meet the edge is printed within a division of where they do."""
    for sheet, row, cut in _saw_rows(plan):
        division = 2 * sheet.half_division + 0.02
        for what, figures in (("saw", row.line), ("guide", row.guide)):
            held = cut if what == "saw" else cut.guide
            if held is None or not figures:
                ledger.hold(
                    held is None or cut.is_corner_cut, f"{cut.label} has no {what} on the sheet"
                )
                continue
            if figures[0].axis in ("leg", ""):
                if what == "guide" and cut.guide is not None:
                    due = [cut.guide.offset]
                    near = min(abs(sheet.mm(f.text) - d) for f in figures for d in due)
                    ledger.hold(near <= division, f"{cut.label}: guide {figures[0].text}")
                continue
            for figure, end in _ends(figures, held.start, held.end):
                told = _told(sheet, figure)
                for axis, value in told.items():
                    due = {"along": end.along, "square": end.square}.get(axis, end.distance)
                    ledger.near(f"{cut.label} {what} {axis}", value, due, division)
                    if axis not in ("along", "square"):
                        ledger.hold(
                            axis == end.corner, f"{cut.label}: from {axis}, {end.corner} is near"
                        )


def the_waste_lies_where_the_sheet_has_it(plan: Plan, ledger: Ledger) -> None:
    """The side of the waste is that of the page, as the panel lies, mirrored where face down."""
    for _, row, cut in _saw_rows(plan):
        said = re.match(r"(\w+) (?:end|strip)", row.falls)
        if said is None or cut.is_corner_cut:
            continue
        frame = plan.record.settings[0].reference.frame
        x, y = sub(frame.own(cut.waste), frame.own((0.0, 0.0)))
        if _is_upright(plan, frame):  # a panel that reaches far from its datum is turned a quarter
            x, y = -y, x
        seen = (-x if plan.record.face_down else x, y)
        names = {"right": (1, 0), "left": (-1, 0), "upper": (0, 1), "lower": (0, -1)}
        fits = dot(names[said[1]], seen)
        ledger.hold(fits > 0.7, f"{cut.label}: waste {said[1]}, it lies {seen}")


def _is_upright(plan: Plan, frame: Frame) -> bool:
    """Return whether the panel reaches much farther from its datum than along it."""
    places = [frame.own(place) for place in plan.job.wood.convex_hull.exterior.coords]
    along, across = (max(side) - min(side) for side in zip(*places, strict=True))
    return across > 1.15 * along


def legs_and_battens_are_printed_as_they_are(plan: Plan, ledger: Ledger) -> None:
    """Each row is the middle of its leg or batten from O, and minus is where the caption has it."""
    if plan.sheet is None or plan.record.legs is None or plan.record.table is None:
        return
    sheet = plan.sheet
    held = (
        ("Set out the legs", plan.record.legs["legs"]),
        ("Keep it flat", plan.record.table["battens"]),
    )
    for title, things in held:
        for step in sheet.titled(title)[:1]:
            for table in step.tables[:1]:
                ledger.near(f"rows of {title}", len(table.rows), len(things), 0)
                for row, thing in zip(table.rows, things, strict=False):
                    for k in (0, 1):
                        _towards(plan, ledger, row[1 + k], thing["middle"][k], k)
    said = re.search(r"([\d ,/and]+) along, ([\d ,/and]+) across", sheet.words)
    if said:
        legs = plan.record.legs["legs"]
        for k in (0, 1):
            told = [sheet.mm(text) for text in re.split(r", | and ", said[1 + k].strip())]
            for leg in legs:
                near = min(abs(abs(leg["middle"][k]) - value) for value in told)
                ledger.hold(near <= sheet.half_division + 0.01, f"leg {leg['number']}: {told}")


def _towards(plan: Plan, ledger: Ledger, text: str, due: float, axis: int) -> None:
    """Hold that a place is told by its distance, towards a mark that lies on its side."""
    assert plan.sheet is not None
    _printed(plan.sheet, ledger, f"place {text}", text, abs(due))
    name = text.partition(" towards ")[2]
    if not name:
        return
    setting = plan.record.settings[-1]
    corners = {f"corner {name}": at for name, at in setting.reference.points.items()}
    points = {**corners, **setting.reference.points, **setting.points}
    at = points.get(name)
    ledger.hold(at is not None, f"{text} is towards {name}, which is nowhere")
    if at is not None:
        own = plan.record.own.own(at)[axis]
        ledger.hold(own * due > 0, f"{text}: {name} lies at {own:.1f}, the place at {due:.1f}")


def _saw_rows(plan: Plan) -> Iterator[tuple[Sheet, SawRow, Straight]]:
    """Yield each row of the saw table with each of its cuts."""
    if plan.sheet is None:
        return
    named = {cut.label: cut for cut in plan.record.straight}
    for row in plan.sheet.saws:
        for label in row.labels:
            if label in named and row.line:
                yield plan.sheet, row, named[label]


def _ends(figures: list[Figure], start: End, end: End) -> list[tuple[Figure, End]]:
    """Return the figures of a line, each with the end that it is of."""
    ends = [start, end]
    # an end on another edge has both figures; the order is that of the other one
    axis = next((f.axis for f in figures if f.axis != "both"), "both")
    if axis == "along":
        ends.sort(key=lambda e: e.square)
    elif axis == "square":
        ends.sort(key=lambda e: e.along)
    held = figures if len(figures) > 1 else figures * 2
    return list(zip(held, ends, strict=False))


def _told(sheet: Sheet, figure: Figure) -> dict[str, float]:
    """Return what a figure says of an end, by axis."""
    if figure.axis == "both":
        along, square = figure.text.split("|")
        return {"along": sheet.mm(along), "square": sheet.mm(square)}
    return {figure.axis: sheet.mm(figure.text)}


def _place(sheet: Sheet, figure: Figure, end: End, reference: Reference) -> Pair:
    """Return where a figure puts an end: its other offset is that of the edge it lies on."""
    told = _told(sheet, figure)
    if figure.axis in ("along", "square", "both"):
        place = told.get("along", end.along), told.get("square", end.square)
        return reference.frame.out(place)
    corner = reference.points[figure.axis]
    return add(corner, unit(sub(end.at, corner)), told[figure.axis])


def _leg(sheet: Sheet, ledger: Ledger, row: SawRow, cut: Straight) -> None:
    """Hold that a corner cut is told no farther from its corner than it lies."""
    k = row.labels.index(cut.label) if len(row.line) > 1 else 0
    across = abs(cut.end.along - cut.start.along)
    due = cut.leg if cut.leg is not None else across
    told = sheet.mm(row.line[k].text)
    ledger.hold(
        due - 2 * sheet.half_division - 0.02 <= told <= due + 0.05,
        f"{cut.label}: {told:.1f} each way, it is {due:.1f}",
    )


def _printed(sheet: Sheet, ledger: Ledger, what: str, text: str, due: float) -> None:
    ledger.near(what, sheet.mm(text), due, sheet.half_division + 0.01)
