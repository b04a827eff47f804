"""What is told of mends, a lost rim, the joints of a frame and a lipping, where they are acts."""

from __future__ import annotations

from ..cutting.builds import FrameJoint, RimLoss, UnknownFrame
from ..cutting.edging import Edging
from ..cutting.mending import Mended
from .cuts_told import words_of
from .edge import lipping_words
from .mends import UNKNOWN_FRAME, joint_words, mend_words, rim_words
from .passage import Passage
from .say import Say


@words_of.register
def _(mend: Mended, say: Say) -> Passage:
    return mend_words(mend, say.tape)


@words_of.register
def _(loss: RimLoss, say: Say) -> Passage:
    return rim_words(loss, say.tape)


@words_of.register
def _(joint: FrameJoint, say: Say) -> Passage:
    return joint_words(joint)


@words_of.register
def _(act: UnknownFrame, say: Say) -> Passage:
    return UNKNOWN_FRAME


@words_of.register
def _(edging: Edging, say: Say) -> Passage:
    return lipping_words(edging, say.tape)
