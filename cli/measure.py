"""`panelwright measure`: the sheet for the pocket, with a sketch and blanks to fill in."""

from __future__ import annotations

from pathlib import Path

import click

from .files import FILE, open_option, write_at
from .reading import answer, as_json_option, stop

SHAPES = ("four sides", "live edge", "round")
"""Panels that there is a sheet for: the names of the library's shapes, which are not imported for
help; a test holds the two alike."""

EXAMPLES = """
\b
Examples:
  panelwright measure --out pocket.pdf
  panelwright measure --shape "live edge" --paper Letter --out slab.svg
"""


@click.command(epilog=EXAMPLES)
@click.option("--shape", type=click.Choice(SHAPES), default=SHAPES[0], show_default=True,
              help="What the panel looks like.")  # fmt: skip
@click.option("--paper", type=click.Choice(("A4", "Letter")), default="A4", show_default=True,
              help="The sheet in the printer.")  # fmt: skip
@click.option(
    "--out", type=FILE, help="The file, a .pdf or an .svg; without it nothing is written."
)
@as_json_option
@open_option("out")
def measure(shape: str, paper: str, out: Path | None) -> Path | None:
    """Write the sheet that says what to measure on a panel before it is bought.

    One page for the pocket: a sketch with blanks for every length, diagonal and rise, a table for
    the defects, and what to ask. `panelwright fit --size` answers from two sizes alone, and
    `panelwright new` asks for what was written down.
    """
    from ..layout.words import measure as words

    told = "Nothing was written: name a file with --out, such as --out pocket.pdf."
    if out is not None:
        if out.suffix.lower() not in (".pdf", ".svg"):
            stop(f"{out}: is neither a .pdf nor an .svg: end the name with one of them")
        from ..layout.drawing.pdf import to_pdf
        from ..layout.drawing.svg import to_svg
        from ..layout.sheets.without_plan import measure_page
        from ..layout.template.paper import PAPERS

        scene = measure_page(words.Shape(shape), PAPERS[paper])
        is_svg = out.suffix.lower() == ".svg"
        write_at(out, to_svg(scene) if is_svg else to_pdf([scene], scene.title))
        told = f"Written to {out}: print it at 100 % and take a pencil, a tape and chalk."
    how = words.HOW[words.Shape(shape)]
    measured = [name for row in words.FIGURES for name in row if name]
    record = {"shape": shape, "how": how, "measure": measured, "ask": list(words.ASK)}
    answer(lambda: record, lambda: [told])
    return out
