"""What the texts of the words can name: facts as they were written, findings as they are printed.

Values are looked up by dotted name, in a text or behind a box. A fact that nobody stated prints as *not stated*, with
its name; a finding that does not apply to the job is a fault of the words.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from typing import Any, Literal, TypeAlias

from jinja2 import UndefinedError

from firstfill.commissioning import Commissioning
from firstfill.commissioning.finding import Finding
from firstfill.commissioning.showing import ShownFinding, fact_in_both, shown
from firstfill.commissioning.table import FINDINGS
from firstfill.commissioning.times import is_adjustable
from firstfill.hydraulics import constants
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import Quantity, from_si
from firstfill.sheet.said import CaseView, FactsView, FindingsView, NotStated, Said, View, Written
from firstfill.sheet.terms import serial_range, term, with_units

__all__ = ["Values"]

Drive: TypeAlias = Literal["extend", "retract"]
End: TypeAlias = Literal["closed", "open"]

_LIMITS = {
    "voltage_unbalance": (constants.VOLTAGE_UNBALANCE, "%"),
    "edge_push": (constants.EDGE_PUSH, "N"),
    "force_peak": (constants.CLOSING_FORCE_PEAK, "N"),
    "force_first": (constants.CLOSING_FORCE_FIRST, "N"),
    "force_second": (constants.CLOSING_FORCE_SECOND, "N"),
    "force_first_time": (constants.CLOSING_FORCE_FIRST_TIME, "s"),
    "force_second_time": (constants.CLOSING_FORCE_SECOND_TIME, "s"),
}
_DEEPEST = 4


class Values:
    """Everything a job gives to the words.

    Parameters
    ----------
    commissioning
        The job computed.
    labels
        Words of the page.
    case
        Truth of every condition.

    Attributes
    ----------
    names
        What a dotted name may begin with: subjects of findings, parts of the facts, ``towards``, ``row``, ``each``, ….
    used, used_facts
        Findings and key paths of facts named since they were last emptied.
    printed
        All findings printed so far, in order of first use.
    rows
        What can be named of a bleed row, by its number, once it was looked up.
    """

    def __init__(self, commissioning: Commissioning, labels: Mapping[str, str], case: Mapping[str, bool]) -> None:
        facts = commissioning.facts
        self.commissioning = commissioning
        self.labels = labels
        self.case = dict(case)
        self.used: list[str] = []
        self.used_facts: list[str] = []
        self.printed: dict[str, None] = {}
        self._made: dict[int, Said | NotStated] = {}
        self.rows: dict[int, View] = {}
        self.names: dict[str, Any] = {
            subject: FindingsView(self, subject) for subject in {name.split(".")[0] for name in FINDINGS}
        }
        roots = {"unit": facts.unit, "door": facts.door, "job": facts.job, "fluid": facts.fluid}
        self.names |= {name: FactsView(self, part, name) for name, part in roots.items()}
        connection = facts.unit.motor.connections.get(facts.connection or "")
        self.names["motor_connection"] = self.fact(connection, f"unit.motor.connections.{facts.connection}")
        self.names["limit"] = View("limit", {key: self._constant(*pair) for key, pair in _LIMITS.items()})
        self.names["revision"] = View("revision", {"serial_range": serial_range(labels, facts.revision)})
        self.names["case"] = CaseView(self.case)
        self._directions()

    def inside(self, case: Mapping[str, bool] | None = None, **names: Any) -> Values:
        """Return the same values with more names and conditions."""
        below = copy(self)
        below.case = {**self.case, **(case or {})}
        below.names = {**self.names, "case": CaseView(below.case), **names}
        return below

    def wired(self) -> Values:
        """Return the same values as they are once the controls are complete: no override is held any more."""
        below = self.inside({"motor-power-only": False})
        below._directions()
        return below

    def noted(self, given: Any) -> Any:
        """Return a value that a text names, and keep account of the facts and findings it says."""
        if isinstance(given, Said | Written | NotStated):
            self.used_facts += given.facts
        if isinstance(given, Said) and isinstance(given.source, Finding) and given.source.name:
            self.used.append(given.source.name)
        elif isinstance(given, Said | Written):
            self.used += given.findings
        return given

    # --- single values ---------------------------------------------------------------------------------------

    def fact(self, given: object, keys: str) -> Any:
        """Return a fact ready to print, or a part of the facts to go on from."""
        if given is None or given in ((), {}):
            return NotStated(keys.replace("_.", "."), self.labels["not stated"])
        if isinstance(given, Quantity):
            first, other = (with_units(self.labels, text) for text in fact_in_both(given, self.commissioning.facts))
            return Said(given, first, other, facts=(keys,))
        if isinstance(given, bool):
            return Said(given, self.labels["yes" if given else "no"], facts=(keys,))
        if isinstance(given, str):
            return Said(given, given if keys.endswith("label") else term(self.labels, given), facts=(keys,))
        if isinstance(given, int):
            return Said(given, str(given), facts=(keys,))
        if isinstance(given, tuple) and all(isinstance(word, str) for word in given):
            return Said(given, ", ".join(given), facts=(keys,))
        return FactsView(self, given, keys)

    def finding(self, name: str) -> Any:
        """Return a finding ready to print, or the group of findings to go on from."""
        found = self.commissioning.ledger.get(name)
        if found is None:
            if any(known.startswith(f"{name}.") for known in self.commissioning.ledger.findings):
                return FindingsView(self, name)
            if self.commissioning.verdict == "stop":
                return NotStated(name, self.labels["not stated"])
            raise UndefinedError(f"{name} does not apply to this job")
        return self.said(found)

    def said(self, finding: Finding) -> Said | NotStated:
        """Return a finding ready to print, and keep account that it is printed here."""
        self.used.append(finding.name)
        return self.kept(finding)

    def kept(self, finding: Finding) -> Said | NotStated:
        """Return a finding ready to print where a text names it, and keep its name among those printed."""
        self.printed[finding.name] = None
        known = self._made.get(id(finding))
        if known is None:
            known = self._made[id(finding)] = self._say(finding)
        return known

    def _say(self, finding: Finding) -> Said | NotStated:
        made: ShownFinding = shown(finding, self.commissioning.facts)
        if made.refused:
            return NotStated(made.refused, "{fact}")
        if isinstance(finding.value, str):
            return Said(finding, self._word(finding.value))
        spread = self.labels["spread"].format(reading=made.spread) if made.spread else ""
        return Said(finding, with_units(self.labels, made.text), with_units(self.labels, made.other), spread)

    def _word(self, word: str) -> str:
        label = self.labels.get(f"word {word}") or self.labels.get(word)
        if label:
            return label
        facts = self.commissioning.facts
        if word in facts.unit.components:
            return facts.unit.components[word].where
        return facts.runs[word].where if word in facts.runs else word

    def _constant(self, constant: Constant, unit: str) -> Said:
        return Said(constant, f"{from_si(constant.value, constant.kind, unit):g} {unit}")

    def resolve(self, dotted: str) -> object:
        """Return what a dotted name behind a box or a timer stands for: a value ready to print.

        Raises
        ------
        UndefinedError
            When the job has no such value.
        """
        first, *rest = dotted.split(".")
        if first not in self.names:
            raise UndefinedError(f"no value is called {first!r}")
        current = self.names[first]
        for name in rest[:_DEEPEST]:
            current = getattr(current, name)
        return current

    # --- the two directions ----------------------------------------------------------------------------------

    def _directions(self) -> None:
        ledger = self.commissioning.ledger
        rods = ledger.get("oil.fill_rods")
        position = ledger.get("oil.fill_position")
        out = rods is not None and rods.value == "out"
        rest: End = "open" if position is not None and position.value == "open" else "closed"
        other: End = "closed" if rest == "open" else "open"
        towards = self._direction("extend" if out else "retract", rest)
        off = self._direction("retract" if out else "extend", other)
        self.names |= {"towards": towards, "off": off}
        stages = self.commissioning.stages
        # Where a row may be pumped in no direction, the leaf still goes first to the stop it rests on.
        drives_one_way = bool(stages) and stages[0].forbidden.get("towards") in {"one_way", "not_listed"}
        starts_off = bool(stages) and (
            drives_one_way or ("off" in stages[0].directions and "towards" not in stages[0].directions)
        )
        self.names["first"] = off if starts_off else towards
        label = self.commissioning.facts.unit.valves.relief.set_against.label
        self.names["blocking_valve"] = (
            f"{self.labels['blocking valve']} **{label}**" if label else self.labels["blocking valve"]
        )
        self.names["against"] = off if self.case["blocking-valve"] else towards

    def _direction(self, drive: Drive, end: End) -> View:
        facts = self.commissioning.facts
        name = self.control(drive)
        time = "opening" if end == "open" else "closing"
        access = facts.door.bleed_access.get(end)
        asked = getattr(facts.door.times, time) if facts.door.times else None
        level = self.commissioning.ledger.get(f"reservoir.level_target_{end}")
        shortest = self.commissioning.ledger.get(f"time.{time}")
        absent = self.labels["not stated"]
        return View(
            "a direction",
            {
                "control": name,
                "by_hand": self.by_hand(drive) or name,
                "verb": self.labels["open verb" if end == "open" else "close verb"],
                "end": self.labels[end],
                "level": self.kept(level) if level else NotStated(f"reservoir.level_target_{end}", absent),
                "level_per_kelvin": self.kept(warmer)
                if (warmer := self.commissioning.ledger.get(f"reservoir.level_per_kelvin_{end}"))
                else NotStated(f"reservoir.level_per_kelvin_{end}", absent),
                "time": self.kept(shortest) if shortest else NotStated(f"time.{time}", absent),
                "asked": self._time_to_see(asked, time),
                "shortest": self._shortest(shortest, end, time),
                "reached_from": self.fact(access and access.reached_from, f"door.bleed_access.{end}.reached_from"),
            },
            self,
        )

    def _shortest(self, found: Finding | None, end: End, motion: str) -> str:
        """Return the shortest time of a drive that an adjuster serves, named by its end; nothing for any other."""
        facts = self.commissioning.facts
        if found is None or not is_adjustable(facts, motion):
            return ""
        said = self.labels["shortest"].format(end=self.labels[end], time=self.kept(found))
        return Written(said, ("unit.valves.speed",), (found.name,))

    def _time_to_see(self, asked: Quantity | None, time: str) -> object:
        """Return the time asked for; where no adjuster can set it, the band that comes out."""
        ledger, keys = self.commissioning.ledger, f"door.times.{time}"
        least, most = (ledger.get(f"time.{time}_expected_{bound}") for bound in ("least", "most"))
        if asked is None or least is None or most is None or least.refused or most.refused:
            return self.fact(asked, keys)
        low, high = self.kept(least), self.kept(most)
        band = self.labels["from to"].format(least=low, most=high)
        return Said(None, band, facts=("unit.valves.speed",), findings=(least.name, most.name))

    def control(self, drive: Drive) -> str:
        """Return what is held for a drive: its control, or its override where only the motor is wired."""
        directional = self.commissioning.facts.unit.valves.directional
        stated = directional.drives.get(drive)
        keys = f"unit.valves.directional.drives.{drive}"
        if stated is None:
            return Written(self.labels["not stated"].format(fact=keys), (keys,))
        label = str(stated.label)
        by_hand = self.by_hand(drive) if self.case["motor-power-only"] else None
        return by_hand or Written(f"**{label}**", (f"{keys}.label",))

    def by_hand(self, drive: Drive) -> Written | None:
        """Return the override of a drive as it is printed, or nothing where it has none."""
        directional = self.commissioning.facts.unit.valves.directional
        stated, override = directional.drives.get(drive), directional.override
        unworked = override.drives is not None and drive not in override.drives
        if stated is None or override.kind == "none" or not override.label or unworked:
            return None
        said = self.labels["override"].format(override=override.label, drive=stated.label)
        keys = "unit.valves.directional"
        return Written(said, (f"{keys}.drives.{drive}.label", f"{keys}.override.label"))

    # --- lists -----------------------------------------------------------------------------------------------

    def plain(self, **texts: object) -> View:
        """Return an item of a list."""
        return View("an item", texts, self)

    def emptied(self) -> tuple[str, ...]:
        """Return the findings printed since the last call, each once."""
        used = tuple(dict.fromkeys(self.used))
        self.used.clear()
        return used

    def emptied_facts(self) -> tuple[str, ...]:
        """Return the key paths of the facts printed since the last call, each once."""
        used = tuple(dict.fromkeys(self.used_facts))
        self.used_facts.clear()
        return used
