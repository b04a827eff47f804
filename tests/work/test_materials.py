"""Materials: reckoned from geometry, beside what labels promise, less what is in the house."""

from __future__ import annotations

import itertools
import json
import math
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from kept import plan_of, sample_folders
from pieces import piece_of, table, top_alone

from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.units import Tape
from panelwright.layout.words.materials import materials_words
from panelwright.layout.work.items import GRITS, STEP, Printed, grits_between
from panelwright.layout.work.materials import Line, Materials, materials_of
from panelwright.layout.work.order import work_order
from panelwright.layout.work.piece import Piece
from panelwright.layout.work.wish import MaterialsWish

LABELS = {"hard-wax oil": (20, 28), "oil": (10, 20), "varnish": (9, 16), "stripper": (2.5, 6)}
"""m² a litre for one coat that labels give, from memory: 24 is common for hard-wax oil, 500 square
feet a US gallon (12.3 m² a litre) for varnish, 100 to 200 square feet a gallon for stripper."""


def listed(piece: Piece, **wish: object) -> Materials:
    """Return the materials of a piece."""
    return materials_of(piece, work_order(piece), MaterialsWish(**wish))  # type: ignore[arg-type]


def line_of(materials: Materials, name: str) -> Line | None:
    """Return the line of a material; None where it takes none."""
    return next((line for line in materials.lines if line.name == name), None)


@pytest.mark.parametrize("folder", sample_folders(), ids=lambda folder: folder.name)
def test_a_sample_takes_what_its_labels_say(folder: object) -> None:
    """Litres are between those of the best and the poorest label for its faces, edge and coats."""
    record = json.loads((folder / "expected" / "plan.json").read_text(encoding="utf-8"))  # type: ignore[operator]
    made, lines = record["made"], {line["name"]: line for line in record["materials"]["lines"]}
    outline, panel = made["outline"], record["job"]["panel"]
    thick = panel["flattened"] or panel["thickness"]
    area = (2 * outline["area"] + outline["perimeter"] * thick) / 1e6  # both faces and the edge
    finish = lines["finish"]
    coats = record["finish"]["coats"]
    poorest, best = LABELS[finish["kind"]]
    assert area * coats / best <= finish["need"] <= 1.1 * area * coats / poorest
    if "stripper" in lines:
        whole = lines["stripper"]["how"]["area"]
        poorest, best = LABELS["stripper"]
        assert whole / best <= lines["stripper"]["need"] <= 1.1 * whole / poorest


@pytest.mark.parametrize("folder", sample_folders(), ids=lambda folder: folder.name)
def test_paper_is_told_for_every_page(folder: Path) -> None:
    """As many sheets of paper as the template has pages: its cover and figures are pages too."""
    plan = plan_of(folder)
    told = line_of(plan.materials, "template paper")
    assert told is not None
    assert told.need == len(template_pages(plan.template, plan.sheets))
    assert isinstance(told.how, Printed)
    pages = template_pages(plan.template, plan.sheets, with_ordinates=False)
    assert replace(told.how, figures=False).need == len(pages)


def test_a_litre_is_reckoned_by_hand() -> None:
    """0.8 by 0.4 m, corners of 20, 26 thick: two coats at 24 m² a litre and a tenth, 0.0642 l."""
    corners = (4 - math.pi) * 0.02**2
    face, edge = 0.8 * 0.4 - corners, 2 * (0.76 + 0.36) + math.tau * 0.02
    area = 2 * face + edge * 0.026
    line = line_of(listed(top_alone()), "finish")
    assert line is not None
    assert line.need == pytest.approx(area * 2 / 24 * 1.1)
    assert line.need == pytest.approx(0.0642, abs=5e-5)


def test_what_is_given_goes_before_what_is_reckoned() -> None:
    """Need, have and price of the maker's: what is bought and costs follows from them."""
    piece = top_alone()
    wish = {
        "need": {"finish": 0.5, "grit 120": 3},
        "have": {"finish": 0.2, "grit 120": 5},
        "price": {"finish": 40, "grit 80": 0.6},
    }
    held = listed(piece, **wish)
    finish, fine, coarse = (line_of(held, n) for n in ("finish", "grit 120", "grit 80"))
    assert finish is not None and fine is not None and coarse is not None
    assert (finish.given, finish.need, finish.buy) == (True, 0.5, pytest.approx(0.3))
    assert finish.cost == Decimal("12.000")
    assert (fine.buy, fine.cost) == (0.0, None)
    assert coarse.cost == coarse.need * Decimal("0.6")
    assert held.cost == finish.cost + coarse.cost
    assert "grit 150" in held.unpriced and "grit 120" not in held.unpriced
    told = materials_words(held, Tape(), "EUR")
    rows = {row[0]: row for row in told.tables[0].rows}
    assert rows["hard-wax oil"][1:4] == ("0.50 l", "0.20 l", "0.30 l")
    assert "your figure" in rows["hard-wax oil"][-1]


def test_a_thicker_coat_and_a_poorer_label_take_more() -> None:
    """Coats and coverage of the job are heeded; no finish takes none."""
    piece = top_alone(coat="varnish")
    usual = line_of(listed(piece), "finish")
    assert usual is not None
    assert (usual.kind, usual.need) == ("varnish", pytest.approx(piece.sanded * 3 / 12 * 1.1))
    assert line_of(listed(top_alone(coat="none")), "finish") is None


def test_an_old_coat_takes_stripper_by_where_it_is_stripped() -> None:
    """Of the panel's faces before the saw, twice for paint; of the top's after it; of bare none."""
    paint, wax = listed(top_alone("paint", 1960)), listed(top_alone("wax"))
    first, after = line_of(paint, "stripper"), line_of(wax, "stripper")
    assert first is not None and after is not None
    assert first.need == pytest.approx(2 * 1.6 * 0.8 * 2 / 3 * 1.1)
    assert after.need == pytest.approx(2 * (0.8 * 0.4 - (4 - math.pi) * 0.02**2) / 3 * 1.1)
    assert line_of(listed(top_alone("none")), "stripper") is None


def test_what_holds_the_legs_is_counted() -> None:
    """Four screwed legs and two battens: their bolts, screws and pads; glued ones take glue."""
    piece = piece_of(table(fixing="screwed"))
    assert piece.table is not None
    held = listed(piece)
    names = [line.name for line in held.lines]
    assert "wood glue" not in names and "masking tape" not in names
    screws = line_of(held, "batten screws")
    assert screws is not None and screws.need == 3 * len(piece.table.battens)
    bolts, pads = line_of(held, "bolts"), line_of(held, "pads")
    assert bolts is not None and pads is not None
    assert (bolts.need, pads.need) == (4, 4)
    glued = listed(piece_of(table(fixing="glued")))
    glue, tape = line_of(glued, "wood glue"), line_of(glued, "masking tape")
    assert glue is not None and tape is not None
    # four legs of 60 by 60, 0.2 mm thick, a fifth more: 144 cm² × 0.02 cm × 1.2 = 3.456 ml
    assert glue.need == pytest.approx(3.456)
    assert tape.need == pytest.approx(4 * 0.24 * 1.1)
    assert line_of(glued, "bolts") is None


@pytest.mark.parametrize("first", [40, 60, 80, 120, 150])
@pytest.mark.parametrize("last", [150, 180, 220, 320])
def test_no_grit_is_far_from_the_one_before(first: int, last: int) -> None:
    """They rise from the first to the last, and none is more than half as fine again."""
    grits = grits_between(first, last)
    assert (grits[0], grits[-1]) == (first, last)
    assert set(grits) <= set(GRITS)
    assert all(a < b <= STEP * a for a, b in itertools.pairwise(grits))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("have = { finsh = 1 }", "did you mean finish"),
        ("have = 3", "is not a table"),
        ("need = { finish = -1 }", "is below 0"),
        ("price = { finish = -2 }", "what is owed to you is no cost"),
        ('price = { finish = "dear" }', "a sum of money"),
        ("coats = 0", 'write finish = "none"'),
        ('finish = "tar"', "is not known"),
        ("disc_area = 0", "is not above 0"),
    ],
)
def test_bad_materials_are_told_once(line: str, told: str) -> None:
    """Each names its key, its limit and what to write."""
    text = f"[panel]\noutline = {{ length = 900, width = 600 }}\n[materials]\n{line}\n"
    (found,) = look_over(text).problems
    assert found.key.startswith("materials.")
    assert told in found.message
    assert found.line == 4


def test_what_was_said_is_written_down_again() -> None:
    """A job with materials, hours and money comes back the same from its own file."""
    text = """
[panel]
outline = { length = 900, width = 600 }
[materials]
finish = "oil"
coverage = 12.5
have = { finish = 0.25, "grit 120" = 2 }
price = { finish = 38.9 }
[work]
day = 3
hours = { sand = [2, 3], photograph = 0.5 }
[money]
currency = "EUR"
rate = 39
overhead = 12.5
fee = 8
"""
    job = read_job(text)
    again = read_job(job.to_toml())
    assert (again.materials, again.work, again.money) == (job.materials, job.work, job.money)
    assert again.money.overhead == Decimal("0.125")
