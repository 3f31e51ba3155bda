"""The people a job needs while power is on: who watches, and who stands at the isolator."""

from __future__ import annotations

from dataclasses import dataclass

from firstfill.commissioning.check import Check
from firstfill.commissioning.judging import Judgement, at_most
from firstfill.commissioning.ledger import Input
from firstfill.commissioning.workings import Workings
from firstfill.hydraulics.constants import ISOLATOR_REACH, ISOLATOR_WATCH
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
    """

    watch: bool
    isolator: bool
    together: bool | None

    @property
    def least(self) -> int:
        """People needed at least, the one who holds the control counted."""
        apart = self.watch and self.isolator and self.together is False
        return 1 + (2 if apart else int(self.watch or self.isolator))

    @property
    def most(self) -> int:
        """People needed where the distance that nobody stated turns out too great for one to do both."""
        return 3 if self.watch and self.isolator and not self.together else self.least


def _held_at(facts: JobFacts) -> tuple[str, ...]:
    """Return where the control may be held: at the unit with the motor alone wired, at the controls once they are."""
    return {"complete": ("controls",), "motor power only": ("unit",)}.get(facts.job.wiring, ("controls", "unit"))


def posts(facts: JobFacts) -> Posts:
    """Return which posts a job needs while power is on.

    Parameters
    ----------
    facts
        Everything known of the job. What nobody stated counts as not seen, and as out of reach.
    """
    places = _held_at(facts)
    seen = (facts.unit.gauge.seen_from, facts.unit.reservoir.sight_glass.seen_from)
    site = facts.job.site
    # What is read at the controls is in view at the unit as well: gauge and sight glass sit on it.
    near = {"controls": {"controls"}, "unit": {"controls", "unit"}}
    watch = any(one not in near[place] for place in places for one in seen)
    # With the motor alone wired, the controls are used as well, in the safety tests.
    reached = (site.isolator_from_controls, *((site.isolator_distance,) if "unit" in places else ()))
    isolator = any(one is None or not at_most(one.most, ISOLATOR_REACH.value) for one in reached)
    distance = site.isolator_distance
    together = None if distance is None else at_most(distance.most, ISOLATOR_WATCH.value)
    return Posts(watch, isolator, together)


def _deciding(w: Workings) -> dict[str, Input]:
    """Return the facts that decide how many are needed, those nobody stated included."""
    job, unit = w.facts.job, w.facts.unit
    return {
        "wiring": job.fact("wiring"),
        "gauge": unit.fact("gauge.seen_from"),
        "sight glass": unit.fact("reservoir.sight_glass.seen_from"),
        "controls to isolator": job.fact("site.isolator_from_controls"),
        "unit to isolator": job.fact("site.isolator_distance"),
    }


def compute(w: Workings) -> None:
    """Enter how many people are needed while power is on."""
    rule = (
        "one at the control; one more where gauge or sight glass is not seen from there, or the isolator is over "
        f"{ISOLATOR_REACH.value:g} m away; another where the isolator is over {ISOLATOR_WATCH.value:g} m from the unit"
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
