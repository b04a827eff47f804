"""`panelwright keys WORD`: what a job file can say, by the words that makers use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

import click

from .keys_found import REFERENCE, Row, every_row, found, nearest
from .reading import answer, as_json_option, stop

WIDTH = 88

EXAMPLES = """
\b
Examples:
  panelwright keys
  panelwright keys ring stain
  panelwright keys overhang
  panelwright keys [legs]
  panelwright keys --schema plan > plan.schema.json
"""


@click.command(epilog=EXAMPLES)
@click.argument("words", nargs=-1, metavar="[WORD]...")
@as_json_option
@click.option(
    "--schema",
    type=click.Choice(("job", "plan")),
    help="Print the JSON Schema of a job file, or of plan.json, instead.",
)
def keys(words: tuple[str, ...], schema: str | None) -> None:
    """Search the keys of a job file by name, by value or by a plain word.

    Each is told with its values, what holds where it is left out, and an example. Without a WORD
    the names of all keys are listed; a heading such as [legs] gives a whole table.
    """
    if schema is not None:
        click.echo((REFERENCE / f"{schema}.schema.json").read_text("utf-8"), nl=False)
        return
    rows = every_row()
    asked = " ".join(words)
    told: list[tuple[Row, str]] = found(rows, asked) if asked else [(r, r.example) for r in rows]
    if not told:
        near = nearest(rows, asked)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        stop(f"No key is found by {asked!r}{hint} `panelwright keys` lists them all.")
    answer(
        lambda: {"keys": [row.record | {"example": example} for row, example in told]},
        lambda: _told(told) if asked else _listed(rows),
    )


def _told(told: list[tuple[Row, str]]) -> Iterator[str]:
    heading = None
    for row, example in told:
        if row.table != heading:
            heading = row.table
            yield heading or "The top of the file"
        yield f"  {example or row.name}"
        left_out = f"Left out: {row.left_out}." if row.left_out else ""
        written, _, also = row.written.partition("; also ")
        more = f"; also {also.count('(')} more words" if also else ""
        for text in (f"{row.meaning}.", f"Value: {written}{more}. {left_out}"):
            yield from (f"      {line}" for line in wrap(text.replace("`", ""), WIDTH))


def _listed(rows: Sequence[Row]) -> Iterator[str]:
    for table in dict.fromkeys(row.table for row in rows):
        yield table or "The top of the file"
        names = ", ".join(row.name for row in rows if row.table == table)
        yield from (f"  {line}" for line in wrap(names, WIDTH))
