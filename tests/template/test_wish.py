"""What is asked of the template is checked before anything is planned."""

from __future__ import annotations

import pytest

from panelwright.layout.errors import LayoutError
from panelwright.layout.template.paper import PAPERS
from panelwright.layout.template.wish import TemplateWish


@pytest.mark.parametrize("paper", PAPERS)
def test_the_defaults_suit_every_paper(paper: str) -> None:
    """10 mm of margin and 12 of overlap can be had on every paper that has a name."""
    assert TemplateWish(paper=paper).overlap == 12.0


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        ({"paper": "A5"}, "'A5' is not one of A4, A3"),
        ({"portion": "third"}, "'third' is not one of auto, whole"),
        ({"margin": -1.0}, "margin of -1 mm is below 0"),
        ({"margin": 90.0}, "margins leave 30 by 117 mm"),
        ({"overlap": 3.0}, "overlap of 3 mm is not between 8 mm"),
        ({"overlap": 100.0}, "overlap of 100 mm is not between"),
    ],
)
def test_what_cannot_be_printed_is_told(wish: dict[str, float | str], says: str) -> None:
    """A wish that no sheet can meet is refused with its value and its limit."""
    with pytest.raises(LayoutError, match=says):
        TemplateWish(**wish)  # type: ignore[arg-type]
