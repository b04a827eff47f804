"""What a browser measures of drawings: the box of every text, and what it meets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from panelwright.layout.drawing.svg import to_svg

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from panelwright.layout.drawing.scene import Scene

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
