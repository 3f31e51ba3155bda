"""What the facts themselves are worth, and whether the wiring of the day lets the work be done."""

from __future__ import annotations

from firstfill.commissioning.check import Check
from firstfill.commissioning.workings import Workings

__all__ = ["check"]

_OVERRIDE_FACT = {"not_every_drive": "drives", "stays": "return"}


def check(w: Workings) -> None:
    """Check data status, line runs and wiring."""
    _data(w)
    _wiring(w)


def _data(w: Workings) -> None:
    facts = w.facts
    real = facts.data_status == "real"
    parts = {
        "job": facts.job,
        "door": facts.door,
        "unit": facts.unit,
        "fluid": facts.fluid,
        "maker": facts.maker,
        "dealer": facts.dealer,
    }
    invented = {name: part for name, part in parts.items() if part is not None and part.data_status == "invented"}
    where, part = next(iter(invented.items()), ("", facts.door))
    status = part.fact("data_status")
    w.checks.append(
        Check(
            "data.not_invented",
            "ok" if real else "caution",
            status,
            None,
            "real data",
            "definition",
            where,
            "" if real else "invented",
        )
    )
    planned = [identity for identity in facts.runs if identity not in facts.runs_as_built]
    w.checks.append(
        Check(
            "lines.as_built",
            "caution" if planned else "ok",
            facts.job.fact("line_runs"),
            None,
            "every run stated by the job",
            "definition",
            ", ".join(planned),
            "planned" if planned else "",
        )
    )


def _wiring(w: Workings) -> None:
    facts = w.facts
    wiring, mode = facts.job.fact("wiring"), facts.door.fact("control.mode")
    unprovable = facts.door.control.mode == "automatic" and facts.job.wiring != "complete"
    w.checks.append(
        Check(
            "wiring.automatic_provable",
            "stop" if unprovable else "ok",
            wiring,
            mode,
            "an automatic door only with complete wiring",
            "definition",
            reason="incomplete" if unprovable else "",
        )
    )
    directional = facts.unit.valves.directional
    override = directional.override
    # Without controls the leaf is bled and travels by hand: every drive needs its override.
    unworked = (
        [] if override.drives is None else [drive for drive in directional.drives if drive not in override.drives]
    )
    reason = "no_override" if override.kind == "none" else "not_every_drive" if unworked else ""
    # Whoever lets go of an override that stays where it is put does not stop the leaf.
    stays = override.return_ == "detent"
    reason = reason or ("stays" if stays else "")
    if facts.job.wiring != "motor power only":
        reason = ""
    w.checks.append(
        Check(
            "bleed.workable_in_wiring",
            "stop" if reason else "ok",
            wiring,
            facts.unit.fact(f"valves.directional.override.{_OVERRIDE_FACT.get(reason, 'kind')}"),
            "motor power only: an override for every drive of the directional valve, which goes back by itself",
            "definition",
            ", ".join(unworked) if reason else "",
            reason,
        )
    )
