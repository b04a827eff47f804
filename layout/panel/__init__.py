"""The old panel: its outline, build and defects, and the sound wood that is left."""

from .build import Build as Build
from .build import Coat as Coat
from .build import Kind as Kind
from .build import Was as Was
from .defect import Defect as Defect
from .defect import defect as defect
from .defect_kinds import Face as Face
from .defect_kinds import Mend as Mend
from .defect_kinds import Spoils as Spoils
from .materials import MATERIALS as MATERIALS
from .outline import outline_through as outline_through
from .outline import oval_outline as oval_outline
from .outline import rectangular_outline as rectangular_outline
from .outline import round_outline as round_outline
from .panel import Panel as Panel
from .sound import SoundWood as SoundWood
from .told import Spot as Spot
from .told import polygonal_place as polygonal_place
from .told import rectangular_place as rectangular_place
from .told import round_place as round_place
