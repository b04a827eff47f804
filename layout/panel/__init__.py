"""The old panel: its outline, build and defects, and the sound wood that is left."""

from .build import Build, Coat, Kind, Was
from .defect import Defect, defect
from .defect_kinds import Face, Mend, Spoils
from .materials import MATERIALS, Material
from .outline import outline_through, oval_outline, rectangular_outline, round_outline
from .panel import Panel
from .sound import SoundWood
from .told import Spot, polygonal_place, rectangular_place, round_place

__all__ = [
    "MATERIALS",
    "Build",
    "Coat",
    "Defect",
    "Face",
    "Kind",
    "Material",
    "Mend",
    "Panel",
    "SoundWood",
    "Spoils",
    "Spot",
    "Was",
    "defect",
    "outline_through",
    "oval_outline",
    "polygonal_place",
    "rectangular_outline",
    "rectangular_place",
    "round_outline",
    "round_place",
]
