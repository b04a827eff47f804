"""The tolerances that more than one module goes by, each with its reason; mm where none is named.

A found top is proved by holding its *outer* polygon against the *inner* polygon of the wood. Two
chords and rounding stand between the true shapes and those, so one that touches is drawn in by at
most `PROOF_ALLOWANCE`, most often far less (`INSETS`), and the size so reduced is printed.
"""

from __future__ import annotations

CHORD = 0.001
"""Farthest that a polygon of a curve may lie from the curve: a fifth of a hair, and small enough
that twice this and rounding stay below `PROOF_ALLOWANCE`."""

ROUNDING = 1e-6
"""Rounding of coordinates up to some metres in double precision, with a wide margin."""

PROOF_ALLOWANCE = 0.005
"""What a found top may be reduced by so that its place in the wood can be proved."""

PROOF_CHORD = 0.0001
"""The same for the polygon of a found top that is proved, so that the proof takes next to nothing
from its size: some thousands of corners, held against the wood once."""

INSETS = (
    (0.0, CHORD),
    (4 * ROUNDING, CHORD),
    (PROOF_CHORD + 4 * ROUNDING, PROOF_CHORD),
    (CHORD + 4 * ROUNDING, CHORD),
    (PROOF_ALLOWANCE / 2, CHORD),
)
"""By how much the edge of a top is drawn in, and how far its polygon may then lie from it, tried in
turn until it is proved; the ends of a top lie metres apart, so that rounding counts there."""

CURVE = 0.0005
"""Farthest that a curve which is not made of lines and arcs (the parallel of an ellipse) may lie
from the arcs drawn for it; half of the vector error allowed in a written file."""

SAME_POINT = 1e-6
"""Two ends of a path nearer than this are one point."""

AREA_BALANCE = 1e-6
"""Relative error allowed where areas must add up."""

SIZE_SLACK = 0.01
"""A size that falls short of a whole step by less than this counts as the step: a panel of 1400
gives a top of 1400, though its proof was made 0.005 smaller."""

ALIKE_AREA = 100.0
"""Offcuts and their clean rectangles are as large as each other where they differ by less, mm²: a
square centimetre. Those of two mirrored pieces may, for each is searched by itself."""

SAME_PLACE = 0.01
"""To a maker two places, lines or sizes that differ by no more than this are the same: proofs take
off half of it, and a pencil shows ten times as much."""

SAME_FIGURE = 0.05
"""Lengths that differ by no more than this have one figure at the bench: no tape shows a tenth."""

SAME_EDGE = 0.1
"""A line that lies no farther from the panel's edge than this is that edge: proofs, roundings and
polygons of measured edges take less off, and nobody saws a tenth."""

SAME_WAY = 1e-6
"""A joint that turns by less than this is no corner, radians: 0.001 mm at a metre."""
