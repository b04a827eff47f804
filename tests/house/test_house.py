"""The README, the structure and the sizes of the house are what they are said to be."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from plain_words import PLAIN_WORDS
from readme import README, ROOT
from reference import REFERENCE, every_text, readme_job

from panelwright.cli.keys import every_row
from panelwright.cli.main import COMMANDS
from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.plan.fitting import fits_of

SOURCES = [*ROOT.glob("layout/**/*.py"), *ROOT.glob("cli/**/*.py")]


@pytest.mark.parametrize("name", every_text())
def test_what_is_written_from_the_code_is_up_to_date(name: str) -> None:
    """Page and schemas are those that `tests/house/renew.py` writes."""
    assert (REFERENCE / name).read_text(encoding="utf-8") == every_text()[name]


def test_every_plain_word_belongs_to_a_key() -> None:
    """None is left behind where a key goes."""
    keys = {f"{row.table.strip('[]')}.{row.name}".strip(".") for row in every_row()}
    assert set(PLAIN_WORDS) <= keys


def test_the_readmes_job_is_whole() -> None:
    """It can be planned as it stands, and every table of it is explained by a remark or by name."""
    reading = look_over(readme_job())
    assert reading.problems == reading.missing == ()


def test_the_readme_can_be_read_in_one_sitting() -> None:
    """It has fewer than 200 lines."""
    assert len(README.read_text(encoding="utf-8").splitlines()) < 200


def test_the_readme_names_every_command() -> None:
    """Whoever reads it learns of each."""
    text = README.read_text(encoding="utf-8")
    for name in COMMANDS:
        assert f"| `panelwright {name}" in text


def test_the_readme_links_to_nothing_but_its_pictures() -> None:
    """Two pictures lie beside it, made by the program; an index page shows it without them."""
    links = re.findall(r"\]\(([^)\s]+)", README.read_text(encoding="utf-8"))
    beside = [link for link in links if not link.startswith("https://")]
    assert beside == ["pictures/plan.svg", "pictures/legs.svg"]
    assert all((ROOT / link).is_file() for link in beside)


def test_the_readmes_two_commands_are_lines_to_paste() -> None:
    """Each sets up an environment of its own; one lays out a sample, the other runs the tests."""
    lines = [
        line
        for line in README.read_text(encoding="utf-8").splitlines()
        if line.startswith("python3 -m venv")
    ]
    assert len(lines) == 2
    sample = re.search(r"panelwright plan (\S+)", lines[0])
    assert sample is not None
    assert (ROOT / sample[1]).is_file()
    assert "pytest" in lines[1]


def test_the_readmes_python_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The example goes from panel to files in at most twenty lines, and plans the README's job."""
    (example,) = re.findall(r"```python\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    assert len(example.splitlines()) <= 20
    monkeypatch.chdir(tmp_path)
    scope: dict[str, object] = {"print": lambda *words: None}
    exec(example, scope)
    assert (tmp_path / "table" / "bench-sheet.html").is_file()
    best = fits_of(read_job(readme_job()))[0]
    assert scope["best"].outline == best.outline  # type: ignore[attr-defined]


def test_no_source_file_is_long() -> None:
    """A file that a newcomer reads in one sitting has at most 300 lines."""
    assert len(SOURCES) > 50
    long = {
        str(path.relative_to(ROOT)): count
        for path in SOURCES
        if (count := len(path.read_text(encoding="utf-8").splitlines())) > 300
    }
    assert long == {}


def test_packages_only_hand_names_on() -> None:
    """An `__init__` defines no function and no class."""
    for path in SOURCES:
        if path.name == "__init__.py":
            text = path.read_text(encoding="utf-8")
            assert not re.search(r"^(def|class) ", text, re.MULTILINE), path


def test_the_dependencies_have_lower_bounds() -> None:
    """Each names the oldest version that was tried."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = [item for group in project["optional-dependencies"].values() for item in group]
    for requirement in [*project["dependencies"], *extras]:
        assert ">=" in requirement or requirement.startswith("panelwright["), requirement
