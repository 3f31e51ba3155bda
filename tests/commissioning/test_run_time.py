"""The run time of a row: the branch that gets least has its turnovers too, and the relief valve takes what it takes."""

from __future__ import annotations

import math

import pytest


def test_at_a_tee_the_longer_branch_has_its_turnovers(commissionings):
    # Swing pair at a tee: the least share of the flow that a branch may get is that of the longer one.
    done = commissionings["oddernsay-research-hangar"]
    runs = done.facts.runs.values()
    longer = max(
        sum(run.length.value * math.pi / 4.0 * run.inside_diameter.value**2 for run in runs if run.branch == branch)
        for branch in {run.branch for run in runs}
    )
    for stage in done.stages:
        share = done.ledger.get(f"bleed.stage.{stage.number}.branch_share_least")
        if share is None:
            continue
        least = stage.turnovers.value * longer / (share.number * done.ledger["pump.flow"].number)
        assert done.ledger[f"bleed.stage.{stage.number}.run_time"].number >= least


@pytest.mark.parametrize(("job", "row"), [("harrowmoss-machine-shed", 3), ("saltmarrow-depot", 2)])
def test_a_row_that_opens_the_relief_valve_takes_longer_than_the_whole_flow_would(commissionings, job, row):
    done = commissionings[job]
    relief = done.facts.unit.valves.relief
    assert done.ledger[f"bleed.stage.{row}.gauge_most"].number > relief.backed_off.value
    turnovers = done.stages[row - 1].turnovers.value
    whole = turnovers * done.ledger["bleed.circuit_volume"].number / done.ledger["pump.flow"].number
    # Half of the flow and more goes over it there.
    assert done.ledger[f"bleed.stage.{row}.run_time"].number > 2.0 * whole
