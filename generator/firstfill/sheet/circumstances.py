"""Which of the conditions of the words hold for a job: read from its facts and findings, nothing computed anew."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from firstfill.commissioning import Commissioning
from firstfill.commissioning.bleed_stage import BleedStage
from firstfill.commissioning.people import posts
from firstfill.commissioning.showing import shown
from firstfill.specs import JobFacts

if TYPE_CHECKING:
    from firstfill.commissioning.check import Verdict

__all__ = ["is_held", "job_circumstances", "post_of_travel", "row_circumstances", "written_out_circumstances"]

_RAISED = frozenset({"tilt-up", "vertical lift"})


def _verdict(commissioning: Commissioning, identity: str) -> Verdict:
    return next((check.verdict for check in commissioning.checks if check.id == identity), "ok")


def _word(commissioning: Commissioning, name: str) -> str:
    finding = commissioning.ledger.get(name)
    return str(finding.value) if finding is not None and isinstance(finding.value, str) else ""


def is_held(commissioning: Commissioning) -> bool:
    """Tell whether the leaf is held while it is filled and bled: a bleed row wants it, or wind may move it."""
    return any(stage.leaf_held for stage in commissioning.stages) or _wind_moves(commissioning)


def _wind_moves(commissioning: Commissioning) -> bool:
    """Tell whether the leaf is held in each lockout: wind may move it, and the door has something to hold it there."""
    restraint = commissioning.facts.door.leaf_restraint
    there = restraint is not None and restraint.position == _word(commissioning, "oil.fill_position")
    return there and _word(commissioning, "leaf.wind_moves_at_rest") == "yes"


def _posts(facts: JobFacts) -> dict[str, bool]:
    wanted = posts(facts)
    return {
        "two-needed": wanted.least > 1,
        "watch-post": wanted.watch,
        "isolator-post": wanted.isolator,
        "posts-apart": wanted.watch and wanted.isolator and wanted.together is False,
    }


def post_of_travel(case: Mapping[str, bool]) -> str:
    """Return the label of who stands where while the leaf travels, or nothing where one person is enough."""
    labels = {"post apart": "posts-apart", "post isolator": "isolator-post", "post watch": "watch-post"}
    name = next((name for name, condition in labels.items() if case[condition]), "")
    return "post both" if name == "post isolator" and case["watch-post"] else name


def _worked_by_hand(facts: JobFacts) -> bool:
    """Tell whether every drive can be held by an override that goes back by itself."""
    directional = facts.unit.valves.directional
    override = directional.override
    worked = set(directional.drives if override.drives is None else override.drives)
    return override.kind != "none" and override.return_ != "detent" and worked >= set(directional.drives)


def _cylinder_circumstances(commissioning: Commissioning) -> dict[str, bool]:
    facts = commissioning.facts
    cylinders, valves = facts.door.cylinders, facts.unit.valves
    double = cylinders.acting in {"double", "through-rod"}
    twin = cylinders.per_leaf * facts.door.leaves > 1
    return {
        "cross-port": facts.unit.bleeding.arrangement == "cross-port",
        "vent": facts.unit.bleeding.arrangement == "vent to container",
        "double": double,
        "single-acting": not double,
        "plunger": cylinders.acting == "plunger",
        "by-weight": not double and _word(commissioning, "oil.fill_rods") != "out",
        "twin": twin,
        "pair": facts.door.leaves > 1,
        "divider": twin and valves.flow_divider is not None,
        "tee": twin and valves.flow_divider is None,
    }


def _unit_circumstances(commissioning: Commissioning) -> dict[str, bool]:
    facts = commissioning.facts
    valves = facts.unit.valves
    out = _word(commissioning, "oil.fill_rods") == "out"
    towards, off = ("extend", "retract") if out else ("retract", "extend")
    cushions = valves.cushion.adjusters if valves.cushion else {}
    override = valves.directional.override
    return {
        "cushion": bool(cushions),
        "cushion-towards": towards in cushions,
        "cushion-off": off in cushions,
        "speed": bool(valves.speed and valves.speed.adjusters),
        "raised": "energy.leaf" in commissioning.ledger,
        "load-holding": valves.load_holding is not None,
        "blocking-valve": valves.relief.set_against.what == "blocking valve",
        "ends-at-cylinder": any(volume.inside_the_line for volume in facts.unit.trapped_volumes.values()),
        "gauge-isolator": facts.unit.gauge.isolator is not None,
        "override": override.kind != "none",
        "override-stays": override.return_ == "detent",
        "closed-breather": facts.unit.reservoir.breather.kind == "closed",
    }


def _site_circumstances(commissioning: Commissioning) -> dict[str, bool]:
    facts = commissioning.facts
    job, control = facts.job, facts.door.control
    return {
        "complete": job.wiring == "complete",
        "motor-power-only": job.wiring == "motor power only",
        "none": job.wiring == "none",
        "answer-open": job.wiring == "none" and _worked_by_hand(facts),
        "three-phase": job.supply.phases == 3,
        "single-phase": job.supply.phases == 1,
        "automatic": control.mode == "automatic",
        "sensors": bool(control.devices),
        "fill-temperature-unknown": job.temperatures.fill is None,
        "revision-assumed": facts.revision.state == "assumed",
        "lines-planned": set(facts.runs) != set(facts.runs_as_built),
        "alone": job.site.people == 1,
        "people-unknown": job.site.people is None,
        **_posts(facts),
        "invented": facts.data_status == "invented",
        "manual-release": facts.door.manual_release is not None,
        "lowered-by-hand": facts.door.manual_release is not None and facts.door.type in _RAISED,
        "moved-by-hand": facts.door.manual_release is not None and facts.door.type not in _RAISED,
    }


def _stated_circumstances(facts: JobFacts) -> dict[str, bool]:
    return {
        "holding-stated": facts.unit.valves.load_holding is not None and facts.door.holding_setting is not None,
        "drift-stated": facts.door.drift is not None,
        "difference-stated": facts.door.side_difference is not None,
        "times-asked": facts.door.times is not None,
        "prop-stated": facts.door.blocking is not None,
        "inlet-port": facts.unit.pump.inlet_fill is not None,
        "bursts-stated": facts.unit.bleeding.cold_start is not None,
        "rest-stated": facts.unit.motor.rest_between_starts is not None,
    }


def _winds_differ(commissioning: Commissioning) -> bool:
    """Tell whether the wind limit of the first travels is printed lower than that of the door."""
    ledger, facts = commissioning.ledger, commissioning.facts
    return shown(ledger["leaf.wind_first_travel"], facts).text != shown(ledger["leaf.wind_working"], facts).text


def _cold_later(commissioning: Commissioning) -> bool:
    """Tell whether the door may start later on oil that wants bursts first: as both temperatures are printed."""
    ledger, facts = commissioning.ledger, commissioning.facts
    coldest, bursts = (shown(ledger[name], facts).first for name in ("oil.coldest_later", "oil.bursts_below"))
    return coldest is not None and bursts is not None and coldest.value < bursts.value


def _midway(commissioning: Commissioning) -> bool:
    """Tell whether a pressure is set on the way to the final one: as printed, it is neither of the two ends."""
    ledger, facts = commissioning.ledger, commissioning.facts
    midway = ledger["relief.midway"]
    ends = (shown(ledger[name], facts).text for name in ("relief.travel", "relief.target"))
    return bool(midway.refused) or shown(midway, facts).text not in ends


def job_circumstances(commissioning: Commissioning) -> dict[str, bool]:
    """Return the truth of every condition that holds for the whole job."""
    fall = commissioning.ledger.get("air.level_fall_allowed")
    filled_open = _word(commissioning, "oil.fill_position") == "open"
    seen = fall is not None and not fall.refused and _verdict(commissioning, "air.visible") == "ok"
    return {
        **_cylinder_circumstances(commissioning),
        **_unit_circumstances(commissioning),
        **_site_circumstances(commissioning),
        **_stated_circumstances(commissioning.facts),
        "held": is_held(commissioning),
        "wind-moves": _wind_moves(commissioning),
        "filled-open": filled_open,
        "brought-by-hand": filled_open and "energy.leaf" not in commissioning.ledger,
        "cold": _verdict(commissioning, "oil.thin_enough_to_fill") != "ok",
        "first-extension-short": _verdict(commissioning, "bleed.first_extension_fits") != "ok",
        "isolator-far": _verdict(commissioning, "site.isolator_near") != "ok",
        "air-visible": seen,
        "cold-later": _cold_later(commissioning),
        "winds-differ": _winds_differ(commissioning),
        "midway": _midway(commissioning),
    }


def row_circumstances(commissioning: Commissioning, stage: BleedStage) -> dict[str, bool]:
    """Return the truth of every condition that holds for one bleed row."""
    gauge = commissioning.ledger.get(f"bleed.stage.{stage.number}.gauge_most")
    opens = commissioning.ledger.get("relief.opens_backed_off")
    over = gauge is not None and opens is not None and not gauge.refused and not opens.refused
    return {
        "first-row": stage.number == commissioning.stages[0].number,
        "last-row": stage.number == commissioning.stages[-1].number,
        "shut-row": stage.opening.value == 0,
        "towards-allowed": "towards" in stage.directions,
        "off-allowed": "off" in stage.directions,
        "held-row": stage.leaf_held,
        "over-relief": over and gauge is not None and opens is not None and gauge.number > opens.number,
    }


def written_out_circumstances(job: Mapping[str, bool], given: tuple[str, ...]) -> dict[str, bool]:
    """Return the truth of the conditions of a written-out lockout; ``given`` are those its place names."""
    first = "first-lockout" in given
    return {"first-lockout": first, "not-connected": first and job["none"], "bled": "bled" in given}
