"""Facets, curve and lipping as steps at the bench."""

from __future__ import annotations

from ..geometry.tolerance import SAME_FIGURE
from ..marking.step import Figure, Step
from .cut import CurveCut, Facet

_TITLES = {"jigsaw": "Jigsaw", "router": "Router", "hand": "To the line by hand"}

SHOWS = 0.8
"""An oval template that is out by more than this would be seen, mm (our choice)."""


def facets_step(facets: tuple[Facet, ...], face: str) -> Step:
    """Return the straight cuts off the corners."""
    legs = [facet.leg for facet in facets if facet.leg is not None]
    figures: list[Figure] = []
    if len(legs) == len(facets) and max(legs) - min(legs) <= SAME_FIGURE:
        words = "{leg} along both edges from each corner of the blank, where the saw lines cross"
        figures.append(Figure("leg", legs[0]))
    else:
        words = "from mark to mark on the edges of the blank, {clear} outside the curve at 45°"
        figures.append(Figure("clear", facets[0].clear))
    if facets[0].guide_offset is not None:
        words += "; guide {guide} inside the line"
        figures.append(Figure("guide", facets[0].guide_offset))
    words += f"; {face}; hold the falling piece, do not let it hang."
    return Step("Facets", words, tuple(figures), "facets")


def curve_step(cut: CurveCut, face: str) -> Step:
    """Return a cut along the outline."""
    figures: list[Figure] = []
    words = []
    for i, swung in enumerate(cut.radii, start=1):
        name = f"radius_{i}"
        figures.append(Figure(name, swung.radius))
        about = f"{{{name}}} about {', '.join(swung.centres)}"
        if swung.to_far_edge is not None:
            figures.append(Figure(f"far_{i}", swung.to_far_edge))
            about += (
                f", pin to the near edge of the bit ({{far_{i}}} to its far edge, which is what a "
                "hole is measured to)"
            )
        words.append(about)
    if cut.tool == "jigsaw":
        words = [f"{face}, a fine blade", "{allowance} outside the line", *words]
        figures.append(Figure("allowance", cut.allowance))
    elif cut.tool == "router":
        more, held = _router_words(cut)
        words += more
        figures += held
    else:
        words.append("{waste} stands outside the line")
        figures.append(Figure("waste", cut.most_waste))
    words += cut.notes
    return Step(_TITLES[cut.tool], "; ".join(words) + ".", tuple(figures), cut.tool)


def _router_words(cut: CurveCut) -> tuple[list[str], list[Figure]]:
    words = ["to the line", f"{cut.passes} passes {{depth}} deep"]
    figures = [Figure("depth", cut.depth, at_least=True)]
    template = cut.template
    if template is None:
        return words, figures
    side = "inside" if template.offset > 0 else "outside"
    where = f"{{offset}} {side} the line" if abs(template.offset) > SAME_FIGURE else "on the line"
    words.append(
        f"where it follows a template, with a bush or bearing of {{follower}} on a bit of "
        f"{{cutter}}, that stands {where}: {{long}} by {{wide}}, the true parallel"
    )
    figures += [
        Figure("offset", abs(template.offset)),
        Figure("follower", template.follower),
        Figure("cutter", template.cutter),
        Figure("long", template.length),
        Figure("wide", template.width),
    ]
    if template.off_oval > SHOWS:
        words.append("an oval drawn anew to that size would be wrong by up to {off_oval}")
        figures.append(Figure("off_oval", template.off_oval))
    return words, figures
