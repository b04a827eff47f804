"""The README and the part of it that the code writes."""

from __future__ import annotations

from pathlib import Path

from panelwright.layout.job.keys.table import keys_as_markdown

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
BEGIN = "<!-- keys: begin (written by the table in layout/job/keys) -->\n"
END = "<!-- keys: end -->"


def with_keys(text: str) -> str:
    """Return the README's text with its tables of keys as the code has them."""
    before, rest = text.split(BEGIN)
    after = rest[rest.index(END) :]
    return f"{before}{BEGIN}\n{keys_as_markdown().strip()}\n\n{after}"
