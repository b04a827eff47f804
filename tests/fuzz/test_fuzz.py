"""Mutations of jobs, options and calls, 1000 and 1000 more by hand: none crashes or waits."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from fuzz.calls import arguments
from fuzz.jobs import mutated

MANY = Path(__file__).with_name("many.py")
EACH = 500


@pytest.mark.parametrize(
    "first",
    [
        pytest.param(first, marks=pytest.mark.heavy if first < 1000 else pytest.mark.by_hand)
        for first in range(0, 2000, EACH)
    ],
)
def test_every_mutation_is_answered(first: int) -> None:
    """Each ends with 0, 1 or 2, with words, in its time and memory, its files whole or none."""
    typed = [sys.executable, str(MANY), "--first", str(first), "--many", str(EACH)]
    done = subprocess.run(typed, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_number_is_one_mutation() -> None:
    """The same number gives the same job and the same command, another number another."""
    assert mutated(5) == mutated(5) != mutated(6)
    assert arguments(36) == arguments(36)
    assert len({mutated(number) for number in range(200)}) > 190
