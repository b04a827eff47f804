"""How good the clean rectangles of offcuts are, by the boxes that are looked at: run by hand.

    python tests/benchmarks/clean_rectangles.py           # the offcuts of 60 random jobs
    python tests/benchmarks/clean_rectangles.py --quick   # of 10

Of each offcut that could be worth keeping: the share of the best of 500 boxes that few boxes find,
what of it is proved, and the processor seconds.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from random_jobs import job_text

from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.errors import NothingFitsError
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile.job import read_job
from panelwright.layout.offcuts.plan import largest_clean_rectangle, offcuts_of
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.plan.fitting import fits_of
from panelwright.layout.top import top_from

BOXES = (8, 32, 64, 128)
MANY = 500


def pieces(number: int) -> Iterator[Region]:
    """Yield the offcuts of a random job that could be worth keeping."""
    job = read_job(job_text(number))
    job = replace(job, wish=replace(job.wish, gap=0.02, most_steps=100))
    try:
        fit = fits_of(job)[0]
    except NothingFitsError:
        return
    top = top_from(fit, job.panel, job.wish, step=job.step, tape_error=job.tape_error)
    cuts = plan_cuts(top, choose_datum(job.panel, job.datum), job.tools, job.tape)
    for offcut in offcuts_of(job.panel, cuts.core, cuts.saw_kerfs).pieces:
        if offcut.clean is not None:
            yield offcut.piece


def main() -> None:
    """Print a line for each number of boxes."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--quick", action="store_true")
    jobs = 10 if asked.parse_args().quick else 60
    held = [piece for number in range(100, 100 + jobs) for piece in pieces(number)]
    best = [largest_clean_rectangle(piece, MANY) for piece in held]
    print(f"{len(held)} offcuts")
    for boxes in BOXES:
        started = process_time()
        found = [largest_clean_rectangle(piece, boxes) for piece in held]
        each = (process_time() - started) / len(held)
        pairs = [(f, b) for f, b in zip(found, best, strict=True) if f and b]
        share = np.array([f.box.area / max(f.box.area, b.box.area) for f, b in pairs])
        proved = np.array([f.box.area / f.most for f, _ in pairs])
        print(
            f"{boxes:4d} boxes: least {share.min():.3f} of the best, {np.mean(share < 0.99):.1%} "
            f"under 0.99; proved to {np.median(proved):.3f}; {each:.3f} s"
        )


if __name__ == "__main__":
    main()
