"""What is written from the keys and values of the code: the page of keys and the schemas."""

from __future__ import annotations

import json
import re

from job_schema import job_schema, keys_as_markdown, rows
from plan_schema import plan_schema
from readme import README, ROOT

REFERENCE = ROOT / "layout" / "reference"
PICTURES = ROOT / "pictures"

KEYS = """# The keys of a job file

Written from the keys that the code works by; `panelwright keys WORD` searches them. A length is a
number in the file's `units`, or a text with its own unit: `"80 cm"`, `"31 3/8 in"`, `"2ft 6in"`,
`"5' 3 1/2\\""`. The panel lies show face up, its datum corner A at the origin, x along the datum
edge, y up.

"""


def every_text() -> dict[str, str]:
    """Return the text of each file by its name."""
    return {
        "keys.md": KEYS + keys_as_markdown(),
        "keys.json": _json(rows()),
        "job.schema.json": _json(job_schema()),
        "plan.schema.json": _json(plan_schema()),
    }


def readme_job() -> str:
    """Return the job file that the README shows."""
    (job,) = re.findall(r"```toml\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    return str(job)


def _json(schema: object) -> str:
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
