"""Exact shapes of tops."""

from .base import Outline as Outline
from .cornered import DEnd as DEnd
from .cornered import Rectangle as Rectangle
from .cornered import RegularPolygon as RegularPolygon
from .cornered import RoundedRectangle as RoundedRectangle
from .curved import Capsule as Capsule
from .curved import Circle as Circle
from .curved import Oval as Oval
from .curved import Superellipse as Superellipse
from .freeform import OWN_OUTLINE as OWN_OUTLINE
from .freeform import PIECE_AS_FOUND as PIECE_AS_FOUND
from .freeform import Freeform as Freeform
