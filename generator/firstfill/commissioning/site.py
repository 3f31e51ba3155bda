"""The site: the pressure of its air, and what the people on it have to know of it and of the door."""

from __future__ import annotations

from firstfill.commissioning.check import Check, Verdict
from firstfill.commissioning.judging import Judgement, at_most, judge
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.atmosphere import ambient_pressure
from firstfill.hydraulics.constants import ISOLATOR_NEAR
from firstfill.quantities import Quantity
from firstfill.specs.facts import Missing

__all__ = ["check", "compute"]


def compute(w: Workings) -> None:
    """Enter the pressure of the air, at the highest the site may lie."""
    altitude = w.facts.job.site.altitude
    highest = w.ledger.bound(altitude, "most") if altitude.tolerance else altitude
    w.ledger.compute("site.ambient_pressure", ambient_pressure, altitude=highest)


def check(w: Workings) -> None:
    """Check where isolator and unit are, which unit it is, and whether the leaf can be moved without power."""
    distance = w.facts.job.site.fact("isolator_distance")

    def near() -> Judgement:
        assert isinstance(distance, Quantity)
        return ("ok", "") if at_most(distance.value, ISOLATOR_NEAR.value) else ("caution", "above")

    judge(w, "site.isolator_near", distance, ISOLATOR_NEAR, "≤ 15 m", "practice", near, missing="caution")
    stands = w.facts.unit.fact("stands.outside_sweep")
    outside: Verdict = "caution" if isinstance(stands, Missing) else "ok" if stands.value is True else "stop"
    reason = {"ok": "", "caution": "missing", "stop": "inside"}[outside]
    w.checks.append(
        Check("unit.outside_sweep", outside, stands, None, "outside the sweep of the leaf", "practice", reason=reason)
    )
    serial = w.facts.job.fact("power_unit.serial")
    given = w.facts.revision.state == "given"
    w.checks.append(
        Check(
            "unit.revision_known",
            "ok" if given else "caution",
            serial,
            None,
            "serial number given",
            "definition",
            reason="" if given else "assumed",
        )
    )
    release = w.facts.door.fact("manual_release")
    stated = not isinstance(release, Missing)
    w.checks.append(
        Check(
            "leaf.moved_without_power",
            "ok" if stated else "caution",
            release,
            None,
            "a manual release stated",
            "ufgs-08331n",
            reason="" if stated else "missing",
        )
    )
