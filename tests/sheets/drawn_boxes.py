"""What a browser measures of drawings: the box of every text, and what it meets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from readers import on

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.kit.labels import points_along
from panelwright.layout.drawing.scene import Scene, Stroke, Text, text_box
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.point import Point

if TYPE_CHECKING:
    from playwright.sync_api import Browser

MEETS = """
() => [...document.querySelectorAll("svg")].map((svg) => {
  const shrunk = (r) => ({
    l: r.left + 0.4, r: r.right - 0.4, t: r.top + 0.4, b: r.bottom - 0.4 });
  const meet = (p, q) => p.l < q.r && q.l < p.r && p.t < q.b && q.t < p.b;
  const texts = [...svg.querySelectorAll("text")].map((text) => {
    // of a text's line box only the letters count: from the height of a capital to the baseline
    const box = text.getBoundingClientRect(), size = box.height;
    const letters = { left: box.left, right: box.right,
      top: box.top + 0.2 * size, bottom: box.bottom - 0.2 * size };
    return [text.textContent, shrunk(text.hasAttribute("transform") ? box : letters)];
  });
  const view = svg.getBoundingClientRect();
  const found = [];
  texts.forEach(([words, box], i) => {
    for (const [other, more] of texts.slice(i + 1))
      if (meet(box, more)) found.push(`${words} meets ${other}`);
    if (box.l < view.left - 0.5 || box.r > view.right + 0.5
        || box.t < view.top - 0.5 || box.b > view.bottom + 0.5) found.push(`${words} runs out`);
  });
  return found;
})
"""


def meetings(browser: Browser, scenes: Sequence[Scene]) -> list[list[str]]:
    """Return of each drawing which texts meet another, or leave the drawing."""
    page = browser.new_page()
    svgs = (to_svg(scene) for scene in scenes)
    page.set_content("".join(svg[svg.index("<svg") :] for svg in svgs))
    found: list[list[str]] = page.evaluate(MEETS)
    page.close()
    return found


def touched(scene: Scene) -> list[str]:
    """Return which words of a drawing lie on a ring that is not theirs, or on the finished edge."""
    rings = [
        stroke.path.bounds
        for stroke in on(scene, layers.BENCH_MARK)
        if isinstance(stroke, Stroke) and len(stroke.path.segments) == 2
    ]
    edge = points_along(
        (s.path for s in on(scene, layers.BENCH_FINISH) if isinstance(s, Stroke)), 0.3
    )
    found = []
    for text in (item for group in scene.groups for item in group.items if isinstance(item, Text)):
        box = text_box(text)
        letters = Bounds(box.left, text.at.y, box.right, box.top)
        if letters.grown(0.5 * layers.BENCH_FINISH.line_width - 0.1).holds_points(edge).any():
            found.append(f"{text.words} lies on the edge")
        for ring in rings:
            m = ring.middle
            near = Point(
                min(max(m.x, letters.left), letters.right),
                min(max(m.y, letters.bottom), letters.top),
            )
            own = m.distance_to(letters.middle) < 1.0
            if not own and near.distance_to(m) < ring.width / 2 - 0.1:
                found.append(f"{text.words} lies on a ring")
    return found
