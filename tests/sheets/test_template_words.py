"""What template pages say: neighbours, faces, what to check, what is left out."""

from __future__ import annotations

import itertools

import pypdfium2
from readers import on
from template_strategies import bench_top, tile_scenes

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.scene import Stroke, Text, text_box
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.template.calibration import Correction
from panelwright.layout.template.paper import A4
from panelwright.layout.template.portions import portions, proposals, proposed
from panelwright.layout.template.wish import TemplateWish
from panelwright.layout.units import Tape


def test_neighbours_are_named_at_their_edges() -> None:
    """Every sheet names the sheet that joins it at each seam, and itself in large letters."""
    content = bench_top()
    proposal = proposed(content, TemplateWish(A4))
    scenes = template_pages(content, proposal)
    for number, name in tile_scenes(scenes):
        tile = proposal.plan.tiles[int(name) - 1]
        words = " · ".join(t.words for t in on(scenes[number], layers.SHEET) if isinstance(t, Text))
        for beside in (tile.right, tile.below):
            assert not beside or f"trim here, lay it on sheet {beside}" in words
        for beside in (tile.left, tile.above):
            assert not beside or f"sheet {beside} lies on this strip" in words
        large = [t for t in on(scenes[number], layers.LETTERING) if isinstance(t, Text)]
        assert max(large, key=lambda text: text.height).words == f"sheet {name}"


def test_no_words_cover_one_another() -> None:
    """On the sheets of the bench top no two texts overlap."""
    content = bench_top()
    for portion in ("quarter", "half", "whole", "end"):
        proposal = proposed(content, TemplateWish(A4, portion=portion))
        for scene in template_pages(content, proposal):
            boxes = [
                (text_box(item), item)
                for group in scene.groups
                for item in group.items
                if isinstance(item, Text)
            ]
            for (one, a), (other, b) in itertools.combinations(boxes, 2):
                wide = min(one.right, other.right) - max(one.left, other.left)
                high = min(one.top, other.top) - max(one.bottom, other.bottom)
                assert wide <= 0.05 or high <= 0.05, (a, b)


def test_mirrored_sheets_cannot_be_taken_for_the_face() -> None:
    """Seen from the underside every page says MIRRORED, and its flag flies the other way."""
    content = bench_top()
    for seen, says in ((content, False), (content.from_underside(), True)):
        scenes = template_pages(seen, proposed(seen, TemplateWish(A4)))
        for scene in scenes:
            words = [i.words for g in scene.groups for i in g.items if isinstance(i, Text)]
            assert any("MIRRORED" in w for w in words) == says
        for number, _ in tile_scenes(scenes):
            lettering = on(scenes[number], layers.LETTERING)
            poles = [i.path for i in lettering if isinstance(i, Stroke)]
            pole, flag, _foot = poles[:3]
            assert (flag.bounds.middle.x < pole.bounds.middle.x) == says


def test_the_cover_comes_first_and_says_what_to_check() -> None:
    """The cover holds the check list, what a wrong print reads, the map and the whole's lengths."""
    content = bench_top()
    proposal = proposed(content, TemplateWish(A4, correction=Correction(1.004, 1.0, "hall")))
    scenes = template_pages(content, proposal)
    page = pypdfium2.PdfDocument(to_pdf(scenes, "template"))[0].get_textpage().get_text_bounded()
    said = " ".join(page.split())
    assert scenes[0].title.startswith("Cover")
    assert "Print at 100 %" in said
    assert "fitted to Letter" in said
    assert 'Corrected for the printer "hall": 0.40 % larger along the short edge' in said
    for check in proposal.plan.check_lengths:
        assert f"{check.start} to {check.end}" in said
        assert Tape().measure(check.length) in said
    for tile in proposal.plan.tiles:
        assert tile.name in said


def test_every_portion_can_be_printed() -> None:
    """Each portion of a top gives its sheets, and the ordinates come last where wanted."""
    content = bench_top()
    for proposal in proposals(content, TemplateWish(A4)):
        scenes = template_pages(content, proposal)
        assert len(tile_scenes(scenes)) == proposal.sheets
        assert scenes[-1].title.startswith("Ordinates")
        without = template_pages(content, proposal, with_ordinates=False)
        assert len(tile_scenes(without)) == proposal.sheets
        assert not without[-1].title.startswith("Ordinates")
    assert {p.name for p in portions(content)} == {"whole", "half", "quarter", "end", "curves"}


def test_marks_that_no_sheet_shows_are_told() -> None:
    """Where only the curves are printed, the cover gives the place of every missing mark."""
    content = bench_top()
    proposal = proposed(content, TemplateWish(A4, portion="curves"))
    scenes = template_pages(content, proposal)
    words = [i.words for g in scenes[0].groups for i in g.items if isinstance(i, Text)]
    on_sheets = {
        item.words
        for scene in scenes[1:-1]
        for item in on(scene, layers.MARK_NAMES)
        if isinstance(item, Text)
    }
    told = {w.split(":")[0] for w in words if ": " in w and w[0] in "CF"}
    assert told | on_sheets >= {mark.label for mark in content.marks}
    whole = template_pages(content, proposed(content, TemplateWish(A4, portion="whole")))
    cover = " ".join(i.words for g in whole[0].groups for i in g.items if isinstance(i, Text))
    assert "not on the paper" not in cover
