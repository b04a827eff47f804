"""What ovals, capsules and superellipses have in common: two sizes about their middle."""

from __future__ import annotations

from .pose import Pose


class RoundKind:
    """A kind of top whose length and width are both free."""

    ratio: float | None = None

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping adds to half the length and half the width, mm."""
        return lipping, lipping

    def origin(self, pose: Pose) -> tuple[float, float]:
        """Return where the outline's own origin lies: in the middle."""
        return pose.x, pose.y

    def drawn_in(self, pose: Pose, by: float) -> tuple[float, float]:
        """Return half sizes that are less by `by`, mm."""
        half_width = pose.half_width - by
        return max(pose.half_length - by, half_width), half_width
