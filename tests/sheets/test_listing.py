"""The listing for the sale: what a buyer asks, nothing that promises, old paint where there is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from kept import sample_folders
from pieces import piece_of, table, top_alone

from panelwright.layout.words.listing import LOAD, WIDTH
from panelwright.layout.work.piece import sale_of

SAMPLES = sample_folders()


def listing_of(folder: Path) -> str:
    """Return the kept listing of a sample, which another test holds to be what comes out."""
    return (folder / "expected" / "listing.txt").read_text(encoding="utf-8")


def sale_in(folder: Path) -> dict[str, object]:
    """Return what its plan.json has of the sale."""
    record = json.loads((folder / "expected" / "plan.json").read_text(encoding="utf-8"))
    return dict(record["sale"])


@pytest.mark.parametrize("folder", SAMPLES, ids=lambda folder: folder.name)
def test_a_buyer_finds_what_he_asks_for(folder: Path) -> None:
    """Sizes, weight, doors, wood, what is old and new, finish, care, use, photographs."""
    text = listing_of(folder)
    for part in ("Sizes", "What it is made of", "Finish and care", "Use", "Photographs to take"):
        assert f"\n{part}\n" in text
    for word in ("Weight", "opening", "Old: ", "New: ", "Care: "):
        assert word in text
    assert max(map(len, text.splitlines())) <= WIDTH


@pytest.mark.parametrize("folder", SAMPLES, ids=lambda folder: folder.name)
def test_old_paint_is_told_of_where_there_may_be_lead(folder: Path) -> None:
    """The statement stands where age and coat call for it, and nowhere else."""
    assert ("held lead" in listing_of(folder)) is sale_in(folder)["may_hold_lead"]


def test_some_samples_have_old_paint_and_some_have_none() -> None:
    """So that the statement is seen both ways."""
    assert {bool(sale_in(folder)["may_hold_lead"]) for folder in SAMPLES} == {True, False}


@pytest.mark.parametrize("folder", SAMPLES, ids=lambda folder: folder.name)
def test_no_load_is_promised(folder: Path) -> None:
    """The words on use name no figure, and nothing is called safe or certified."""
    text = " ".join(listing_of(folder).split())
    assert LOAD in text
    assert not any(sign.isdigit() for sign in LOAD)
    for word in ("safe", "certified", "guarantee", "holds up to", "warrant"):
        assert word not in text.casefold()


def test_a_table_passes_the_opening_of_its_two_shorter_sides() -> None:
    """A table 800 by 400 and 726 high goes through 400 by 726; its top alone through 26 by 400."""
    stands = sale_of(piece_of(table(fixing="screwed")))
    assert stands.height == 726.0
    assert stands.opening == (400.0, 726.0)
    alone = sale_of(top_alone())
    assert (alone.opening, alone.knees) == ((26.0, 400.0), None)
