"""From a pose to a fit: the exact outline at the plainest of the turns that look the same."""

from __future__ import annotations

from collections.abc import Sequence

from ...geometry import Placement, Point, Region
from ...panel.sound import SoundWood
from ..found import Fit
from ..proof import Drawn, until_proved
from ..tie_breaking import plain_turn
from .pose import Pose
from .sizing import Sizing


def proved(
    pose: Pose, middle: Point, sizing: Sizing, wood: SoundWood, held: Sequence[Region] = ()
) -> Fit | None:
    """Return the top of a pose about `middle`, proved inside the wood and round `held`, or None."""
    make, kind, rim = sizing.outline.resized, sizing.kind, sizing.rim
    turn = plain_turn(pose.turn, kind.period(kind.shape_of(pose)), sizing.wish.limits)

    def drawn_in(by: float) -> Drawn:
        half_length, half_width = kind.drawn_in(pose, by)
        # drawn in alike all round a top gets slimmer, by a hair more than it may
        slimmest = sizing.wish.limits.ratio.greatest * (half_width + rim[1]) - rim[0]
        half_length = min(half_length, slimmest)
        drawn = pose._replace(half_length=half_length, half_width=half_width, turn=turn)
        return Drawn(
            make(2 * (half_length + rim[0]), 2 * (half_width + rim[1])),
            make(2 * half_length, 2 * half_width),
            Placement(Point(*kind.origin(drawn)) + middle, turn),
            sizing.score(half_length, half_width),
        )

    return until_proved(drawn_in, wood, held, spare=not sizing.wish.limits.fixes_a_size)
