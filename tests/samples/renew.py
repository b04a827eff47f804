"""Write the expected sheets of every sample anew: run by hand, then look at each difference."""

from __future__ import annotations

from kept import plan_of, sample_folders

from panelwright.cli.files import write_all
from panelwright.layout.sheets.folder import plan_files

if __name__ == "__main__":
    for folder in sample_folders():
        files = plan_files(plan_of(folder))
        write_all(folder / "expected", files)
        for path in (folder / "expected").iterdir():
            if path.name not in files:
                path.unlink()
        print(folder.name)
