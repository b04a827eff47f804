"""A browser for the tests that need one: Debian's Chromium, driven by Playwright."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest

REQUIRED = "PANELWRIGHT_BROWSER"
"""Set to "required", a missing browser fails its tests and does not skip them."""


def _missing(reason: str) -> None:
    if os.environ.get(REQUIRED) == "required":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Start Chromium, once for all tests of a process."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        _missing("no chromium on the path: apt-get install chromium")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        _missing("playwright is not installed: pip install playwright")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield started
        started.close()
