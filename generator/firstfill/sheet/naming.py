"""Saying what could have been meant: all that is allowed where that is few, else what is spelt most alike."""

from __future__ import annotations

from collections.abc import Iterable

from firstfill.specs.report import nearest

__all__ = ["one_of"]

_FEW = 16


def one_of(found: str, allowed: Iterable[str]) -> str:
    """Return what is expected in place of a word.

    Parameters
    ----------
    found
        The word that was found.
    allowed
        The words that have a meaning there.
    """
    words = list(allowed)
    if len(words) <= _FEW:
        return f"one of {', '.join(words)}"
    near = nearest(found, words)
    said = "one of the words that have a meaning here"
    return f"{said}, such as {', '.join(near)}" if near else said
