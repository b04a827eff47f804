"""Points along many segments at once: a parallel of an oval alone is hundreds of arcs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..geometry.placement import Points
from ..geometry.segments import Arc, Line, Segment
from ..geometry.tolerance import ROUNDING


@dataclass(frozen=True, slots=True)
class PointsAlong:
    """Points on segments.

    Attributes
    ----------
    points : (n, 2) array
        mm.
    owner : (n,) array
        The number of the segment on which each lies.
    """

    points: Points
    owner: NDArray[np.intp]

    @classmethod
    def on(cls, segments: Sequence[Segment], spacing: float) -> PointsAlong:
        """Return points along segments, the ends of each included, none over `spacing` mm apart.

        >>> from ..geometry.point import Point
        >>> PointsAlong.on([Line(Point(0, 0), Point(3, 0))], 2.0).points.tolist()
        [[0.0, 0.0], [1.5, 0.0], [3.0, 0.0]]
        """
        straight = [n for n, segment in enumerate(segments) if isinstance(segment, Line)]
        curved = [n for n, segment in enumerate(segments) if not isinstance(segment, Line)]
        found = []
        if straight:
            found.append(cls._on_lines([_ends(segments[n]) for n in straight], straight, spacing))
        if curved:
            found.append(cls._on_arcs([_figures(segments[n]) for n in curved], curved, spacing))
        return cls(
            np.concatenate([held.points for held in found]),
            np.concatenate([held.owner for held in found]),
        )

    @classmethod
    def _on_lines(
        cls, figures: list[tuple[float, ...]], numbers: list[int], spacing: float
    ) -> PointsAlong:
        ends = np.array(figures)
        which, share = _shares(np.hypot(*(ends[:, 2:] - ends[:, :2]).T), spacing)
        held = ends[which]
        points = held[:, :2] + share[:, None] * (held[:, 2:] - held[:, :2])
        return cls(points, np.array(numbers, dtype=np.intp)[which])

    @classmethod
    def _on_arcs(
        cls, figures: list[tuple[float, ...]], numbers: list[int], spacing: float
    ) -> PointsAlong:
        arcs = np.array(figures)
        # equal steps of an ellipse's angle are not equal on the line: count by the longer half-axis
        which, share = _shares(np.maximum(arcs[:, 2], arcs[:, 3]) * np.abs(arcs[:, 6]), spacing)
        x, y, length, width, turn, start, sweep = arcs[which].T
        angle = start + sweep * share
        along, up = length * np.cos(angle), width * np.sin(angle)
        cos, sin = np.cos(turn), np.sin(turn)
        points = np.column_stack([x + along * cos - up * sin, y + along * sin + up * cos])
        return cls(points, np.array(numbers, dtype=np.intp)[which])


def _ends(segment: Segment) -> tuple[float, ...]:
    return (*segment.start, *segment.end)


def _figures(segment: Segment) -> tuple[float, ...]:
    """Return centre, half-axes, turn, start and sweep of an arc."""
    assert not isinstance(segment, Line)
    if isinstance(segment, Arc):
        half: tuple[float, ...] = (segment.radius, segment.radius, 0.0)
    else:
        half = (segment.half_length, segment.half_width, segment.turn)
    return (*segment.centre, *half, segment.from_angle, segment.sweep)


def _shares(
    lengths: NDArray[np.float64], spacing: float
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return for each point its segment, and at which share of it the point lies, 0 to 1."""
    steps = np.maximum(1, np.ceil(lengths / spacing - ROUNDING)).astype(np.intp)
    which = np.repeat(np.arange(len(steps)), steps + 1)
    first = np.cumsum(steps + 1) - (steps + 1)
    return which, (np.arange(len(which)) - first[which]) / steps[which]
