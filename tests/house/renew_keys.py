"""Write the README's tables of keys anew from the table in the code: run by hand."""

from __future__ import annotations

from readme import README, with_keys

if __name__ == "__main__":
    README.write_text(with_keys(README.read_text(encoding="utf-8")), encoding="utf-8")
