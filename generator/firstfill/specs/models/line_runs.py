"""The lines between unit and cylinders, piece by piece."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from firstfill.quantities import Quantity
from firstfill.specs.facts import Fact, Missing
from firstfill.specs.models.base import SpecModel
from firstfill.specs.models.common import Side
from firstfill.specs.models.consistency import Consistency
from firstfill.specs.models.quantity_fields import ElasticModulus, GaugePressure, Identity, Length, Words
from firstfill.specs.report import listed

__all__ = ["COMMON_BRANCH", "LineRun", "check_line_runs"]

COMMON_BRANCH = "common"


class LineRun(SpecModel):
    """A piece of line. Runs of one ``side`` and ``branch`` are in series; branches of one side are parallel.

    The branch ``common`` carries the whole flow, before the line parts; ``only`` is that of a single cylinder.
    ``expansion_modulus`` is the elastic modulus of a hose's volume.
    """

    side: Side
    branch: Identity
    length: Length
    inside_diameter: Length
    kind: Literal["tube", "pipe", "hose"]
    rating: GaugePressure
    expansion_modulus: ElasticModulus | None = None
    where: Words


def check_line_runs(
    runs: Mapping[str, LineRun],
    acting: str,
    cylinders: int,
    consistency: Consistency,
    stated: tuple[Quantity | Fact | Missing, ...] = (),
) -> None:
    """Tell of runs that lead to no cylinder, and of sides and branches that are missing.

    Parameters
    ----------
    runs
        The runs by id.
    acting
        How the cylinders act: a plunger or pushing one has lines at its cap end only, a pulling one at its rod end.
    cylinders
        How many share the flow.
    consistency
        Takes the contradictions.
    stated
        Where kind and number of the cylinders are stated.
    """
    sides = {"push": ("cap",), "plunger": ("cap",), "pull": ("rod",)}.get(acting, ("cap", "rod"))
    branches: dict[str, dict[str, LineRun]] = {side: {} for side in sides}
    for run in runs.values():
        if run.side not in sides:
            found = f"a line at the {run.side} end of {acting} cylinders"
            consistency.tell(found, f"lines at the {sides[0]} end", "correct the side", run.fact("side"), *stated)
        else:
            branches[run.side].setdefault(run.branch, run)
    any_run = next(iter(runs.values()))
    for side, named in branches.items():
        if not named:
            found = f"no line at the {side} end of {acting} cylinders"
            consistency.tell(found, "lines at both ends", "add the runs of that side", any_run.written_at, *stated)
        _check_number(side, named, cylinders, consistency, stated)
    if len(sides) == 2 and all(branches.values()):
        _check_pairs(branches["cap"], branches["rod"], consistency)


def _check_number(
    side: str,
    named: Mapping[str, LineRun],
    cylinders: int,
    consistency: Consistency,
    stated: tuple[Quantity | Fact | Missing, ...],
) -> None:
    own = [branch for branch in named if branch != COMMON_BRANCH]
    if not named or len(own) in {1, cylinders}:
        return
    last = named[own[-1]] if own else named[COMMON_BRANCH]
    found = f"{len(own)} branches at the {side} end ({listed(own, 'and') or COMMON_BRANCH}) for {cylinders} cylinders"
    consistency.tell(found, "one branch for each cylinder", "correct the branches", last.fact("branch"), *stated)


def _check_pairs(cap: Mapping[str, LineRun], rod: Mapping[str, LineRun], consistency: Consistency) -> None:
    """Each branch leads to one cylinder, so it has a line at both of its ends."""
    for side, other, here, there in (("cap", "rod", cap, rod), ("rod", "cap", rod, cap)):
        for branch, run in here.items():
            if branch != COMMON_BRANCH and branch not in there:
                found = f"branch {branch} at the {side} end, but none at the {other} end"
                known = listed(name for name in there if name != COMMON_BRANCH)
                consistency.tell(found, f"the same branches at both ends: {known}", "correct it", run.fact("branch"))
