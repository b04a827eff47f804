"""The pieces that a path is made of: straight lines, circular arcs and elliptic arcs, all exact.

Conventions, once for all of them: a segment runs from `start` to `end`; a sweep is positive
anticlockwise; the parallel at a positive distance lies to the *right* of the way it runs, which
is outside of a closed path that runs anticlockwise.
"""

from .arc import Arc
from .elliptic_arc import EllipticArc
from .line import Line
from .stepping import Side, arc_steps, corners_of

Segment = Line | Arc | EllipticArc

__all__ = ["Arc", "EllipticArc", "Line", "Segment", "Side", "arc_steps", "corners_of"]
