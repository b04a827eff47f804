"""What is told of the old panel."""

from __future__ import annotations

from ..panel.panel import Panel


def made_of(panel: Panel) -> str:
    """Return build and material; a stand-in that it is only weighed by is no material of it.

    >>> from ..panel import Build, Kind, rectangular_outline
    >>> board = Panel(rectangular_outline(900, 600), 22, build=Build(Kind.VENEERED))
    >>> made_of(board)
    'veneered board'
    """
    build = panel.build.kind
    if not panel.material or panel.substance.name == build.usual_material:
        return build.value
    return f"{build.value}, {panel.substance.name}"
