"""Writing a folder whole or not at all: into a fresh one beside it, switched by renaming.

Whatever ends the run before the switch (an error, a full disk, a pulled plug) leaves the earlier folder as it was.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["fresh_folder"]


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
    target.rename(earlier)
    try:
        fresh.rename(target)
    except BaseException:
        earlier.rename(target)
        raise
    shutil.rmtree(earlier)


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
