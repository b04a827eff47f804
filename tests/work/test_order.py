"""The order of the whole work: its rules hold for every job, and its days follow from its waits."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from pieces import aged_job, piece_of, table, top_alone

from panelwright.layout.legs.wish import Fixing
from panelwright.layout.panel import Coat, Mend
from panelwright.layout.words.order import order_words, step_words, together
from panelwright.layout.work.deeds import Day, Deed, days_of
from panelwright.layout.work.order import Task, WorkOrder, work_order
from panelwright.layout.work.piece import Piece
from panelwright.layout.work.wish import WorkWish

DRY = (Deed.SAND, Deed.FLATTEN, Deed.CUT, Deed.SHORTEN, Deed.PROFILE)
"""What throws dust."""

COATS = (Deed.UNDERSIDE, Deed.COAT)

GLUED_IN = (Mend.PLUG, Mend.KEY, Mend.PATCH)


def deeds(order: WorkOrder) -> list[Deed]:
    """Return what is done, in order."""
    return [task.deed for task in order.tasks]


def broken(piece: Piece, tasks: Sequence[Task]) -> list[str]:
    """Return the rules that an order breaks; told from the tasks and the panel alone."""
    told = []
    done = [task.deed for task in tasks]
    panel = piece.panel
    leaded = {Coat.OIL, Coat.SHELLAC, Coat.VARNISH, Coat.PAINT}
    old = panel.year is None and (panel.was is None or panel.was.value != "new")
    old = old or (panel.year is not None and panel.year < 1992)
    lead = old and (not panel.finish or bool(leaded & set(panel.finish)))
    clean = False
    for i, task in enumerate(tasks):
        fitted = [t.of for t in tasks[:i] if t.deed is Deed.FIT]
        if task.deed is Deed.LIP and Deed.LIP not in fitted:
            told.append("a lipping is glued before it is dry-fitted")
        glued = any(mend.how in GLUED_IN for mend in piece.cuts.mends)
        if task.deed is Deed.MEND and glued and Deed.MEND not in fitted:
            told.append("a mend is glued before it is dry-fitted")
        held = piece.fixing in (Fixing.GLUED, Fixing.SCREWED)
        if task.deed is Deed.LEGS and held and Deed.LEGS not in fitted:
            told.append("legs are fixed before they are dry-fitted")
        if task.deed in COATS:
            since = next(
                t.deed for t in reversed(tasks[:i]) if t.deed in (*DRY, Deed.RUB, Deed.DUST)
            )
            if since is not Deed.DUST:
                told.append("a coat goes on before the dust is off")
        if task.deed is Deed.STRIP:
            clean = clean or task.wet
        if task.deed in DRY and lead and not clean:
            told.append("a coat that may hold lead is worked dry")
    if Deed.LEGS in done and Deed.UNDERSIDE in done:
        last = max(i for i, deed in enumerate(done) if deed is Deed.UNDERSIDE)
        if last > done.index(Deed.LEGS):
            told.append("legs stand on an underside that is not coated")
    if lead and done.index(Deed.TEST) > min(done.index(d) for d in DRY if d in done):
        told.append("lead is tested for too late")
    if done.index(Deed.MARK) > done.index(Deed.CUT) or done.index(Deed.SAND) < done.index(Deed.CUT):
        told.append("marks, cuts and sanding are out of order")
    return told


def held_for(number: int) -> None:
    """Hold the order of a random job to every rule, and its words and days to their sense."""
    job = aged_job(number)
    piece = piece_of(job)
    order = work_order(piece, job.work)
    assert broken(piece, order.tasks) == []
    days = [task.day.most for task in order.tasks] + [order.ready.most]
    assert days == sorted(days)
    assert all(task.day.least <= task.day.most for task in order.tasks)
    assert 0 < order.least <= order.most
    assert [t for held in together(order.tasks) for t in held] == list(order.tasks)
    assert all(cell for row in order_words(order, 8.0).tables[0].rows for cell in row)
    for task in order.tasks:
        step_words(task, faces=piece.finish.faces)


@pytest.mark.parametrize("number", range(6))
def test_the_order_keeps_its_rules(number: int) -> None:
    """Nothing is glued before it is dry-fitted, no coat goes on dust, no lead is sanded dry."""
    held_for(number)


@pytest.mark.by_hand
@pytest.mark.parametrize("number", range(6, 206))
def test_the_order_of_two_hundred_jobs_keeps_its_rules(number: int) -> None:
    """The same over jobs of every build, coat, age, fixing and finish."""
    held_for(number)


def test_a_broken_order_is_noticed() -> None:
    """Each rule fails where the order that it speaks of is turned round."""
    piece = piece_of(table("paint", 1960))
    tasks = list(work_order(piece).tasks)
    done = [task.deed for task in tasks]
    assert broken(piece, tasks) == []

    def swapped(one: Deed, other: Deed) -> list[str]:
        i, j = done.index(one), len(done) - 1 - done[::-1].index(other)
        turned = [*tasks]
        turned[i], turned[j] = tasks[j], tasks[i]
        return broken(piece, turned)

    assert "legs are fixed before they are dry-fitted" in swapped(Deed.FIT, Deed.LEGS)
    assert "legs stand on an underside that is not coated" in swapped(Deed.LEGS, Deed.UNDERSIDE)
    assert "a coat that may hold lead is worked dry" in swapped(Deed.STRIP, Deed.CUT)
    assert "lead is tested for too late" in swapped(Deed.TEST, Deed.SAND)
    assert "a coat goes on before the dust is off" in broken(
        piece, [task for task in tasks if task.deed is not Deed.DUST]
    )


def test_an_old_coat_guards_the_face_until_it_is_sawn() -> None:
    """Without lead it is stripped after sawing, with lead before; bare wood is not stripped."""
    late = deeds(work_order(top_alone("wax", 2010)))
    assert late.index(Deed.CUT) < late.index(Deed.STRIP) < late.index(Deed.SAND)
    assert Deed.TEST not in late
    early = work_order(top_alone("paint", 1960))
    done = deeds(early)
    assert done.index(Deed.TEST) < done.index(Deed.STRIP) < done.index(Deed.MARK)
    assert done.count(Deed.TEST) == 2  # the bare wood once more
    assert next(t for t in early.tasks if t.deed is Deed.STRIP).wet
    assert Deed.STRIP not in deeds(work_order(top_alone("none", 1960)))


def test_steps_that_a_job_does_not_need_are_left_out() -> None:
    """Screwed legs are not masked, oil raises no grain, what stays bare gets no coat."""
    screwed = deeds(work_order(piece_of(table(fixing="screwed"))))
    assert Deed.MASK not in screwed and Deed.RAISE not in screwed
    assert Deed.MASK in deeds(work_order(piece_of(table(fixing="glued"))))
    watered = work_order(top_alone(coat="water-based varnish"))
    assert Deed.RAISE in deeds(watered)
    assert deeds(watered).count(Deed.RUB) == 4  # between three coats on either side
    bare = deeds(work_order(top_alone(coat="none")))
    assert not {Deed.UNDERSIDE, Deed.COAT, Deed.DUST} & set(bare)
    alone = deeds(work_order(top_alone()))
    assert not {Deed.LEGS, Deed.FIT, Deed.LEVEL} & set(alone)


def test_days_are_counted_by_hand() -> None:
    """Eight hours fill a day; a wait of 12 h runs through the night, one of 48 h over two."""
    work = [((6, 6), (0, 0)), ((4, 4), (12, 12)), ((1, 1), (48, 48)), ((1, 1), (0, 0))]
    # day 1: 6 h and 2 h; day 2: 2 h, dry at 14 h, so day 3: 1 h, then two days: day 5
    assert [d.most for d in days_of(work, 8.0)] == [1, 1, 3, 5, 5]
    # three hours a day: 6 h take days 1 and 2, 4 h days 3 and 4, the rest a day later each time
    assert [d.most for d in days_of(work, 3.0)] == [1, 3, 5, 7, 7]
    assert days_of([((1, 9), (0, 0))], 8.0)[-1] == Day(1, 2)


def test_a_makers_own_hours_go_before_common_practice() -> None:
    """What a job says of a step is the whole of it; a pace is for one of what it is counted by."""
    piece = piece_of(table())
    usual = work_order(piece)
    area = piece.sanded / 2
    each = [task for task in usual.tasks if task.deed is Deed.COAT]
    assert [t.most for t in each] == pytest.approx([Deed.COAT.most * area] * 2)
    own = work_order(piece, WorkWish(hours={"coat the top": [1, 3]}))
    assert [(t.least, t.most) for t in own.tasks if t.deed is Deed.COAT] == [(0.5, 1.5)] * 2
    quick = work_order(piece, WorkWish(pace={"coat the top": 0.1}))
    assert [t.most for t in quick.tasks if t.deed is Deed.COAT] == pytest.approx([0.1 * area] * 2)
    kept = WorkWish(pace={"sand": [1, 2], "legs": 1}, day=3)
    both = WorkWish(pace={"sand": [4, 5]}).over(kept)
    assert both.day == 3
    assert dict(both.pace) == {"sand": (4, 5), "legs": (1, 1)}
