"""The old panel: everything that the maker knows about it, show face up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..errors import PanelError
from ..geometry.path import Path
from ..geometry.polygon import Region
from ..geometry.segments import Side
from .build import Build
from .defect import Defect, Spoils
from .kept import face_with_kept
from .materials import Material, material_named
from .past import Coat, Was
from .sound import SoundWood


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel as found.

    Raises
    ------
    PanelError
        If a thickness is not above 0, the material unknown, a name used twice, or it would be
        thicker flattened than found.
    """

    boundary: Path
    """Closed, anticlockwise, mm; origin at the datum corner, x along the datum edge."""
    thickness: float
    """As found, mm."""
    name: str = "panel"
    cut_outs: tuple[Path, ...] = ()
    """Closed boundaries of what has been cut out of it; they may run over an edge."""
    defects: tuple[Defect, ...] = ()
    """Each with a name of its own."""
    build: Build = Build()  # noqa: RUF009 frozen, so it may be shared
    material: str = ""
    """A species or board named in `materials.MATERIALS`; empty for what is usual for the build."""
    grain: float = 0.0
    """Direction of the grain of the show face, radians from x."""
    was: Was | None = None
    finish: tuple[Coat, ...] = ()
    year: int | None = None
    """What it was, what is on its faces and its back, and when it was made; None and empty where
    nobody knows."""
    flattened: float | None = None
    """Its thickness once both faces are flattened, mm; None where it stays as it is."""

    def __post_init__(self) -> None:
        if not 0 < self.thickness < math.inf:
            raise PanelError(f"a thickness of {self.thickness:g} mm is not above 0")
        if self.flattened is not None and not 0 < self.flattened <= self.thickness:
            raise PanelError(
                f"flattened to {self.flattened:g} mm: that is above 0 and at most the "
                f"{self.thickness:g} mm found"
            )
        if self.material and material_named(self.material) is None:
            raise PanelError(f"the material {self.material!r} is not known")
        names = [defect.name for defect in self.defects]
        for name in names:
            if names.count(name) > 1:
                raise PanelError(f"two defects are called {name!r}: give each a name of its own")

    @property
    def substance(self) -> Material:
        """The material that it is weighed by."""
        found = material_named(self.material or self.build.kind.usual_material)
        assert found is not None  # checked when the panel was made
        return found

    @property
    def made_thickness(self) -> float:
        """The thickness that the top is made of, mm: flattened where it is, else as found."""
        return self.thickness if self.flattened is None else self.flattened

    def region(self, side: Side = "inside") -> Region:
        """Return its face as a polygon that lies within the true one, or contains it."""
        other: Side = "outside" if side == "inside" else "inside"
        face = Region.of(self.boundary, side)
        for cut_out in self.cut_outs:
            face = face.minus(Region.of(cut_out, other))
        return face

    @property
    def area(self) -> float:
        """The area of its face, mm²."""
        return self.region().area

    @property
    def mass(self) -> float:
        """Its mass as found, kg, from area, thickness and density."""
        return self.substance.mass(self.area, self.thickness)

    def with_defect(self, defect: Defect) -> Panel:
        """Return the panel with one more defect."""
        return replace(self, defects=(*self.defects, defect))

    def without_defect(self, name: str) -> Panel:
        """Return the panel as if the defect of that name were mended or accepted."""
        return replace(self, defects=tuple(d for d in self.defects if d.name != name))

    def spoiling(self, purpose: Spoils) -> tuple[Defect, ...]:
        """Return the defects that spoil a purpose; what is mended no longer spoils showing."""
        if purpose is Spoils.SHOWING:
            return tuple(defect for defect in self.defects if defect.shows)
        return tuple(defect for defect in self.defects if purpose in defect.spoils)

    def crossed_by(self, band: Region) -> tuple[Defect, ...]:
        """Return the defects that no blade may cross and one that goes through `band` would."""
        spoiling = self.spoiling(Spoils.CUTTING)
        return tuple(d for d in spoiling if d.extent.touches_or_crosses(band))

    def sound_for(
        self,
        purpose: Spoils,
        *,
        margin: float = 0.0,
        tape_error: float = 0.0,
        kept: Sequence[Path] = (),
    ) -> SoundWood:
        """Return what is left for a purpose: clear of its defects and `margin` inside every edge.

        Parameters
        ----------
        margin : float
            Kept to the panel's edges and cut-outs, mm.
        tape_error : float
            How far any tape may have been out, mm: it widens the margin and each clearance.
        kept : sequence of Path
            Edges of the boundary that stay as they are. Nothing is cut or measured there, so no
            margin is kept to them and no tape can be out; to their neighbours it is.

        Raises
        ------
        PanelError
            If what is kept is no part of the boundary.
        """
        if kept:
            face = face_with_kept(self.boundary, self.cut_outs, kept, margin + tape_error)
            inner, outer = face.inner, face.outer
        else:
            inner = self.region("inside").shrunk(margin + tape_error)
            outer = self.region("outside").shrunk(margin + tape_error, around=True)
        for defect in self.spoiling(purpose):
            inner = inner.minus(defect.reach(tape_error))
            outer = outer.minus(defect.heart(tape_error))
        return SoundWood(inner, outer)

    @property
    def islands(self) -> tuple[Defect, ...]:
        """The defects that spoil cutting but not showing, and mends that must stay whole.

        A top's edge may not cross them, yet each may lie wholly inside the top or wholly outside.
        """
        return tuple(
            d
            for d in self.defects
            if not d.shows
            and (Spoils.CUTTING in d.spoils or (d.mend is not None and d.mend.must_stay_whole))
        )
