"""The documents of every key, written from the sections."""

from __future__ import annotations

from ..keys.key import Key, Section
from ..legs.materials import MASONRY, METALS
from ..panel.defect_kinds import DEFECT_KINDS
from ..panel.materials import MATERIALS
from .sections import SECTIONS


def keys_as_markdown() -> str:
    """Return the documents of every key: one heading and one table a section."""
    parts = [_section(section) for section in SECTIONS]
    return "\n\n".join((*parts, _defect_kinds(), _materials())) + "\n"


def _section(section: Section) -> str:
    title = f"`{section.heading}`" if section.heading else "Top of the file"
    rows = ["| key | value | where it is left out | meaning | example |", "|---|---|---|---|---|"]
    rows += [_row(key) for key in section.keys if key.example != "{ }"]
    return f"### {title}\n\n{section.meaning}\n\n" + "\n".join(rows)


def _row(key: Key) -> str:
    example = f"`{key.name} = {key.example}`" if key.example else ""
    cells = (f"`{key.name}`", key.kind.words, key.usual or "–", key.meaning, example)
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _defect_kinds() -> str:
    rows = ["| kind | spoils | clear | ends |", "|---|---|---|---|"]
    for name, kind in DEFECT_KINDS.items():
        spoils = ", ".join(spoilt.value for spoilt in kind.spoils) or "nothing"
        rows.append(f"| `{name}` | {spoils} | {kind.clear:g} mm | {kind.ends:g} mm |")
    meaning = (
        "What each spoils and keeps clear where its keys are left out (common practice). What no "
        "blade may cross is kept clear by at least what saw, jigsaw and router take outside the "
        "line. A split runs on by `ends` past both ends of an oblong `size`, else along the grain, "
        "whatever its `clear`; by `points` without a `clear` the larger of the two is kept all "
        "round."
    )
    return f"### Kinds of defects\n\n{meaning}\n\n" + "\n".join(rows)


def _materials() -> str:
    names = ", ".join(f"`{name}` {material.density:.0f}" for name, material in MATERIALS.items())
    legs = ", ".join(f"`{name}` {m.density:.0f}" for name, m in {**METALS, **MASONRY}.items())
    return (
        f"### Materials\n\nEach with the density, kg/m³, that it is weighed by: {names}.\n\n"
        f"Legs may also be of {legs}."
    )
