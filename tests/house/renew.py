"""Write the page of keys, the schemas and the pictures anew from the code: run by hand."""

from __future__ import annotations

import tempfile
from pathlib import Path

from click.testing import CliRunner
from readme import ROOT
from reference import PICTURES, REFERENCE, every_text, readme_job
from rooms_picture import rooms_picture
from search_picture import search_picture

from panelwright.cli.main import main


def draw() -> None:
    """Draw the README's job as its commands do."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "table.toml"
        job.write_text(readme_job(), encoding="utf-8")
        for words in (
            ["plan", job, "--out", folder],
            ["legs", job, "--svg", PICTURES / "legs.svg"],
        ):
            result = CliRunner().invoke(main, [str(word) for word in words])
            assert result.exit_code == 0, result.output
        plan = (Path(folder) / "plan.svg").read_bytes()
        (PICTURES / "plan.svg").write_bytes(plan)


if __name__ == "__main__":
    for name, text in every_text().items():
        (REFERENCE / name).write_text(text, encoding="utf-8")
    draw()
    rooms = rooms_picture(ROOT / "layout" / "fit", "layout/fit")
    (PICTURES / "fit-after.svg").write_text(rooms, encoding="utf-8")
    (PICTURES / "search.svg").write_text(search_picture(), encoding="utf-8")
