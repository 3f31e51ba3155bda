"""The program as a process of its own, as somebody at a terminal runs it."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

PROGRAM = (sys.executable, "-c", "from firstfill.cli import main; main()")


def started(*arguments: str, place: Path, **options: Any) -> subprocess.Popen[str]:
    """Start the program in a folder and return its process."""
    environment = {name: value for name, value in os.environ.items() if name != "FIRSTFILL_DEBUG"}
    return subprocess.Popen(
        [*PROGRAM, *arguments],
        cwd=place,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=environment,
        **options,
    )


def ended(*arguments: str, place: Path, **options: Any) -> tuple[int, str, str]:
    """Run the program to its end: exit code, output, errors."""
    process = started(*arguments, place=place, **options)
    out, errors = process.communicate(timeout=120)
    return process.returncode, out, errors


def sums(folder: Path) -> dict[str, str]:
    """Return the sum of every file below a folder, so that two states can be compared."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
