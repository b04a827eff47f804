"""The old panel: everything that the maker knows about it, show face up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from ..errors import PanelError
from ..geometry import Path, Region
from ..geometry.stepping import Side
from ..keys.figures import ABOVE_0, FROM_0, Length, Range, count, degrees
from ..keys.key import Values, fills, hold, key, take
from ..keys.kinds import Choice, Only, Text, names
from ..keys.plane import Boundary, Choices, holes_of
from .build import Build, Coat, Kind, Was
from .defect import DEFECTS, Defect, on_panel
from .defect_kinds import SPOILS, Spoils
from .materials import BOARD_WORDS, MATERIALS, Material
from .sound import SoundWood, face_with_kept
from .told import Places, SpotLine

THICK = Length(Range(0.0, 500.0, above=True), "look at the unit: no panel is that thick")
"""What a panel can be thick, mm: more is a slip of the unit."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel as found.

    A `PanelError` is raised if a thickness is not above 0, the material unknown, a name used twice,
    or it would be thicker flattened than found.
    """

    boundary: Path = field(
        metadata=fills(
            Boundary("table, see `[panel.outline]`"),
            "Its outline; must be given",
            "{ length = 1981, width = 838 }",
            name="outline",
        )
    )
    """Closed, anticlockwise, mm; origin at the datum corner, x along the datum edge."""
    thickness: float = field(
        metadata=fills(THICK, "Its thickness; a plan needs it, a fit does not", "44")
    )
    name: str = key("panel", Text(), "What the maker calls it", '"north door"')
    cut_outs: tuple[Path, ...] = key(
        (),
        Places("list of rings `[[x, y], …]` or of tables, see `[[panel.cutouts]]`", SpotLine("")),
        "What has been cut out of it; a cut-out may run over an edge",
        "[[[900, 748], [1090, 748], [1090, 838], [900, 838]]]",
        usual="none",
        name="cutouts",
    )
    defects: tuple[Defect, ...] = key(
        (),
        DEFECTS,
        "What is wrong with it",
        "[{ at = [60, 400], diameter = 8 }]",
        usual="none",
    )
    build: Build = Build()  # noqa: RUF009 frozen, so it may be shared
    material: str = key(
        "",
        Choice(names(*MATERIALS), BOARD_WORDS, described="a material, listed below"),
        "What it is weighed as",
        '"oak"',
        usual="what is usual for the build",
    )
    grain_deg: float = key(
        0.0,
        degrees(-360, 360),
        "Direction of the grain of its show face, from x",
        "90",
        name="grain",
    )
    was: Was | None = key(
        None,
        Choice(
            {was.value: was for was in Was},
            {
                "flush door": "door",
                **dict.fromkeys(("table", "tabletop", "desk"), "furniture"),
                "worktop": "kitchen",
                **dict.fromkeys(("lab", "lab bench"), "laboratory"),
                "floorboard": "floor",
                **dict.fromkeys(("fence", "decking", "sleeper"), "outdoors"),
            },
        ),
        "What it was: its cautions follow from that",
        '"door"',
        usual="not known",
    )
    finish: tuple[Coat, ...] = key(
        (),
        Choices(
            Choice(
                {coat.value: coat for coat in Coat},
                {
                    **dict.fromkeys(("bare", "bare wood"), "none"),
                    **dict.fromkeys(("old varnish", "lacquer"), "varnish"),
                    "white paint": "paint",
                    "lino": "linoleum",
                    "melamine": "laminate",
                    "bitumen": "black glue",
                    "tar": "creosote",
                    "treated": "preservative",
                },
            ),
            one_will_do=True,
        ),
        "What is on its faces, and glued to its back",
        '["varnish", "black glue"]',
        usual="not known",
    )
    year: int | None = key(
        None,
        count(1000, 2200, "write the year in four figures"),
        "When it was made, as far as known",
        "1962",
        usual="not known",
    )
    flattened: float | None = key(
        None,
        ABOVE_0,
        "Its thickness once both faces are flattened: a slab is cut roughly to length, flattened, "
        "rested and marked again, and legs, weight and cuts follow this figure",
        "42",
        usual="as `thickness`",
    )

    def __post_init__(self) -> None:
        object.__setattr__(self, "cut_outs", (*self.cut_outs, *holes_of(self.boundary)))
        if not isinstance(self.build, Build):
            object.__setattr__(self, "build", Build(self.build))
        hold(self, "panel", error=PanelError)
        object.__setattr__(self, "build", self.build.of(self.material))
        check_faces(Values.of(self, "panel", error=PanelError), self.build.kind)
        if any(defect.told is not None and defect.blades is None for defect in self.defects):
            told = on_panel(self.defects, self.grain, self.thickness, self.region("outside"))
            object.__setattr__(self, "defects", told)
        names = [defect.name for defect in self.defects]
        twice = next((name for name in names if names.count(name) > 1), None)
        if twice is not None:
            raise PanelError(f"two defects are called {twice!r}: give each a name of its own")

    def __repr__(self) -> str:
        """Return it in one line."""
        box = self.boundary.bounds
        sizes = " × ".join(f"{size:g}" for size in (box.width, box.height, self.thickness))
        count = len(self.defects)
        return f"<Panel {self.name!r}: {sizes} mm, {count} defect{'s' if count != 1 else ''}>"

    def _repr_svg_(self) -> str:
        from .shown import face_svg

        return face_svg(repr(self), self.boundary, self.cut_outs, self.defects)

    @property
    def grain(self) -> float:
        """Direction of the grain of the show face, radians from x."""
        return math.radians(self.grain_deg)

    @property
    def substance(self) -> Material:
        """The material that it is weighed by."""
        return MATERIALS[self.material or self.build.kind.usual_material]

    @property
    def made_thickness(self) -> float:
        """The thickness that the top is made of, mm: flattened where it is, else as found."""
        return self.thickness if self.flattened is None else self.flattened

    def region(self, side: Side = "inside") -> Region:
        """Return its face as a polygon that lies within the true one, or contains it."""
        return _face(self.boundary, self.cut_outs, side, 0.0)

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
        more = take(DEFECTS, defect, "defect", error=PanelError)
        return replace(self, defects=(*self.defects, *more))

    def without_defect(self, *names: str) -> Panel:
        """Return the panel as if the defects of these names were mended or accepted."""
        return replace(self, defects=tuple(d for d in self.defects if d.name not in names))

    def spoiling(self, purpose: Spoils) -> tuple[Defect, ...]:
        """Return the defects that spoil a purpose; what is mended no longer spoils showing."""
        purpose = take(SPOILS.choice, purpose, "purpose", error=PanelError)
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

        What any tape may have been out widens the margin and each clearance; all are in mm. No
        margin is kept to edges of the boundary that are `kept`: nothing is cut or measured there.
        """
        margin = take(FROM_0, margin, "margin", error=PanelError)
        tape_error = take(FROM_0, tape_error, "tape_error", error=PanelError)
        an_edge = Only(Path, "give edges of its boundary")
        kept = [take(an_edge, edge, "kept", error=PanelError) for edge in kept]
        face, defects = (self.boundary, self.cut_outs), self.spoiling(purpose)
        by = margin + tape_error
        if kept:
            wood = face_with_kept(*face, kept, by)
        else:
            wood = SoundWood(_face(*face, "inside", by), _face(*face, "outside", by))
        return SoundWood(
            wood.inner.minus(*(defect.reach(tape_error) for defect in defects)),
            wood.outer.minus(*(defect.heart(tape_error) for defect in defects)),
        )

    @property
    def islands(self) -> tuple[Defect, ...]:
        """The defects and mends that a top's edge may not cross; each may lie wholly inside it."""
        return tuple(
            d
            for d in self.defects
            if not d.shows
            and (Spoils.CUTTING in d.spoils or (d.mend is not None and d.mend.must_stay_whole))
        )


def check_faces(values: Values, kind: Kind | None) -> None:
    """Note what cannot be true of the faces of a panel, as far as its build is known."""
    flattened, thickness = values["flattened"], values["thickness"]
    if flattened is not None and kind is not None and kind.is_board:
        values.at("flattened").wrong(
            f"{kind.value} is not flattened, its face would go: leave it out"
        )
    elif flattened is not None and thickness is not None and flattened > thickness:
        length = values.place.length
        values.at("flattened").wrong(
            f"{length(flattened)} is more than the thickness found, {length(thickness)}: "
            "flattening only takes off"
        )
    if Coat.NONE in (values["finish"] or ()) and len(values["finish"]) > 1:
        values.at("finish").wrong('"none" goes alone: say what is on it, or that nothing is')


@lru_cache(maxsize=16)
def _face(boundary: Path, cut_outs: tuple[Path, ...], side: Side, by: float) -> Region:
    """Return what lies at least `by` inside, mm; asked again with each defect left out in turn."""
    other: Side = "outside" if side == "inside" else "inside"
    face = Region.of(boundary, side).minus(*(Region.of(cut_out, other) for cut_out in cut_outs))
    return face.shrunk(by, around=side == "outside")
