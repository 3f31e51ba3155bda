"""Rules of the walk about a leaf that moves, or is off its cylinders: what must have been read, and be off, before."""

from __future__ import annotations

from firstfill.sheet.plan import PlannedBlock
from firstfill.sheet.progress import At
from firstfill.sheet.words import StepWords

__all__ = ["against_automatic", "against_hand", "against_override", "against_travel"]


def against_hand(words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against a leaf off its cylinders, and what is expected.

    By its manual release it is in one hand: the wind is read before that opens. Until it is latched again nothing is
    driven and nobody goes on to a release.
    """
    if ("hand-latch", "open") in words.sets and at.mark("wind") != "read":
        return f"the manual release is opened with the wind {at.mark('wind')}", "the wind read in this block"
    if at.mark("hand-latch") == "open" and (words.drives or ("release", "tools") in words.sets):
        return "the manual release still open", "latched again"
    return "", ""


def against_travel(block: PlannedBlock, words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against driving the leaf off its stop, and what is expected.

    In every block with travel the wind is read before the first of it; a step may ask for it in a box of its own. A row
    of bleeding pushes the leaf nowhere, and to its stop a leaf may go in any wind: there it can be held.
    """
    read = at.mark("wind") == "read" or any(box.unit == "wind" for box in words.boxes)
    if "off" in words.drives and block.row is None and not read:
        return f"drives off with the wind {at.mark('wind')}", "the wind read in this block, before the first travel"
    return "", ""


def against_automatic(words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against working while the door may move by itself, and what is expected.

    With automatic on only its owner drives it, to be shown; nobody tests, nobody reads anything at a leaf part open.
    """
    if at.mark("automatic") != "on" or ("automatic", "off") in words.sets or words.who == "owner":
        return "", ""
    if words.drives:
        return f"drives {' and '.join(words.drives)} with automatic on", "automatic off"
    if at.state.leaf == "anywhere" and (words.boxes or words.timers):
        return "something is read at a leaf part open with automatic on", "automatic off"
    return "", ""


def against_override(block: PlannedBlock, words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against a drive while an override that stays where it is put is open, and what is expected."""
    if block.case["override-stays"] and words.drives and at.mark("override") == "open":
        return f"drives {' and '.join(words.drives)} with the override still open", "seen at its shut end"
    return "", ""
