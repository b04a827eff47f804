"""A path made ready once to be cut to many windows: most segments are far from most windows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .bounds import Bounds
from .path import Path
from .placement import Points, array_of
from .segments import Segment
from .window import meet, most_length, parts_in


@dataclass(frozen=True, slots=True)
class Piece:
    """What of a path lies in a window, in one run."""

    path: Path
    start: float
    """How far along the whole path it starts, mm."""


@dataclass(frozen=True, slots=True)
class Cutter:
    """A path, and what tells quickly which of its segments come near a window."""

    path: Path
    middles: Points
    """(n, 2) array: the middle of each segment."""
    reaches: NDArray[np.float64]
    """(n,) array: no point of a segment is farther from its middle, mm."""

    @classmethod
    def of(cls, path: Path) -> Cutter:
        """Return the cutter of a path."""
        middles = array_of(segment.at(0.5) for segment in path.segments)
        return cls(path, middles, np.array([most_length(s) / 2 for s in path.segments]))

    def pieces(self, window: Bounds) -> tuple[Piece, ...]:
        """Return what of the path lies in a window, in order, each with where it starts.

        Unlike `clipped` it breaks a closed path at its start, from which the way along it counts:
        dashes, which seldom close on themselves, then break there in every window alike.

        Examples
        --------
        >>> from .point import Point
        >>> cutter = Cutter.of(Path.through([Point(-5, 5), Point(25, 5)]))
        >>> [piece.start for piece in cutter.pieces(Bounds(0, 0, 10, 10))]
        [5.0]
        """
        runs: list[tuple[float, list[Segment]]] = []
        reached, passed = 0.0, 0
        for number in self._near(window):
            segment = self.path.segments[number]
            reached += sum(s.length for s in self.path.segments[passed:number])
            passed = number
            for share, piece in parts_in(segment, window):
                if runs and meet(runs[-1][1][-1], piece):
                    runs[-1][1].append(piece)
                    continue
                before = segment.part(0.0, share).length if share > 0 else 0.0
                runs.append((reached + before, [piece]))
        return tuple(Piece(Path(tuple(run)), start) for start, run in runs)

    def _near(self, window: Bounds) -> list[int]:
        """Return the numbers of the segments that may come into a window, in order."""
        off = np.abs(self.middles - np.array(tuple(window.middle)))
        half = np.array([window.width, window.height]) / 2
        near = np.all(off <= half + self.reaches[:, None] + 1e-6, axis=1)
        return [int(number) for number in np.flatnonzero(near)]
