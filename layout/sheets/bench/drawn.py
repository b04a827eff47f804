"""Drawings set into the page: in its own ink and paper, so that they follow it into the dark."""

from __future__ import annotations

import re

from ...drawing import layers
from ...drawing.scene import Scene
from .both import Drawn

_IDS = re.compile(r' id="[^"]*"|<title>[^<]*</title>\s*')
_COLOUR = re.compile(r'(fill|stroke)="#[0-9a-f]{6}"')
_PAPER = f'="({layers.WOOD.colour}|{layers.PAPER.colour})"'


def drawn(scene: Scene) -> Drawn:
    """Return a scene as text for the page: it has no ids, and no colour but ink and paper."""
    from ...drawing.svg import to_svg

    svg = to_svg(scene)
    svg = _IDS.sub("", svg[svg.index("<svg") :]).replace("  ", "")
    svg = re.sub(_PAPER, '="var(--paper)"', svg)
    svg = _COLOUR.sub(r'\1="currentColor"', svg)
    return Drawn(svg, scene.title, scene.frame.height)
