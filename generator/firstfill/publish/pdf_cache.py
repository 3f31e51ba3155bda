"""PDFs kept by what they are made of, because setting the type of a sheet takes seconds.

A file is found only under the hash of everything that could make a difference: the page, the style, every file of the
program, the libraries that set the type. It holds its own hash, so that a torn or altered one is made anew.
"""

from __future__ import annotations

import hashlib
import os
from contextlib import suppress
from functools import lru_cache
from pathlib import Path

import firstfill
from firstfill.publish.pdf import pdf_bytes, typesetters
from firstfill.sheet.document import Sheet

__all__ = ["kept_pdf"]

_MOST_KEPT = 400
_HASH = 32


@lru_cache(maxsize=1)
def _makers() -> bytes:
    """Return the hash of what makes the pages: every file of the program, and the libraries with their versions."""
    made = hashlib.sha256(typesetters().encode())
    program = Path(firstfill.__file__).parent
    for path in sorted(path for path in program.rglob("*") if path.is_file() and path.suffix != ".pyc"):
        made.update(path.relative_to(program).as_posix().encode() + b"\0" + path.read_bytes())
    return made.digest()


def _path(html: str, sheet: Sheet, style: str, folder: Path) -> Path:
    of = f"{style}\0{sheet.identity.job}\0{sheet.identity.fingerprint}\0{html}".encode()
    return folder / hashlib.sha256(_makers() + of).hexdigest()


def kept_pdf(html: str, sheet: Sheet, style: str, folder: Path) -> bytes:
    """Return printed pages as PDF, made now or kept from before: the bytes are the same.

    Parameters
    ----------
    html, sheet, style
        As :func:`firstfill.publish.pdf.pdf_bytes` takes them.
    folder
        Where they are kept.
    """
    path = _path(html, sheet, style, folder)
    kept = _read(path)
    if kept is not None:
        return kept
    made = pdf_bytes(html, sheet, style)
    _write(path, made)
    return made


def _read(path: Path) -> bytes | None:
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return None
    if hashlib.sha256(content[_HASH:]).digest() != content[:_HASH]:
        return None
    os.utime(path)
    return content[_HASH:]


def _write(path: Path, made: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f"{path.name}.{os.getpid()}")
    fresh.write_bytes(hashlib.sha256(made).digest() + made)
    fresh.replace(path)
    _forget_oldest(path.parent)


def _forget_oldest(folder: Path) -> None:
    """Keep the files used last; another process may tidy up at the same time."""
    used: dict[Path, float] = {}
    for path in folder.iterdir():
        with suppress(FileNotFoundError):
            used[path] = path.stat().st_mtime
    for path in sorted(used, key=lambda path: used[path])[:-_MOST_KEPT]:
        path.unlink(missing_ok=True)
