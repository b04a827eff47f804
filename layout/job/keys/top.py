"""Keys of the tops to look for."""

from __future__ import annotations

from ...cutting.profile import EdgeProfile
from ...fit.wish import Limits, Wish
from ...keys.key import Section, keys_of
from ..job import Job

TOP = Section(
    "[top]",
    "The tops to look for, and the limits that the finished top keeps. All sizes are of the "
    "finished top, lipping included; its length is its longer side.",
    (*keys_of(Wish), *keys_of(Limits), *keys_of(EdgeProfile), *keys_of(Job)),
)
