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
    start: float


def spread(
    wanted: Sequence[float], lengths: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Return where labels stand along a lane, the middle of each, in the order that they came.

    Sorted by wanted place; blocks that overlap merge and move to the mean of what their members
    want. Their order along the lane is kept, so leaders never cross.

    Parameters
    ----------
    wanted, lengths : sequences of float
        Where the middle of each label would best stand, and how long it is with its gap, mm.
    low, high : float
        Ends of the lane; labels that are too many for it run past its high end.

    Examples
    --------
    >>> spread([10.0, 11.0, 40.0], [6.0, 6.0, 6.0], 0.0, 50.0)
    (7.5, 13.5, 40.0)
    """
    order = ranked(range(len(wanted)), lambda i: -wanted[i], tolerance=ROUNDING)
    blocks: list[_Block] = []
    for i in order:
        half = lengths[i] / 2
        block = _Block([i], [half], lengths[i], wanted[i] - half)
        _clamp(block, low, high)
        while blocks and blocks[-1].start + blocks[-1].length > block.start - ROUNDING:
            block = _merged(blocks.pop(), block, wanted)
            _clamp(block, low, high)
        blocks.append(block)
    placed = {
        i: block.start + offset
        for block in blocks
        for i, offset in zip(block.members, block.offsets, strict=True)
    }
    return tuple(placed[i] for i in range(len(wanted)))


def _merged(one: _Block, other: _Block, wanted: Sequence[float]) -> _Block:
    offsets = [*one.offsets, *(one.length + offset for offset in other.offsets)]
    members = [*one.members, *other.members]
    start = sum(wanted[i] - o for i, o in zip(members, offsets, strict=True)) / len(members)
    return _Block(members, offsets, one.length + other.length, start)


def _clamp(block: _Block, low: float, high: float) -> None:
    block.start = max(low, min(block.start, high - block.length))
