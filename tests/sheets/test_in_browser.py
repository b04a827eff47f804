"""The bench sheet in a browser: on paper, on a phone, by keyboard, for a screen reader."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from drawn_boxes import meetings, touched
from kept import plan_of, sample_folders
from random_jobs import random_job, toml_of

from panelwright.layout.drawing.scene import Scene
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel import Defect, Spoils, round_place
from panelwright.layout.plan.plan import make_plan
from panelwright.layout.sheets.bench.page import bench_sheet
from panelwright.layout.sheets.pictures.lying.scene import lying_scene
from panelwright.layout.sheets.plan_drawing import plan_scene
from panelwright.layout.units import Units
from panelwright.layout.words.saw_lines import lying_of, rounds_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.heavy

SAMPLES = {folder.name: folder for folder in sample_folders()}

PAPERS = {"A4": (210.0, 297.0), "letter": (215.9, 279.4)}


@pytest.fixture(scope="module", params=list(SAMPLES))
def path(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the sheet of a sample."""
    held = tmp_path_factory.mktemp(request.param) / "bench-sheet.html"
    held.write_text(bench_sheet(plan_of(SAMPLES[request.param])), encoding="utf-8")
    return held


@pytest.fixture
def page(browser: Browser, path: Path) -> Iterator[Page]:
    """Open it, and hold that it asks for nothing."""
    context = browser.new_context()
    opened = context.new_page()
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    opened.goto(path.as_uri())
    yield opened
    assert set(asked) == {path.as_uri()}
    context.close()


def printed(page: Page) -> pypdfium2.PdfDocument:
    """Return the pages as they are printed, on the sheet's own paper."""
    return pypdfium2.PdfDocument(io.BytesIO(page.pdf(prefer_css_page_size=True)))


def words(document: pypdfium2.PdfDocument, number: int) -> str:
    """Return the words of a page."""
    return str(document[number].get_textpage().get_text_range())


@pytest.mark.parametrize("units", ["own", "other"])
def test_the_first_page_is_one_page_and_all_are_few(page: Page, units: str) -> None:
    """On its own paper: the first page ends with its foot; a plain table has at most six."""
    if units == "other":
        page.check("#units")
    document = printed(page)
    plain = "lab-bench" in page.url  # a table on four legs, without lipping or a second setting out
    assert len(document) <= (6 if plain else 8)
    assert "The work step by step" in words(document, 0)
    assert "The work step by step" not in words(document, 1)
    paper = "letter" if document[0].get_size()[1] < 800 else "A4"
    wide, high = (side * 72 / 25.4 for side in PAPERS[paper])
    assert document[0].get_size() == pytest.approx((wide, high), abs=1.0)


def test_ticks_and_units_stay(page: Page) -> None:
    """A tick and the unit survive a reload; clearing asks, and clears."""
    page.check("[data-tick=line-1] >> visible=true")
    page.check("#units")
    page.reload()
    assert page.is_checked("#units")
    assert page.is_checked("[data-tick=line-1] >> visible=true")
    page.on("dialog", lambda dialog: dialog.accept())
    page.click("#clear")
    assert not page.is_checked("[data-tick=line-1] >> visible=true")


def test_units_switch_at_a_touch(page: Page) -> None:
    """What is shown is in the other unit then, and nothing is shown in both."""
    before = page.inner_text("main")
    assert ("all figures in mm" in before) != ("all figures in inches" in before)
    page.check("#units")
    after = page.inner_text("main")
    assert ("all figures in mm" in before) == ("all figures in inches" in after)
    assert ("all figures in mm" in after) != ("all figures in inches" in after)


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("width", [320, 1100])
def test_nothing_runs_over_and_axe_finds_nothing(
    browser: Browser, path: Path, width: int, dark: bool
) -> None:
    """Neither on a phone of 320 px nor on a wide screen, light or dark, folded or open."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    scheme = "dark" if dark else "light"
    context = browser.new_context(viewport={"width": width, "height": 740}, color_scheme=scheme)
    page = context.new_page()
    page.goto(path.as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = axe.run(page)
    assert found.violations_count == 0, found.generate_report()
    context.close()


def test_cautions_are_folded_on_a_phone_alone(browser: Browser, path: Path) -> None:
    """The drawing begins on the first screen of a phone; on paper and wide all cautions stand."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(path.as_uri())
    caution = page.locator(".care li >> visible=true")
    assert caution.count() == 0
    top = page.locator(".ph >> visible=true").bounding_box()
    assert top is not None and top["y"] + top["height"] < 740
    page.click(".care summary >> visible=true")
    assert caution.count() > 0
    page.check(".care input >> visible=true")
    assert "1 of" in page.inner_text(".care summary >> visible=true")
    page.click(".care summary >> visible=true")
    document = printed(page)
    page.set_viewport_size({"width": 1100, "height": 740})
    wide = caution.all_inner_texts()
    assert wide
    on_paper = words(document, 0)
    assert all(re.split("[:?]", told.strip("! \n"))[0] in on_paper for told in wide)
    context.close()


def test_every_box_is_reached_by_keyboard(page: Page) -> None:
    """Tab goes through switch, buttons and boxes in their order, and a space ticks."""
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "units"
    for _ in range(4):
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.tick") is not None
    page.keyboard.press("Space")
    assert page.evaluate("document.activeElement.checked")


def holds(browser: Browser, scenes: Sequence[Scene]) -> None:
    """Hold that no text meets another, a ring or the finished edge, or leaves its drawing."""
    assert meetings(browser, scenes) == [[]] * len(scenes)
    assert [touched(scene) for scene in scenes] == [[]] * len(scenes)


def test_no_text_of_the_first_page_meets_another(browser: Browser) -> None:
    """On the panel as it lies: up to 20 defects, mm and inches, at any height it is given."""
    holds(browser, [crowded(Random(i)) for i in range(24)])


@pytest.mark.by_hand
def test_no_text_meets_another_in_a_thousand_drawings(browser: Browser) -> None:
    """The same of a thousand; and none lies on the finished edge."""
    for start in range(0, 1000, 50):
        holds(browser, [crowded(Random(i)) for i in range(start, start + 50)])


@pytest.mark.parametrize("number", [10, 12])
def test_no_text_of_a_random_plan_meets_another(browser: Browser, number: int) -> None:
    """A panel, a top and legs of any kind: its first page in mm and inches, and its plan."""
    drawn = [*whole(number)]
    assert drawn
    holds(browser, drawn)


@pytest.mark.by_hand
@pytest.mark.parametrize("start", range(0, 1000, 50))
def test_no_text_meets_another_in_a_thousand_plans(browser: Browser, start: int) -> None:
    """The same of every plan of a thousand random jobs; of some nothing fits."""
    for number in range(start, start + 50):
        holds(browser, [*whole(number)])


def whole(number: int) -> Iterator[Scene]:
    """Yield what is drawn of a random plan with up to 20 defects, nothing where no top fits."""
    rng = Random(number)
    job = random_job(rng, defects=rng.randrange(21))
    try:
        plan = make_plan(read_job(toml_of(job)))
    except LayoutError:
        return
    for units in (Units.MM, Units.IN):
        told = replace(plan, job=replace(plan.job, units=units))
        tallest = rng.uniform(54, 100) + (15 if plan.cuts.again else 0)
        yield lying_scene(told, lying_of(told), rounds_of(told), tallest=tallest)
        yield plan_scene(told, mirrored=units is Units.IN)


def crowded(rng: Random) -> Scene:
    """Return the first page's drawing of a sample with other defects, units and room."""
    plan = plan_of(SAMPLES[rng.choice(sorted(SAMPLES))])
    box = plan.job.panel.boundary.bounds
    kinds = ({Spoils.SHOWING}, {Spoils.CUTTING}, {Spoils.BEARING})
    defects = tuple(
        Defect(
            f"knot {i}",
            round_place(
                Point(
                    rng.uniform(box.left + 30, box.right - 30),
                    rng.uniform(box.bottom + 30, box.top - 30),
                ),
                rng.uniform(8, 120),
            ),
            frozenset(rng.choice(kinds)),
        )
        for i in range(rng.randrange(21))
    )
    panel = replace(plan.job.panel, defects=defects)
    units = rng.choice([Units.MM, Units.IN])
    plan = replace(plan, job=replace(plan.job, panel=panel, units=units))
    tallest = rng.uniform(54, 100) + (15 if plan.cuts.again else 0)
    return lying_scene(plan, lying_of(plan), rounds_of(plan), tallest=tallest)


def test_no_text_of_the_plan_meets_another(browser: Browser) -> None:
    """On the paper that the job names, from either face, with everything on it."""
    plans = [plan_of(folder) for folder in SAMPLES.values()]
    scenes = [plan_scene(plan, mirrored=face) for plan in plans for face in (False, True)]
    assert meetings(browser, scenes) == [[]] * len(scenes)
    for plan, scene in zip(plans, scenes[::2], strict=True):
        paper = plan.job.template.paper
        assert (scene.frame.width, scene.frame.height) == (paper.length, paper.width)
