"""Plane geometry that knows nothing of wood: points, paths, regions.

Lengths are in mm, angles in radians anticlockwise from x, and y points up.
"""

from .alike import at_least as at_least
from .alike import at_most as at_most
from .alike import first_of_best as first_of_best
from .alike import ranked as ranked
from .bounds import Bounds as Bounds
from .path import Path as Path
from .path import circle as circle
from .placement import Placement as Placement
from .placement import Points as Points
from .placement import array_of as array_of
from .point import ORIGIN as ORIGIN
from .point import Point as Point
from .polygon import Region as Region
from .polygon import union as union
from .segments import Arc as Arc
from .segments import EllipticArc as EllipticArc
from .segments import Line as Line
from .segments import Segment as Segment
