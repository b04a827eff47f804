"""The order of the bench: cautions, marks, cuts, edge, legs, each before what needs it."""

from __future__ import annotations

from checker.ledger import Ledger
from checker.plan import Plan


def cuts_come_in_the_order_of_the_bench(plan: Plan, ledger: Ledger) -> None:
    """Straight cuts in their order, then corners, then the jigsaw, then the router or plane."""
    about = list(plan.order)
    if not about:
        return
    labels = [cut.label for cut in plan.record.straight if not cut.is_corner_cut]
    ledger.hold([a for a in about if a in labels] == labels, f"cuts come as {about}")
    later = ["Cut off the corners", "Jigsaw", "Rout to", "To the line", "Lipping"]
    held = [a for a in about if a in later]
    ledger.hold(held == [a for a in later if a in held], f"curves come as {held}")
    straight = [i for i, a in enumerate(about) if a in labels]
    curved = [i for i, a in enumerate(about) if a in later]
    ledger.hold(not straight or not curved or max(straight) < min(curved), f"mixed: {about}")
    names = {"jigsaw": "Jigsaw", "router": "Rout to", "hand": "To the line"}
    tools = {names[cut.tool] for cut in plan.record.curves}
    ledger.hold(tools <= set(about), f"no step for {tools - set(about)}")


def a_slab_is_shortened_flattened_rested_and_marked_again(plan: Plan, ledger: Ledger) -> None:
    """Rough length, flatten, rest, mark again, then every cut to a line."""
    about = list(plan.order)
    if plan.sheet is None:
        return
    ledger.hold(("Flatten" in about) == ("Rest" in about), f"flatten without rest: {about}")
    if "Flatten" not in about:
        if plan.job.made_thickness < plan.job.thickness:
            flat = [i for i, s in enumerate(plan.sheet.steps) if "flat" in s.text.lower()]
            marks = [
                i for i, s in enumerate(plan.sheet.steps) if s.title.startswith("Set out the marks")
            ]
            ledger.hold(bool(flat) and flat[0] < marks[0], "it is never told to be flattened")
        return
    place = {name: i for i, name in enumerate(about)}
    for cut in plan.record.straight:
        if cut.label in place and "Flatten" in place:
            early = place[cut.label] < place["Flatten"]
            ledger.hold(early == (cut.kind == "to rough length"), f"{cut.label}: {about}")
    if {"Flatten", "Rest"} <= set(place):
        ledger.hold(place["Flatten"] < place["Rest"], f"rested before it is flattened: {about}")
    ledger.hold(len(plan.record.settings) == 2, "a slab is not marked again")


def what_frees_most_comes_first(plan: Plan, ledger: Ledger) -> None:
    """A cut that frees the good part comes before those to a line."""
    kinds = [cut.kind for cut in plan.record.straight]
    freeing = [i for i, kind in enumerate(kinds) if kind == "frees the good part"]
    others = [
        i for i, kind in enumerate(kinds) if kind in ("end", "long edge", "side", "corner cut")
    ]
    ledger.hold(not freeing or not others or max(freeing) < min(others), f"cuts come as {kinds}")


def the_sheet_keeps_the_order(plan: Plan, ledger: Ledger) -> None:
    """Metal and marks come before cuts, the edge before legs, and steps are numbered through."""
    sheet = plan.sheet
    if sheet is None:
        return
    steps = [step for step in sheet.steps if step.number]
    numbers = [int(step.number) for step in steps]
    ledger.hold(numbers == list(range(1, len(steps) + 1)), f"steps are numbered {numbers}")
    titles = [step.title for step in steps]
    order = ["Metal", "Set out the marks", "Check before", "Draw the saw lines", "Saw line",
             "Jigsaw", "Rout to", "Lipping", "Set out the legs"]  # fmt: skip
    if len(plan.record.settings) > 1:  # a slab is sawn to rough length before
        order = [title for title in order if title not in ("Draw the saw lines", "Saw line")]
    at = [next((i for i, t in enumerate(titles) if t.startswith(start)), None) for start in order]
    held = [i for i in at if i is not None]
    ledger.hold(held == sorted(held), f"the sheet's order is {titles}")
    if plan.record.legs is not None:
        ledger.hold(any(t.startswith("Set out the legs") for t in titles), "legs have no step")
    glued = next((i for i, t in enumerate(titles) if "Glue the legs on" in t), None)
    dry = next((i for i, t in enumerate(titles) if "dry" in t.lower()), None)
    ledger.hold(glued is None or dry is None or dry <= glued, "adhesive comes before the dry fit")


def every_line_of_the_record_is_on_the_sheet(plan: Plan, ledger: Ledger) -> None:
    """Each straight cut has one row on the first page or behind it, and is sawn in one step."""
    if plan.sheet is None:
        return
    rows = [label for row in plan.sheet.saws for label in row.labels]
    for cut in plan.record.straight:
        ledger.hold(rows.count(cut.label) == 1, f"{cut.label} has {rows.count(cut.label)} rows")
        if not cut.is_corner_cut:
            told = plan.order.count(cut.label)
            ledger.hold(told == 1, f"{cut.label} is sawn in {told} steps")
