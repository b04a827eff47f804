"""A kept sheet and one that was changed by hand: what counts is told, and what does not is not."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from alike import differences
from kept import SAMPLES

KEPT = SAMPLES / "lab-bench" / "expected"
TEXTS = [path.name for path in sorted(KEPT.iterdir()) if path.suffix != ".pdf"]
DRAWN = {
    "bench-sheet.html": r'<path d="M (\S+)',
    "plan.svg": r'<path d="M (\S+)',
    "template-mirrored.svg": r'<path d="M (\S+)',
    "template-mirrored.dxf": r"AcDbLine\n 10\n(\S+)",
    "template-mirrored.pdf": r"([\d.]+) [\d.]+ m ",
}
"""Where the first path of each drawing begins: its x."""


def text_of(name: str) -> str:
    """Return a kept sheet; of a PDF file its second page, where the drawing begins."""
    if name.endswith(".pdf"):
        with pikepdf.open(KEPT / name) as document:
            return document.pages[1].Contents.read_bytes().decode("latin-1")
    return (KEPT / name).read_text(encoding="utf-8")


def told_of(name: str, change: Callable[[str], str]) -> list[str]:
    """Return what is told of a sheet whose text was changed."""
    text = text_of(name)
    changed = change(text)
    assert changed != text
    if not name.endswith(".pdf"):
        return differences(name, text, changed)
    content = io.BytesIO()
    with pikepdf.open(KEPT / name) as document:
        document.pages[1].Contents.write(changed.encode("latin-1"))
        document.save(content)
    return differences(name, (KEPT / name).read_bytes(), content.getvalue())


def moved(pattern: str, by: float) -> Callable[[str], str]:
    """Return the change that adds to the first figure that a pattern finds."""

    def change(text: str) -> str:
        match = re.search(pattern, text)
        assert match is not None
        return f"{text[: match.start(1)]}{float(match[1]) + by:.6f}{text[match.end(1) :]}"

    return change


@pytest.mark.parametrize("path", sorted(KEPT.iterdir()), ids=lambda path: path.name)
def test_a_sheet_is_like_itself(path: Path) -> None:
    """Nothing is told of a sheet that did not change."""
    content = path.read_bytes() if path.suffix == ".pdf" else path.read_text(encoding="utf-8")
    assert differences(path.name, content, content) == []


@pytest.mark.parametrize(("by", "told"), [(0.002, True), (-0.002, True), (0.0005, False)])
def test_a_figure_counts_to_a_thousandth(by: float, told: bool) -> None:
    """Two thousandths are told, with the step, the old and the new figure; half of one is not."""
    lines = told_of("bench-sheet.html", moved(r'"u1">196<[^(]*?"u1">(140)<', by))
    assert len(lines) == told
    for line in lines:
        assert '"Behind it", "What holds it"' in line
        assert f"was 140, is {140 + by:.6f}" in line


@pytest.mark.parametrize("name", DRAWN)
def test_a_path_that_moved_is_told(name: str) -> None:
    """By two thousandths of a millimetre in each drawing, and it is one path that is told."""
    unit = 72 / 25.4 if name.endswith(".pdf") else 1.0
    (line,) = told_of(name, moved(DRAWN[name], 0.002 * unit))
    assert line.startswith(name)
    assert re.search(r": was \S+, is \S+, in: ", line)
    assert told_of(name, moved(DRAWN[name], 0.0005 * unit)) == []


def test_a_figure_of_the_plan_is_told_by_its_name() -> None:
    """By the names of the step and of the value; an area counts to a millionth of itself."""
    (line,) = told_of("plan.json", moved(r'"label": "Cut 2"[^}]*?"along": ([\d.]+)', 0.002))
    assert line.startswith('plan.json, cuts, trims 2 "Cut 2", start, along: was ')
    area = r'"area": (7532\d\d\.\d+)'
    assert told_of("plan.json", moved(area, 0.5)) == []
    assert told_of("plan.json", moved(area, 1.0)) != []


def replaced(old: str, new: str) -> Callable[[str], str]:
    """Return the change of the first such words."""
    return lambda text: text.replace(old, new, 1)


def test_a_word_that_changed_is_told() -> None:
    """With its step, and what it was and is."""
    (line,) = told_of("bench-sheet.html", replaced("battens, story stick and", "battens and"))
    assert '"Behind it", "Offcuts"' in line
    assert "was td: battens, story stick and glue blocks, is td: battens and glue" in line
    (line,) = told_of("template-mirrored.pdf", replaced("(print at 100 %", "(printed at 100 %"))
    assert line.startswith("template-mirrored.pdf, sheet 2, ")
    (line,) = told_of("plan.json", replaced('"right tap hole"', '"right hole"'))
    assert line.endswith("was right tap hole, is right hole")


@pytest.mark.parametrize(
    ("name", "element", "place"),
    [
        ("plan.svg", r'<path d="[^"]*" />|<path d="[^"]*"></path>', "plan.svg, "),
        ("bench-sheet.html", r"<tr><td>3</td><td>right tap hole.*?</tr>", '"Behind it", "What'),
        ("template-mirrored.dxf", r"  0\nCIRCLE\n.*?(?=  0\n)", "template-mirrored.dxf, layer "),
        (
            "template-mirrored.pdf",
            r"[\d.]+ [\d.]+ m [\d.]+ [\d.]+ l S",
            "template-mirrored.pdf, sheet 2, ",
        ),
        ("plan.json", r'"corner_radius": null,', "plan.json, top, corner_radius"),
    ],
)
def test_an_element_that_is_missing_is_told(name: str, element: str, place: str) -> None:
    """As missing, and nothing is told of any other place."""
    lines = told_of(name, lambda text: re.sub(element, "", text, count=1, flags=re.DOTALL))
    assert any(": missing: " in line for line in lines)
    assert all(place in line for line in lines)


def test_an_element_that_is_new_is_told() -> None:
    """And one more path in a drawing is one line."""
    (line,) = told_of("plan.svg", lambda text: text.replace("</g>", '<path d="M 1 2" /></g>', 1))
    assert line == 'plan.svg, "Face of the old panel", item 3: new: path d="M 1 2"'


def test_two_elements_that_changed_places_are_told() -> None:
    """What is drawn later lies on top: the order counts."""

    def swapped(text: str) -> str:
        one, other = re.findall(r"<text [^>]*>[^<]*</text>", text)[:2]
        return text.replace(one, "@").replace(other, one, 1).replace("@", other, 1)

    assert told_of("template-mirrored.svg", swapped)
