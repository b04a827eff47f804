"""How long a template takes: run by hand, on a quiet machine.

Prints the best of several runs, after everything is imported, in processor seconds: the choice of
sheets for an oval with feet, the drawing in one piece, 24 tiles as scenes, and the same as a PDF.
"""

from __future__ import annotations

from collections.abc import Callable
from time import process_time

from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Oval
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.sheets.template_drawing import template_drawing
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import A4
from panelwright.layout.template.portions import Proposal, proposed
from panelwright.layout.template.wish import TemplateWish

RUNS = 7
TILES = 24


def content(length: float, width: float) -> TemplateContent:
    """Return an oval with a rough-cut line, four feet and their marks, mm."""
    top = Oval(length, width)
    feet = [Point(sx * length * 0.3, sy * width * 0.25) for sx in (1, -1) for sy in (1, -1)]
    return TemplateContent(
        "Stage board oval",
        top.path(),
        rough=top.parallel(3.0),
        marks=tuple(TemplateMark(f"leg {n}", at, 3.5, "hole") for n, at in enumerate(feet, 1)),
        feet=tuple(circle(at, 30) for at in feet),
        symmetric_x=True,
        symmetric_y=True,
    )


def of_tiles(count: int) -> tuple[TemplateContent, Proposal]:
    """Return the first whole oval that takes so many sheets, growing by 20 mm."""
    for length in range(1000, 4000, 20):
        shown = content(length, length * 0.5)
        found = proposed(shown, TemplateWish(A4, portion="whole"))
        if found.sheets >= count:
            return shown, found
    raise SystemExit(f"no oval takes {count} sheets")


def best(work: Callable[[], object]) -> float:
    """Return the least processor time of several runs, s."""
    times = []
    for _ in range(RUNS):
        before = process_time()
        work()
        times.append(process_time() - before)
    return min(times)


if __name__ == "__main__":
    door = content(1485, 743)
    shown, found = of_tiles(TILES)
    pages = template_pages(shown, found)
    taken = best(lambda: proposed(door, TemplateWish(A4)))
    print(f"choice of sheets, oval with feet    {taken:.3f} s")
    print(f"drawing in one piece                {best(lambda: template_drawing(door)):.3f} s")
    print(f"{found.sheets} tiles as scenes                   "
          f"{best(lambda: template_pages(shown, found)):.3f} s")  # fmt: skip
    print(f"the same written as PDF             {best(lambda: to_pdf(pages, 'template')):.3f} s")
    print("the last two together are meant to stay below 0.1 s")
