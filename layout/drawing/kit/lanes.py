"""Labels along a lane: a problem in one dimension, so that none touches another by construction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...geometry.alike import ranked
from ...geometry.tolerance import ROUNDING


@dataclass(slots=True)
class _Block:
    """Labels that stand side by side."""

    members: list[int]
    offsets: list[float]
    """Of each member's middle from the block's start."""
    length: float
    start: float = 0.0


def spread(
    wanted: Sequence[float], lengths: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Return where labels stand along a lane, the middle of each, in the order that they came.

    Each has the place wanted for its middle, and its length with its gap. Blocks that overlap merge
    and move to the mean of what their members want; their order is kept, so leaders never cross.
    Labels that are too many for the lane run past its high end. All in mm.

    >>> spread([10.0, 11.0, 40.0], [6.0, 6.0, 6.0], 0.0, 50.0)
    (7.5, 13.5, 40.0)
    """
    blocks: list[_Block] = []
    for i in ranked(range(len(wanted)), lambda i: -wanted[i], tolerance=ROUNDING):
        block = _Block([i], [lengths[i] / 2], lengths[i])
        while True:
            wishes = [wanted[m] - o for m, o in zip(block.members, block.offsets, strict=True)]
            start = min(sum(wishes) / len(wishes), high - block.length)
            block.start = max(low, start)
            if not blocks or blocks[-1].start + blocks[-1].length <= block.start - ROUNDING:
                break
            last = blocks.pop()
            offsets = [*last.offsets, *(last.length + offset for offset in block.offsets)]
            members = [*last.members, *block.members]
            block = _Block(members, offsets, last.length + block.length)
        blocks.append(block)
    placed = {
        i: block.start + offset
        for block in blocks
        for i, offset in zip(block.members, block.offsets, strict=True)
    }
    return tuple(placed[i] for i in range(len(wanted)))
