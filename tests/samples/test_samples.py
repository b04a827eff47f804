"""Each sample still comes out the same: as numbers and geometry, on any machine."""

from __future__ import annotations

import io
import json
import math
import re
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from kept import plan_of, sample_folders

from panelwright.layout.sheets.folder import plan_files

NUMBER = re.compile(r"[-−]?\d+(?:\.\d+)?(?:e-?\d+)?")
WITHIN = 0.001
"""mm, and the last digit kept of other figures."""


@pytest.fixture(scope="module", params=sample_folders(), ids=lambda folder: folder.name)
def sample(request: pytest.FixtureRequest) -> tuple[Path, dict[str, str | bytes]]:
    """Lay out one sample; return where its expected sheets are, and its sheets."""
    return request.param / "expected", plan_files(plan_of(request.param))


def test_there_are_samples() -> None:
    """The workshop's three jobs are there, each with a story."""
    assert [folder.name for folder in sample_folders()] == [
        "corridor-door",
        "elm-slab",
        "lab-bench",
    ]
    assert all((folder / "README.md").is_file() for folder in sample_folders())


def test_the_same_files_come_out(sample: tuple[Path, dict[str, str | bytes]]) -> None:
    """No file is missing and none is new."""
    expected, files = sample
    assert {path.name for path in expected.iterdir()} == set(files)


def test_the_numbers_are_the_same(sample: tuple[Path, dict[str, str | bytes]]) -> None:
    """Every figure of plan.json agrees with the kept one, key by key."""
    expected, files = sample
    kept = json.loads((expected / "plan.json").read_text(encoding="utf-8"))
    differences = list(_differences(kept, json.loads(files["plan.json"]), "plan"))
    assert differences == []


@pytest.mark.parametrize(
    "name", ["plan.svg", "plan-underside.svg", "template.svg", "bench-sheet.html"]
)
def test_the_drawings_and_words_are_the_same(
    sample: tuple[Path, dict[str, str | bytes]], name: str
) -> None:
    """Apart from figures the text is the same, and the figures agree to a thousandth."""
    expected, files = sample
    kept, found = (expected / name).read_text(encoding="utf-8"), str(files[name])
    assert NUMBER.sub("#", kept) == NUMBER.sub("#", found)
    pairs = zip(NUMBER.findall(kept), NUMBER.findall(found), strict=True)
    assert [pair for pair in pairs if not _alike(*map(_figure, pair))] == []


def test_the_dxf_holds_the_same_entities(sample: tuple[Path, dict[str, str | bytes]]) -> None:
    """Read back by an independent library, layer by layer."""
    expected, files = sample
    kept = _entities((expected / "template.dxf").read_text(encoding="utf-8"))
    found = _entities(str(files["template.dxf"]))
    assert [name for name, _ in kept] == [name for name, _ in found]
    for (_, ours), (_, theirs) in zip(kept, found, strict=True):
        assert ours == pytest.approx(theirs, abs=WITHIN)


def test_the_pdf_has_the_same_pages_and_words(
    sample: tuple[Path, dict[str, str | bytes]],
) -> None:
    """Read back by an independent reader: page sizes, and every word in its place."""
    import pypdfium2

    expected, files = sample
    content = files["template.pdf"]
    assert isinstance(content, bytes)
    kept = pypdfium2.PdfDocument((expected / "template.pdf").read_bytes())
    found = pypdfium2.PdfDocument(content)
    assert len(kept) == len(found)
    for ours, theirs in zip(kept, found, strict=True):
        assert ours.get_size() == pytest.approx(theirs.get_size(), abs=0.01)
        assert ours.get_textpage().get_text_range() == theirs.get_textpage().get_text_range()
    kept.close()
    found.close()


def _entities(text: str) -> list[tuple[str, list[float]]]:
    document = ezdxf.read(io.StringIO(text))
    return [
        (f"{e.dxf.layer} {e.dxftype()}", _coordinates(e.dxfattribs()))
        for e in document.modelspace()
    ]


def _coordinates(attributes: dict[str, Any]) -> list[float]:
    values: list[float] = []
    for key in sorted(attributes):
        value = attributes[key]
        if isinstance(value, float):
            values.append(value)
        elif hasattr(value, "x"):
            values.extend((value.x, value.y))
    return values


def _figure(text: str) -> float:
    return float(text.replace("−", "-"))


def _alike(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=1e-6, abs_tol=WITHIN)


def _differences(kept: Any, found: Any, where: str) -> Any:  # noqa: ANN401 - JSON is anything
    """Yield every place where two JSON values differ by more than a thousandth."""
    if isinstance(kept, dict) and isinstance(found, dict):
        if kept.keys() != found.keys():
            yield where, sorted(kept.keys() ^ found.keys())
        for key in kept.keys() & found.keys():
            yield from _differences(kept[key], found[key], f"{where}.{key}")
    elif isinstance(kept, list) and isinstance(found, list) and len(kept) == len(found):
        for i, (one, other) in enumerate(zip(kept, found, strict=True)):
            yield from _differences(one, other, f"{where}[{i}]")
    elif isinstance(kept, int | float) and isinstance(found, int | float):
        if not _alike(kept, found):
            yield where, kept, found
    elif kept != found:
        yield where, kept, found
