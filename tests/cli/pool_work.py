"""Work that other processes can find by name."""

from __future__ import annotations

import os
import signal
from pathlib import Path

from firstfill.errors import FactsError, Location, Problem


def square(number: int) -> int:
    return number * number


def die_once(mark: Path) -> str:
    if not mark.exists():
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return mark.name


def die_always(_: int) -> int:
    os.kill(os.getpid(), signal.SIGKILL)
    return 0


def fail(_: int) -> int:
    raise FactsError(Problem("facts-test", "a text", "a number", "write one", Location("a.yaml", 1, 2)))
