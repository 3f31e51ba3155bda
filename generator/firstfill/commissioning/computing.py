"""A job computed: every subject in its order, the checks, the rows of bleeding, the verdict."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfill.commissioning import (
    air,
    bleed,
    bleed_checks,
    contents,
    control,
    cushion,
    cylinder,
    cylinder_strength,
    data,
    divider,
    energies,
    feed,
    gauge,
    geometry,
    hand_push,
    heat,
    holding,
    leaf,
    lines,
    looks,
    lowering,
    motor,
    oil,
    oil_checks,
    people,
    pump,
    relief,
    reservoir,
    reservoir_checks,
    restraint,
    site,
    times,
    trapped,
    wind,
    wind_at_rest,
)
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.check import Check, Verdict, worst
from firstfill.commissioning.ledger import Ledger
from firstfill.commissioning.table import GAUGE
from firstfill.commissioning.workings import Workings, conditions_of
from firstfill.specs import JobFacts

__all__ = ["Commissioning", "commission"]


@dataclass(frozen=True)
class Commissioning:
    """A job computed.

    Parameters
    ----------
    facts
        What it was computed from.
    ledger
        Every finding.
    checks
        Every check, in the order of the subjects.
    stages
        The rows of bleeding.
    verdict
        The worst of the checks.
    """

    facts: JobFacts
    ledger: Ledger
    checks: tuple[Check, ...]
    stages: tuple[BleedStage, ...]
    verdict: Verdict


_COMPUTE: tuple[Callable[[Workings], None], ...] = (
    site.compute,
    people.compute,
    cylinder.compute,
    geometry.compute,
    contents.compute,
    oil.compute,
    reservoir.compute,
    oil.compute_first_fill,
    reservoir.compute_levels,
    pump.compute_flow,
    looks.compute,
    pump.compute,
    leaf.compute,
    lines.compute,
    feed.compute,
    wind.compute,
    relief.compute,
    wind.compute_first_travel,
    holding.compute,
    cylinder_strength.compute,
    times.compute,
    motor.compute_starts,
    bleed.compute,
    wind_at_rest.compute,
    hand_push.compute,
    restraint.compute,
    oil.compute_order,
    heat.compute,
    trapped.compute,
    air.compute,
    energies.compute,
    motor.compute,
    gauge.compute,
)
"""Every subject in its order: each finds what it builds on in the ledger."""

_CHECK: tuple[Callable[[Workings], None], ...] = (
    site.check,
    people.check,
    geometry.check,
    oil_checks.check,
    reservoir_checks.check,
    pump.check,
    lines.check,
    feed.check,
    wind.check,
    relief.check,
    control.check,
    holding.check,
    cylinder_strength.check,
    lowering.check,
    times.check,
    cushion.check,
    divider.check,
    bleed_checks.check,
    wind_at_rest.check,
    hand_push.check,
    restraint.check,
    trapped.check,
    air.check,
    energies.check,
    motor.check,
    gauge.check,
    data.check,
)


def commission(facts: JobFacts) -> Commissioning:
    """Compute a job.

    Parameters
    ----------
    facts
        Everything that is known of it.

    Returns
    -------
    Commissioning
        Findings, checks, rows of bleeding, verdict. It does not know of the sheet: what only the sheet can count is
        added by :func:`firstfill.commissioning.counted.counted`.
    """
    ledger = Ledger()
    ledger.instruments[GAUGE] = gauge.of_instrument(facts, ledger)
    w = Workings(facts, ledger, conditions_of(facts, ledger))
    for step in (*_COMPUTE, *_CHECK):
        step(w)
    return Commissioning(facts, ledger, tuple(w.checks), tuple(w.stages), worst([made.verdict for made in w.checks]))
