"""A small picture of a panel for a terminal, in plain signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from ..layout.fit.found import Fit
    from ..layout.geometry.placement import Points
    from ..layout.geometry.point import Point
    from ..layout.geometry.polygon import Region
    from ..layout.plan.job import Job

ACROSS = 48
"""Signs of the longest row; with its figures it stays within a terminal of 80."""

MOST_ROWS = 14

SIGN_SHAPE = 2.0
"""How many times as high as wide a sign of a terminal is, nearly."""

WOOD, TOP = ".", "o"


def sketch(job: Job, fit: Fit | None = None) -> list[str]:
    """Return the panel of a job in rows: its wood and corners, defects by their numbers, a top.

    A row more tells how long and wide it is, and what the signs stand for.
    """
    import numpy as np

    from ..layout.geometry.polygon import Region
    from ..layout.panel.edges import lettered

    panel, tape = job.panel, job.tape
    box = panel.boundary.bounds
    step = max(box.width / ACROSS, box.height / MOST_ROWS / SIGN_SHAPE)
    columns = max(1, round(box.width / step))
    rows = max(1, round(box.height / step / SIGN_SHAPE))
    xs = box.left + (np.arange(columns) + 0.5) * box.width / columns
    ys = box.top - (np.arange(rows) + 0.5) * box.height / rows
    cells = np.column_stack([np.tile(xs, rows), np.repeat(ys, columns)])
    signs = np.where(panel.region().holds_points(cells), WOOD, " ")
    if fit is not None:
        signs[Region.from_rings(fit.points()).holds_points(cells)] = TOP
    for number, defect in enumerate(panel.defects, 1):
        signs[_held(defect.extent, cells)] = str(number % 10)
    corners = lettered(panel)[1]
    for corner in corners:
        signs[_nearest(corner.point, cells)] = corner.name
    grid = signs.reshape(rows, columns)
    picture = [f"   {''.join(row).rstrip()}" for row in grid]
    size = f"{tape.figure(box.width)} × {tape.measure(box.height)}"
    told = [size, "corners by their letters"] if corners else [size]
    told += ["defects by their numbers"] if panel.defects else []
    return [*picture, f"   {'; '.join(told)}"]


def _held(place: Region, cells: Points) -> NDArray[np.bool_]:
    """Return which cells lie in a place; of one that holds no cell's middle, the nearest."""
    held = place.holds_points(cells)
    if not held.any():
        held[_nearest(place.bounds.middle, cells)] = True
    return held


def _nearest(point: Point, cells: Points) -> int:
    """Return the cell whose middle is nearest to a point."""
    import numpy as np

    return int(np.argmin(np.hypot(cells[:, 0] - point.x, cells[:, 1] - point.y)))
