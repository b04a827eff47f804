"""The words on mends, a lost rim, the joints of a frame and the lipping, found by their types."""

from __future__ import annotations

from ..cutting import FrameJoint, Lip, Mended, RimLoss, UnknownFrame
from .cuts_told import words_of
from .edge import lipping_words
from .mends import UNKNOWN_FRAME, joint_words, mend_words, rim_words
from .passage import Passage
from .say import Say


@words_of.register
def _(act: Mended, say: Say) -> Passage:
    return mend_words(act, say.tape)


@words_of.register
def _(act: RimLoss, say: Say) -> Passage:
    return rim_words(act, say.tape)


@words_of.register
def _(act: FrameJoint, say: Say) -> Passage:
    return joint_words(act)


@words_of.register
def _(act: UnknownFrame, say: Say) -> Passage:
    return UNKNOWN_FRAME


@words_of.register
def _(act: Lip, say: Say) -> Passage:
    return lipping_words(act.edging, say.tape)
