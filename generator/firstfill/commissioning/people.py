"""The people a job needs while power is on: who holds the control, who works at the unit meanwhile, who watches.

Three kinds of act ask for them. *Travel*: one holds the control, gauge and sight glass are watched. *Hold*: one holds
the control of a bleed row, and where oil leaves through vents the ends of their hoses are watched. *Setting*: one works
at the unit, at an adjuster, the fan or the sight glass, while another holds the control. Somebody reaches the isolator
in all of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.commissioning.check import Check
from firstfill.commissioning.finding import Input
from firstfill.commissioning.judging import Judgement, at_most
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import ARM_REACH, ISOLATOR_REACH, ISOLATOR_WATCH, Constant
from firstfill.quantities import Quantity
from firstfill.specs import JobFacts

__all__ = ["Posts", "check", "compute", "posts"]


@dataclass(frozen=True, slots=True)
class Posts:
    """What has to be done while another holds the control.

    Parameters
    ----------
    watch
        Somebody watches what is not seen from the place where the control is held: gauge or sight glass.
    isolator
        Somebody stands at the isolator, out of reach from that place or nobody knows how far.
    together
        Whether one person can do both: the isolator is so near the unit that the sight glass is seen from it;
        ``None`` where nobody stated how far it is.
    containers
        Somebody watches the ends of the vent hoses while oil is pumped: at the isolator, if somebody stands there.
    gauge
        Somebody reads the gauge in a hold: it is not seen from where the control is held.
    apart
        Whoever works at the unit does not reach the control: another holds it.
    setting_isolator
        In that act nobody of the two reaches the isolator.
    """

    watch: bool
    isolator: bool
    together: bool | None
    containers: bool
    gauge: bool
    apart: bool
    setting_isolator: bool

    @property
    def travel(self) -> int:
        """People a travel needs at least, the one who holds the control counted."""
        apart = self.watch and self.isolator and self.together is False
        return 1 + (2 if apart else int(self.watch or self.isolator))

    @property
    def hold(self) -> int:
        """People a hold of a bleed row needs at least.

        Through vents its seconds never reach the low mark, so that nobody has to watch the sight glass meanwhile.
        """
        if not self.containers:
            return self.travel
        return 2 + int(self.gauge)

    @property
    def setting(self) -> int:
        """People it takes to set a valve, or to read the sight glass, while the control is held."""
        return 1 + int(self.apart) + int(self.setting_isolator)

    @property
    def least(self) -> int:
        """People needed at least: the most over all acts."""
        return max(self.travel, self.hold, self.setting)

    @property
    def most(self) -> int:
        """People needed where the distance that nobody stated turns out too great for one to do both."""
        return max(self.least, 3 if self.watch and self.isolator and not self.together else 1)


def _held_at(facts: JobFacts) -> tuple[str, ...]:
    """Return where the control may be held: at the unit with the motor alone wired, at the controls once they are."""
    return {"complete": ("controls",), "motor power only": ("unit",)}.get(facts.job.wiring, ("controls", "unit"))


def _within(distance: Quantity | None, reach: Constant) -> bool:
    """Tell whether a distance, tolerance counted, is within reach; one that nobody stated is not."""
    return distance is not None and at_most(distance.most, reach.value)


def posts(facts: JobFacts) -> Posts:
    """Return which posts a job needs while power is on.

    Parameters
    ----------
    facts
        Everything known of the job. What nobody stated counts as not seen, and as out of reach.
    """
    places = _held_at(facts)
    gauge, glass = facts.unit.gauge.seen_from, facts.unit.reservoir.sight_glass.seen_from
    site = facts.job.site
    # What is read at the controls is in view at the unit as well: gauge and sight glass sit on it. Controls within an
    # arm's reach of the unit are at the unit.
    at_unit = _within(site.controls_from_unit, ARM_REACH)
    near = {"controls": {"controls", "unit"} if at_unit else {"controls"}, "unit": {"controls", "unit"}}
    # With the motor alone wired, the controls are used as well, in the safety tests.
    reached = (site.isolator_from_controls, *((site.isolator_distance,) if "unit" in places else ()))
    distance = site.isolator_distance
    return Posts(
        watch=any(one not in near[place] for place in places for one in (gauge, glass)),
        isolator=not all(_within(one, ISOLATOR_REACH) for one in reached),
        together=None if distance is None else _within(distance, ISOLATOR_WATCH),
        containers=facts.unit.bleeding.arrangement == "vent to container",
        gauge=any(gauge not in near[place] for place in places),
        apart=not at_unit,
        setting_isolator=not any(_within(one, ISOLATOR_REACH) for one in (site.isolator_from_controls, distance)),
    )


def _deciding(w: Workings) -> dict[str, Input]:
    """Return the facts that decide how many are needed, those nobody stated included."""
    job, unit = w.facts.job, w.facts.unit
    return {
        "wiring": job.fact("wiring"),
        "gauge": unit.fact("gauge.seen_from"),
        "sight glass": unit.fact("reservoir.sight_glass.seen_from"),
        "bleeding": unit.fact("bleeding.arrangement"),
        "controls to isolator": job.fact("site.isolator_from_controls"),
        "unit to isolator": job.fact("site.isolator_distance"),
        "controls to unit": job.fact("site.controls_from_unit"),
    }


def compute(w: Workings) -> None:
    """Enter how many people are needed while power is on."""
    rule = (
        "the most over all acts; travel: one at the control, one more where gauge or sight glass is not seen from "
        f"there, or the isolator is over {ISOLATOR_REACH.value:g} m away, another where the isolator is over "
        f"{ISOLATOR_WATCH.value:g} m from the unit; hold through vents: one at the control, one at the containers; "
        f"setting: one at the unit, one at the control if it is over {ARM_REACH.value:g} m from the unit, another at "
        "the isolator if neither reaches it"
    )
    w.ledger.count("site.people_needed", posts(w.facts).least, rule, **_deciding(w))


def check(w: Workings) -> None:
    """Check that as many people are on site as are needed."""
    people, needed = w.facts.job.fact("site.people"), w.ledger["site.people_needed"]
    verdict, reason = _judged(posts(w.facts), w.facts.job.site.people)
    rule = "people on site ≥ people needed while power is on; electrician and owner not counted"
    also = tuple(_deciding(w).values())
    w.checks.append(Check("site.people_enough", verdict, people, needed, rule, "practice", reason=reason, also=also))


def _judged(wanted: Posts, there: int | None) -> Judgement:
    if wanted.most == 1:
        return "ok", ""
    if there is None:
        return "caution", "missing"
    if there < wanted.least:
        return "stop", "alone" if there == 1 else "fewer"
    return ("ok", "") if there >= wanted.most else ("caution", "posts")
