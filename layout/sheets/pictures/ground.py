"""Drawings of the wood: is it square, what the top touches, where else it could lie, its rest."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ...cutting.builds import FrameJoint
from ...cutting.mending import Mended
from ...drawing import layers
from ...drawing.kit.labels import LabelSetter
from ...drawing.kit.picture import STEP_TALLEST, STEP_WIDTH, DrawingFrame, Stage
from ...drawing.scene import Area, Group, Layer, Scene, Text
from ...geometry import Bounds, Path, Placement, Point, Region, circle
from ...outlines import Outline
from ...panel.datum import Datum
from ...panel.shown import drawn_defects, layer_of
from ...plan.plan import Plan
from ...words.say import exact_words
from ...words.why import loss_words, turn_words

# Width of a drawing behind the work, and greatest height of what it shows, paper mm
BEHIND_WIDTH, BEHIND_TALLEST = 116.0, 60.0
_DOT = 1.1  # radius of a dot where the top touches, paper mm
_COLUMNS = 2  # of small pictures
_GAP = 4.0  # between two small pictures, paper mm
_WORDS, _ROW = 2.5, 4.2  # height of their lettering, and from one line of it to the next, paper mm
_TALLEST = 60.0  # height that a panel has in a small picture at most, paper mm
_LETTER = 3.5  # height of corner letters, paper mm


@dataclass(frozen=True, slots=True)
class Wood:
    """What lies on the bench at one time, and what it is measured by."""

    plan: Plan
    boundary: Path
    """Of the panel, or of what is left of a slab."""
    datum: Datum
    mirrored: bool
    """Whether the underside is seen."""

    @classmethod
    def found(cls, plan: Plan, *, mirrored: bool | None = None) -> Wood:
        """Return the panel as found, as it is marked and sawn unless another face is asked for."""
        seen = plan.cuts.face.mirrored if mirrored is None else mirrored
        return cls(plan, plan.job.panel.boundary, plan.datum, seen)

    @classmethod
    def marked(cls, plan: Plan) -> Wood:
        """Return what the top is marked on in the end: of a slab what is left when it is flat."""
        again, seen = plan.cuts.again, plan.cuts.face.mirrored
        return cls.found(plan) if again is None else cls(plan, again.boundary, again.datum, seen)

    @property
    def region(self) -> Region:
        """Its face, without cut-outs."""
        face = Region.of(self.boundary)
        return face.meet(self.plan.job.panel.region("outside"))

    def stage(
        self, *, defects: bool = False, width: float = STEP_WIDTH, tallest: float = STEP_TALLEST
    ) -> Stage:
        """Return a stage with the wood on it, `width` wide, at most `tallest` high, paper mm."""
        extent = self.boundary.bounds
        stage = Stage.around(extent, mirrored=self.mirrored, width=width, tallest=tallest)
        self.draw(stage, defects=defects)
        return stage

    def draw(self, stage: Stage, *, defects: bool) -> None:
        """Draw the wood, and its `defects` where they are asked for."""
        panel, region = self.plan.job.panel, self.region
        stage.region(layers.WOOD, region)
        if defects:
            for defect, paths in drawn_defects(panel.boundary, panel.defects):
                stage.area(layer_of(defect), *paths)
        stage.region(layers.PANEL, region, edged=True, clear=True)

    def letters(self, stage: Stage, layer: Layer = layers.LETTERING, size: float = _LETTER) -> None:
        """Write the letters of corners and struck points."""
        middle = self.boundary.bounds.middle
        for name, point in sorted(self.datum.places.items()):
            stage.label(layer, point, name, towards=point - middle, height=size, bold=True)

    def running(self, stage: Stage, points: Iterable[Point]) -> None:
        """Write the offsets of points on two rulers: below the datum, and beside its start."""
        datum, scale = self.datum, stage.frame.scale
        offsets = [datum.coordinates(point) for point in points]
        along = {self.plan.job.tape.figure(o.along): datum.at(o.along, 0.0) for o in offsets}
        square = {self.plan.job.tape.figure(o.square): datum.at(0.0, o.square) for o in offsets}
        back = (datum.start - datum.end).unit()
        for feet, way in ((along, back.left), (square, back)):  # off the wood
            rows = self.boundary.points(1.0)
            reach = max(0.0, *((Point.of(row) - datum.start).dot(way) for row in rows))
            for words, foot in sorted(feet.items()):
                edge = foot + way * reach
                stage.line(layers.DIMENSIONS, edge, edge + way * (2 * scale))
                stage.label(layers.DIMENSIONS, edge + way * (1.2 * scale), words, towards=way)


def joint_scene(plan: Plan, joint: FrameJoint) -> Scene:
    """Return the joint of a frame that cuts run through."""
    wood = Wood.found(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    stage.area(layers.DEFECT_CUTTING, joint.place)
    for trim in plan.cuts.trims:
        if trim.label in joint.cuts:
            stage.line(layers.SAW_LINE, trim.start.point, trim.end.point, past=3.0)
    wood.letters(stage)
    stage.label(layers.LETTERING, joint.place.bounds.middle, "joint")
    return stage.scene("A cut runs through a joint")


def mend_scene(plan: Plan, mend: Mended) -> Scene:
    """Return where a mend goes, with its places from the datum."""
    wood = replace(Wood.marked(plan), mirrored=False)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    (defect,) = (d for d in plan.job.panel.defects if d.name == mend.defect)
    stage.path(layers.GONE, defect.place)
    stage.area(layers.MENDS, *mend.prints)
    stage.line(layers.DATUM, wood.datum.start, wood.datum.end)
    wood.letters(stage)
    wood.running(stage, [place.centre for place in mend.places])
    stage.label(layers.MENDS, mend.places[0].centre, f"{mend.how.value}: {mend.defect}")
    return stage.scene(f"Where {mend.defect} is mended")


def offcuts_scene(plan: Plan) -> Scene:
    """Return what falls off, each piece with its number and its largest clean rectangle."""
    wood = Wood.found(plan, mirrored=False)
    stage = Stage.around(wood.boundary.bounds)
    pieces = [offcut.piece for offcut in plan.offcuts.pieces]
    stage.region(layers.WOOD, *pieces)
    stage.region(layers.SHEET, *pieces, edged=True, clear=True)
    stage.path(layers.GHOST, plan.cuts.finish)
    for offcut in plan.offcuts.pieces:
        if offcut.kept and offcut.clean is not None:
            stage.path(layers.OFFCUTS, Path.through_ring(offcut.clean.corners), clear=True)
    wood.letters(stage)
    for offcut in plan.offcuts.pieces:
        at = offcut.piece.centroid if offcut.clean is None else offcut.clean.centre
        words = f"{offcut.number}: keep" if offcut.kept else f"{offcut.number}"
        label = Text(stage.frame.at(at), words, stage.letters)
        stage.add(layers.OFFCUTS, *stage.setter.set(label, on=True))
    return stage.scene("What is left over")


def square_scene(plan: Plan) -> Scene:
    """Return how the panel is tried for being square: by its corners, or by 3, 4 and 5."""
    wood = Wood.found(plan, mirrored=False)
    stage, datum, three, told = wood.stage(), wood.datum, plan.check.triangle, plan.job.tape.figure
    stage.line(layers.DATUM, datum.start, datum.end)
    corners = {corner.name: corner.point for corner in datum.corners}
    lines: list[tuple[Point, Point, float]] = []
    for square in plan.check.squares:
        at, along, up = (corners[n] for n in (square.corner, square.along_to, square.across_to))
        lines += [(at, up, square.across), (along, up, square.found.square_diagonal)]
    if not lines and three is not None:
        start, sides = datum.held.point, (Point(three.along, 0.0), Point(0.0, three.across))
        at, up = (start + side.turned(datum.frame.turn) for side in sides)
        lines = [(start, at, three.along), (start, up, three.across), (at, up, three.diagonal)]
    stage.measured(layers.CHECKS, [(start, end, told(length)) for start, end, length in lines])
    wood.letters(stage)
    return stage.scene("Is it square?")


def draw_centrelines(
    stage: Stage, outline: Outline, place: Placement | None = None, layer: Layer = layers.CENTRELINE
) -> None:
    """Draw both centrelines of a top in its place, or in its own frame, from edge to edge."""
    lies = place or Placement()
    for end in (Point(outline.length / 2, 0.0), Point(0.0, outline.width / 2)):
        stage.line(layer, lies(-end), lies(end))


def contacts_scene(plan: Plan) -> Scene:
    """Return the top in its place, with a numbered dot wherever something holds it."""
    wood = Wood.found(plan, mirrored=False)
    stage = wood.stage(defects=True, width=BEHIND_WIDTH, tallest=BEHIND_TALLEST)
    stage.path(layers.GHOST, plan.fit.core.path().placed(plan.fit.placement), clear=True)
    for contact in plan.contacts:
        if contact.points[0] != contact.points[-1]:  # nor all the way round
            stage.line(layers.CONTACTS, *contact.points)
        for point in contact.points:
            at = stage.frame.at(point)
            stage.add(layers.CONTACTS, Area(circle(at, _DOT)))
            stage.setter.keep_clear(Bounds.about(at, _DOT))
    for number, contact in enumerate(plan.contacts, 1):
        way = plan.fit.placement.centre - contact.middle
        stage.label(layers.CONTACTS, contact.middle, f"{number}", towards=way, bold=True)
    wood.letters(stage)
    return stage.scene("What holds the top")


def others_scene(plan: Plan) -> Scene:
    """Return small pictures of the panel: with the top as planned, and with each alternative."""
    fits, wood = (plan.fit, *plan.others), Wood.found(plan, mirrored=False)
    extent = wood.boundary.bounds
    wide = (BEHIND_WIDTH - 2 - (_COLUMNS - 1) * _GAP) / _COLUMNS
    scale = max(extent.width / wide, extent.height / _TALLEST)
    high = extent.height / scale + 2 * _ROW + _GAP
    sheet = Bounds(0.0, 0.0, BEHIND_WIDTH, -(-len(fits) // _COLUMNS) * high + 1)
    groups: list[Group] = []
    for i, fit in enumerate(fits):
        row, column = divmod(i, _COLUMNS)
        left, top = 1 + column * (wide + _GAP), sheet.top - 1 - row * high
        cell = Bounds(left, top - high + _GAP, left + wide, top)
        foot = Point(cell.middle.x, cell.bottom)
        corner = foot - Point(extent.middle.x, extent.bottom) * (1 / scale)
        stage = Stage(DrawingFrame(cell, scale, corner), LabelSetter(cell))
        wood.draw(stage, defects=True)
        stage.path(layers.FINISH, fit.outline.path().placed(fit.placement))
        lies = "as planned"
        if i:
            loss = loss_words(fit, plan.fit, plan.job.wish.goal, plan.job.tape)
            lies = ", ".join(filter(None, (loss, turn_words(fit, plan.fit))))
        for k, words in enumerate((f"{i + 1}: {exact_words(fit.outline, plan.job.tape)}", lies)):
            at = Point(left, top - _WORDS - k * _ROW)
            stage.add(layers.LETTERING, Text(at, words, _WORDS, bold=k == 0))
        groups += stage.groups
    return Scene("Other places for the top", sheet, tuple(groups))
