"""Writing a folder whole or not at all: into a fresh one beside it, switched in one step.

Whatever ends the run before the switch (an error, a full disk, a pulled plug) leaves the earlier folder as it was.
Where the system can exchange two names in one step there is no moment without a folder; elsewhere the earlier one is
set aside for an instant, and a run that is ended in that instant has it brought back by the next one.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["fresh_folder"]

# Of renameat2, Linux: paths that are relative begin where the process stands; exchange the two.
_HERE, _EXCHANGE = -100, 2


@contextmanager
def fresh_folder(target: Path) -> Iterator[Path]:
    """Yield an empty folder that takes the place of ``target`` when the block ends well.

    Parameters
    ----------
    target
        The folder to replace; need not exist.

    Raises
    ------
    OSError
        When the place cannot be written; ``target`` is untouched then.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    _sweep(target)
    fresh = _beside(target, "new", os.getpid())
    fresh.mkdir()
    try:
        yield fresh
        _flush(fresh)
        _switch(fresh, target)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _beside(target: Path, what: str, process: int) -> Path:
    return target.with_name(f".{target.name}.{what}-{process}")


def _flush(folder: Path) -> None:
    """Let the disk have every file before any name points to it."""
    for path in (folder, *folder.rglob("*")):
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _switch(fresh: Path, target: Path) -> None:
    earlier = _beside(target, "old", os.getpid())
    if not target.exists():
        fresh.rename(target)
        return
    if _exchanged(fresh, target):
        shutil.rmtree(fresh)
        return
    target.rename(earlier)
    try:
        fresh.rename(target)
    except BaseException:
        earlier.rename(target)
        raise
    shutil.rmtree(earlier)


def _exchanged(one: Path, other: Path) -> bool:
    """Exchange two folders in one step, where the system can; say whether it did."""
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if sys.platform == "linux" else None
    if rename is None:
        return False
    return bool(rename(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0)


def _sweep(target: Path) -> None:
    """Clear away what a killed run left; bring back what it had put aside but not yet replaced."""
    for left in sorted(target.parent.glob(f".{target.name}.*-*")):
        what, _, process = left.name.removeprefix(f".{target.name}.").partition("-")
        if what not in {"new", "old"} or not process.isdigit() or _runs(int(process)):
            continue
        if what == "old" and not target.exists():
            left.rename(target)
        else:
            shutil.rmtree(left)


def _runs(process: int) -> bool:
    if process == os.getpid():
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
