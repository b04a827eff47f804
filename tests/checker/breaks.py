"""One way to spoil a good plan for each check: a figure of plan.json, or of the sheet, altered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

Table = dict[str, Any]


@dataclass(frozen=True)
class Break:
    """What is altered in which plan."""

    plan: str
    """A sample, or one of `small`."""
    spoil: Callable[[Table], None] = lambda _: None
    """Alters plan.json in place."""
    words: tuple[str, str] | None = None
    """What stands on the sheet, and what stands there in its place."""


def set_to(path: str, value: object) -> Callable[[Table], None]:
    """Return what puts a value at a place of the record, its keys and numbers parted by dots."""
    return lambda data: _at(data, path, lambda _: value)


def add(path: str, more: float) -> Callable[[Table], None]:
    """Return what makes a figure greater by so much."""
    return lambda data: _at(data, path, lambda held: held + more)


def all_of(*spoils: Callable[[Table], None]) -> Callable[[Table], None]:
    """Return several alterations as one."""

    def spoil(data: Table) -> None:
        for one in spoils:
            one(data)

    return spoil


def nudged(path: str, by: float) -> Callable[[Table], None]:
    """Return what moves an end of the first straight of a line so much up."""

    def change(held: list[Table]) -> list[Table]:
        straight = next(segment["line"] for segment in held if "line" in segment)
        straight[0][1] += by
        return held

    return lambda data: _at(data, path, change)


def swapped(path: str, i: int, j: int) -> Callable[[Table], None]:
    """Return what changes the places of two items of a list."""

    def change(held: list[Any]) -> list[Any]:
        held[i], held[j] = held[j], held[i]
        return held

    return lambda data: _at(data, path, change)


def _at(data: Table, path: str, change: Callable[[Any], Any]) -> None:
    *way, last = [int(key) if key.isdigit() else key for key in path.split(".")]
    held: Any = data
    for key in way:
        held = held[key]
    held[last] = change(held[last])


LAB, ELM, DOOR = "lab-bench", "elm-slab", "corridor-door"

INTO_THE_POCKET = all_of(add("cuts.core.1.line.0.0", -50.0), add("cuts.core.1.line.1.0", -50.0))
PAST_THE_POINT = all_of(
    add("cuts.finish.0.line.0.1", 80.0),
    add("cuts.finish.0.line.1.1", 80.0),
    add("cuts.finish.3.line.1.1", 80.0),
)

HEAVY_LOAD_UNTOLD = all_of(set_to("legs.load", 9000.0), set_to("legs.problems", []))

BREAKS: dict[str, Break] = {
    # the top
    "the_shape_is_one_that_was_asked_for": Break(LAB, set_to("made.outline.shape", "oval")),
    "lengths_areas_and_edges_agree": Break(LAB, add("made.outline.perimeter", 1.0)),
    "sizes_are_rounded_down_and_no_further": Break(LAB, add("made.exact.length", 6.0)),
    "the_top_keeps_its_limits": Break(LAB, set_to("made.placement.turn_deg", 5.1)),
    "the_core_is_the_finish_drawn_in_by_the_lipping": Break(DOOR, add("made.lipping", 0.1)),
    "the_core_lies_in_sound_wood": Break(LAB, nudged("cuts.core", -5.0)),
    "the_edge_runs_through_nothing_that_stays_whole": Break("pocket", INTO_THE_POCKET),
    "points_are_covered_and_avoided": Break("pocket", PAST_THE_POINT),
    "an_outline_of_ones_own_keeps_its_form": Break("own", add("cuts.finish.0.line.1.0", 1.0)),
    "the_sides_of_a_piece_are_the_panels_own": Break(
        "piece", add("cuts.kept.0.stretch.0.line.1.1", 1.0)
    ),
    # marks
    "the_datum_is_what_the_job_has": Break(ELM, add("datum.first.point.0", 1.0)),
    "offsets_are_coordinates": Break(LAB, add("marks.marks.1.square", 0.01)),
    "no_offset_is_negative_beside_an_edge": Break(LAB, set_to("marks.marks.1.along", -50.0)),
    "two_tapes_meet_at_the_mark": Break(LAB, add("marks.marks.1.point.0", 0.1)),
    "checks_are_distances": Break(LAB, add("marks.checks.2.distance", 0.01)),
    "marks_are_what_they_are_called": Break(LAB, add("marks.marks.1.point.0", 0.1)),
    "a_mark_is_on_wood_where_it_is_told": Break(LAB, add("marks.marks.0.point.1", 500.0)),
    "a_pin_at_each_centre_draws_the_curve": Break(LAB, add("marks.compasses.0.radius", 0.1)),
    "ordinates_lie_on_the_curve": Break(DOOR, add("marks.ordinates.0.up", 0.1)),
    # straight cuts
    "a_saw_line_stays_its_allowance_outside": Break(LAB, add("cuts.trims.1.start.point.0", 1.0)),
    "a_kerf_is_taken_from_the_waste": Break(LAB, add("cuts.trims.1.kerf", 0.5)),
    "a_saw_runs_where_there_is_wood": Break(LAB, add("cuts.trims.3.spans.0.0.0", 50.0)),
    "what_falls_is_told": Break(LAB, add("cuts.trims.0.heaviest", 0.5)),
    "the_ends_of_a_line_lie_on_the_edge": Break(LAB, add("cuts.trims.0.guide.start.point.1", 1.0)),
    "the_figures_of_a_line_are_its_coordinates": Break(LAB, add("cuts.trims.0.end.distance", 0.1)),
    "a_guide_is_where_the_sole_runs": Break(LAB, add("cuts.trims.0.guide.offset", -77.0)),
    # corners and curves
    "a_corner_cut_stays_outside_the_rough_line": Break(
        LAB, add("cuts.corner_cuts.0.start.point.0", 8.0)
    ),
    "a_corner_cut_is_worth_its_setting_up": Break(
        LAB, add("cuts.corner_cuts.0.start.point.0", -173.0)
    ),
    "a_corner_cut_is_found_from_what_is_there": Break(LAB, add("cuts.corner_cuts.0.leg", 1.0)),
    "the_rough_line_stays_its_allowance_outside": Break(LAB, nudged("cuts.rough", 1.0)),
    "a_tool_goes_where_there_is_wood": Break(LAB, add("cuts.curve_cuts.1.line.0.line.0.1", 1.0)),
    "passes_reach_through": Break(LAB, set_to("cuts.curve_cuts.1.passes", 2)),
    "radii_are_those_of_the_line": Break(LAB, add("cuts.curve_cuts.0.radii.0.radius", 0.1)),
    "a_template_stands_off_by_half_the_difference": Break(
        DOOR, add("cuts.curve_cuts.1.template.offset", 0.1)
    ),
    "nothing_crosses_what_must_not_be_cut": Break("pocket", INTO_THE_POCKET),
    # wood
    "areas_close": Break(LAB, add("offcuts.balance.kerf", 100.0)),
    "masses_are_area_times_thickness_times_density": Break(LAB, add("offcuts.pieces.0.mass", 0.1)),
    "offcuts_are_pieces_of_the_panel": Break(LAB, add("offcuts.pieces.0.area", 10.0)),
    "clean_rectangles_are_clean_and_nearly_the_largest": Break(
        LAB, add("offcuts.pieces.0.clean.width", 5.0)
    ),
    # legs
    "a_foot_is_as_asked_where_it_is_told": Break(LAB, add("legs.legs.0.on_panel.0", 0.1)),
    "feet_stand_on_sound_wood": Break(LAB, set_to("legs.legs.0.middle", [-304.0, 300.0])),
    "feet_stand_inside_and_apart": Break(LAB, set_to("legs.legs.0.middle", [479.0, -200.0])),
    "feet_land_where_the_legs_lean": Break(LAB, add("legs.legs.0.floor.0", -5.0)),
    "overhangs_are_distances_to_the_edge": Break(LAB, add("legs.legs.0.overhang", 0.1)),
    "legs_weigh_what_their_wood_weighs": Break(LAB, add("legs.leg_mass", 0.1)),
    "screws_stand_in_their_legs_and_in_sound_wood": Break(LAB, add("table.holes.0.place.0", 31.0)),
    "seats_are_on_the_edge_with_room_for_knees": Break(
        LAB, add("table.seating.seats.0.place.0", 500.0)
    ),
    "the_least_force_is_that_of_statics": Break(LAB, add("legs.tipping.least.force", 20.0)),
    "the_least_push_is_that_of_statics": Break(LAB, add("legs.tipping.push", 2.0)),
    "the_feet_are_the_ground_it_stands_on": Break(LAB, add("legs.feet.0.1", -5.0)),
    "a_load_that_tips_it_is_told": Break(LAB, HEAVY_LOAD_UNTOLD),
    # order
    "cuts_come_in_the_order_of_the_bench": Break(LAB, words=("<h3>Rout to", "<h3>Route")),
    "a_slab_is_shortened_flattened_rested_and_marked_again": Break(
        ELM, words=("<h3>Flatten", "<h3>Route")
    ),
    "what_frees_most_comes_first": Break(LAB, swapped("cuts.trims", 0, 1)),
    "the_sheet_keeps_the_order": Break(LAB, words=("<h3>Metal", "<h3>Lipping")),
    "every_line_of_the_record_is_on_the_sheet": Break(
        LAB, words=('data-cuts="Cut 2"', 'data-cuts="Cut 9"')
    ),
    # templates
    "the_template_is_the_top": Break(LAB, nudged("template.finish", 0.5)),
    "marks_on_paper_are_those_on_the_wood": Break(LAB, add("template.marks.1.at.0", 0.1)),
    "a_portion_flipped_covers_the_outline": Break(LAB, set_to("sheets.portion.flip_x", False)),
    "sheets_cover_the_portion": Break(LAB, add("sheets.plan.tiles.0.window.right", 50.0)),
    "register_marks_lie_on_both_sheets": Break(LAB, add("sheets.plan.register_marks.0.at.0", 50.0)),
    # the sheet
    "marks_are_printed_as_they_are": Break(LAB, add("marks.marks.1.along", 2.0)),
    "tapes_and_checks_are_printed_as_they_are": Break(LAB, add("marks.checks.2.distance", 2.0)),
    "a_printed_saw_line_is_never_nearer_to_the_top": Break(
        LAB, add("cuts.trims.2.start.point.1", -1.0)
    ),
    "saw_lines_and_guides_are_printed_as_they_are": Break(
        LAB, add("cuts.trims.0.guide.end.along", 3.0)
    ),
    "the_waste_lies_where_the_sheet_has_it": Break(LAB, set_to("cuts.trims.1.waste", [0.0, 1.0])),
    "legs_and_battens_are_printed_as_they_are": Break(LAB, add("table.battens.0.middle.0", 2.0)),
}
"""By the name of the check that must see it."""
