"""Rules of the walk about what is shut in at the cylinders: who may go there, and what must have been seen and read.

What is shut in there may be all that holds the leaf. So it is let down last: after the lines, from outside, with the
leaf seen to rest without it.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from firstfill.sheet.grammar import SiteState
from firstfill.sheet.plan import PlannedBlock
from firstfill.sheet.progress import At
from firstfill.sheet.words import StepWords

__all__ = ["PRESSURE_FITS", "against_ends", "against_proof", "against_seeing", "against_wind", "sees_at_rest", "stale"]

PRESSURE_FITS: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "zero": frozenset({"zero"}),
        "ends": frozenset({"zero", "ends"}),
        "low": frozenset({"zero", "low"}),
        "working": frozenset({"zero", "low", "working"}),
        "trapped": frozenset({"zero", "ends", "low", "working", "trapped"}),
    }
)
"""Pressure a step wants → those it may be begun at. ``ends``: lines proved at zero, cylinder ends still shut in."""
_LINES_READ = frozenset({"read", "proved"})
_SEEN_AT_REST = ("rest", "seen")


def sees_at_rest(words: StepWords) -> bool:
    """Tell whether a step is one in which the leaf is seen to rest."""
    return _SEEN_AT_REST in words.sets


def stale(at: At) -> tuple[tuple[str, str], ...]:
    """Return what holds no more after hours or days: the leaf was not seen since, nor a gauge read."""
    seen = (("rest", "unseen"),)
    return (*seen, ("lockout", "tried")) if at.mark("lockout") in _LINES_READ else seen


def against_ends(words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against going to the cylinders while their ends are shut in, and what is expected.

    Only two steps may: the one that lets the ends down, or reads that they are, and the one that fits the leaf
    restraint. A dry leaf that no oil ever moved may stand anywhere, if it was seen to stand still.

    Returns
    -------
    tuple
        Twice nothing where somebody may go.
    """
    lets_down = words.where == "valves" and words.after.pressure == "zero"
    fits_restraint = words.where == "sweep" and words.after.leaf == "held"
    if at.state.power != "locked" or at.state.pressure != "ends" or words.opens or not (lets_down or fits_restraint):
        return "pressure not at zero", "power locked, pressure zero"
    if at.mark("lockout") not in _LINES_READ:
        return f"the lockout {at.mark('lockout')}", "start tried, lines read at zero"
    dry = lets_down and at.mark("oil") == "none" and at.mark("rest") == "still"
    if at.state.leaf == "anywhere" and not dry:
        return "the leaf anywhere", "leaf on its stop, or held"
    if at.mark("rest") != "seen" and not dry:
        return f"the leaf at rest {at.mark('rest')}", "seen from outside the line to rest"
    return "", ""


def against_seeing(words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against the place from which a leaf is seen to rest, and what is expected."""
    if not sees_at_rest(words) or (words.where == "outside" and at.state.power == "locked"):
        return "", ""
    found = f"the leaf is seen at rest from {words.where} with power {at.state.power}"
    return found, "where: outside, power locked"


def against_wind(block: PlannedBlock, words: StepWords, at: At) -> tuple[str, str]:
    """Return what speaks against a leaf that merely rests while no oil holds it, and what is expected.

    Where wind can move it the restraint is in before an end is let down, and while anybody works or waits at zero. Only
    somebody who fits it may go in first. In a release it comes out once the ends are shut again and the tools are out;
    in a lockout whose volumes are all let down at the unit nobody is near while they are.
    """
    if (
        not block.case["wind-moves"]
        or at.state.leaf == "held"
        or at.state.power != "locked"
        or at.mark("oil") == "none"
    ):
        return "", ""
    fits_restraint = words.where == "sweep" and words.after.leaf == "held"
    lets_down = words.where == "valves" and words.after.pressure == "zero"
    works = at.state.pressure == "zero" and (
        block.kind not in {"lockout", "release"} or words.where in {"valves", "sweep"}
    )
    if fits_restraint or not (lets_down or works):
        return "", ""
    return "the ends let down and the leaf merely resting, where wind moves it", "the restraint fitted"


def against_proof(words: StepWords, before: SiteState) -> tuple[str, str]:
    """Return what speaks against a pressure that is said to be proved: it is by a gauge that is read, not by a way."""
    proved = words.after.pressure
    if proved not in {"zero", "ends"} or proved == before.pressure:
        return "", ""
    if any(box.target.kind == "zero" and box.each.endswith("gauge") for box in words.boxes):
        return "", ""
    return f"pressure goes from {before.pressure} to {proved} with no gauge read", "'box: … | gauge | zero | each …'"
