"""The ledger: every computed number with the relation that made it and the facts it came from.

From this one ledger come the numbers in the steps, the working annex, the JSON and ``why``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Literal

from firstfill.commissioning.finding import Finding, Input, assumed_by, gap_in, spread_of
from firstfill.commissioning.spread import EXACT, Spread, added, propagated
from firstfill.commissioning.table import finding_kind
from firstfill.errors import OutsideValidity, Problem, ProgramFault
from firstfill.hydraulics.relation import Relation, Symbol
from firstfill.quantities import Quantity

__all__ = ["Ledger"]


def _many(kind: str, identity: str, formula: str) -> Relation:
    def never(**_: float) -> float:
        raise ProgramFault(Problem("relation-not-called", identity, "the ledger computes it itself", ""))

    return Relation(identity, never, Symbol("x", kind), {}, formula, "definition", "everywhere")


@dataclass
class Ledger:
    """All findings of one job, by name, in the order they were computed."""

    findings: dict[str, Finding] = field(default_factory=dict)
    instruments: dict[str, Finding] = field(default_factory=dict)
    """Instrument of :class:`FindingKind` → standard uncertainty of what is set on it."""

    def __getitem__(self, name: str) -> Finding:
        return self.findings[name]

    def __contains__(self, name: str) -> bool:
        return name in self.findings

    def __iter__(self) -> Iterator[Finding]:
        return iter(self.findings.values())

    def get(self, name: str) -> Finding | None:
        """Return the finding of that name, or ``None`` where it does not apply to this job."""
        return self.findings.get(name)

    def _enter(self, finding: Finding) -> Finding:
        if not finding.name:
            return finding
        row = finding_kind(finding.name)
        if row.kind != finding.kind:
            said = f"{finding.name} was computed as {finding.kind}"
            raise ProgramFault(Problem("finding-kind", said, f"{row.kind}", ""))
        if finding.name in self.findings:
            raise ProgramFault(Problem("finding-twice", f"{finding.name} was computed twice", "once", ""))
        if row.set_on in self.instruments:
            # It is set as printed, however it was found: what it really is hangs on the instrument alone.
            finding = self.uncertain(self.as_bound(finding), row.set_on, self.instruments[row.set_on])
        self.findings[finding.name] = finding
        return finding

    def compute(self, name: str, relation: Relation, /, **inputs: Input) -> Finding:
        """Compute a named finding by a relation and enter it.

        Parameters
        ----------
        name
            A name of the table of findings.
        relation
            What makes it; its parameters are the keyword arguments.
        inputs
            Findings, facts, constants or bundles. Where one is missing or refused, or the relation refuses
            (``OutsideValidity``), the finding is entered as refused, with the reason.
        """
        return self._enter(self._made(name, "", relation, inputs))

    def step(self, label: str, relation: Relation, /, **inputs: Input) -> Finding:
        """Compute a step on the way: in the lineage and the working, but under no name others may rely on."""
        return self._made("", label, relation, inputs)

    def _made(self, name: str, label: str, relation: Relation, inputs: Mapping[str, Input]) -> Finding:
        kind = relation.result.kind if not name else finding_kind(name).kind
        if name and relation.result.kind != kind:
            said = f"relation {relation.id} returns {relation.result.kind}"
            raise ProgramFault(Problem("finding-kind", f"{name}: {said}", kind, ""))
        ordered = tuple((parameter, inputs[parameter]) for parameter in relation.symbols if parameter in inputs)
        if len(ordered) != len(inputs):
            said = f"{relation.id} does not take {sorted(set(inputs) - set(relation.symbols))}"
            raise ProgramFault(Problem("relation-parameters", said, f"{list(relation.symbols)}", ""))
        made = partial(
            Finding, name, label, kind, relation=relation, inputs=ordered, assumed=assumed_by(inputs.values())
        )
        gap = gap_in(inputs.values())
        if gap is not None:
            return made(None, refused=gap[0], why=gap[1])
        values = {parameter: given.value for parameter, given in ordered}
        try:
            value = relation(**values)
        except OutsideValidity as outside:
            return made(None, refused=outside.code, why=outside.why)
        if isinstance(value, float) and not math.isfinite(value):
            said = f"{name or label}: {relation.id} gave {value}"
            raise ProgramFault(Problem("finding-not-finite", said, "a finite number", ""))
        spreads = {parameter: spread for parameter, given in ordered if not (spread := spread_of(given)).certain}
        if not spreads:
            return made(float(value))
        return made(float(value), spread=propagated(relation, values, spreads, float(value)))

    def total(
        self,
        name: str,
        /,
        label: str = "",
        *,
        kind: str = "",
        parts: Mapping[str, Input],
        also: Iterable[Input] = (),
    ) -> Finding:
        """Add parts of one kind.

        Parameters
        ----------
        name, label, kind
            ``name`` may be empty for a step on the way: then give ``label`` and ``kind``.
        parts
            What is added, each with its name.
        also
            What decided how many parts there are.
        """
        used = finding_kind(name).kind if name else kind
        made = Finding(
            name,
            label,
            used,
            None,
            _many(used, "sum", "sum of the parts"),
            tuple(parts.items()),
            assumed=assumed_by(parts.values()),
            also=tuple(also),
        )
        gap = gap_in(parts.values())
        if gap is not None:
            return self._enter(replace(made, refused=gap[0], why=gap[1]))
        spread = added(spread_of(part) for part in parts.values())
        return self._enter(replace(made, value=float(math.fsum(_number(p) for p in parts.values())), spread=spread))

    def pick(
        self,
        name: str,
        which: Literal["least", "most"],
        /,
        label: str = "",
        *,
        kind: str = "",
        candidates: Mapping[str, Input],
        also: Iterable[Input] = (),
    ) -> tuple[Finding, str]:
        """Take the least or the greatest of candidates of one kind.

        Parameters
        ----------
        name, label, kind
            ``name`` may be empty for a step on the way: then give ``label`` and ``kind``.
        which
            Which of them.
        candidates
            What there is to choose from, each with its name.
        also
            What decided which candidates there are.

        Returns
        -------
        tuple
            The finding and the key of the candidate that it is (the first, where two are equal). Where a
            candidate is missing or refused the finding is refused too: a bound nobody knows is not left out.
        """
        used = finding_kind(name).kind if name else kind
        made = Finding(
            name,
            label,
            used,
            None,
            _many(used, which, f"the {which} of the candidates"),
            tuple(candidates.items()),
            assumed=assumed_by(candidates.values()),
            also=tuple(also),
        )
        gap = gap_in(candidates.values())
        if gap is not None:
            return self._enter(replace(made, refused=gap[0], why=gap[1])), ""
        numbers = {key: _number(given) for key, given in candidates.items()}
        key = (min if which == "least" else max)(numbers, key=lambda k: numbers[k])
        return self._enter(replace(made, value=numbers[key], spread=spread_of(candidates[key]))), key

    def bound(self, quantity: Quantity, which: Literal["least", "most"]) -> Finding:
        """Return the least or greatest value a fact with a tolerance may have, as a step on the way."""
        value = quantity.least if which == "least" else quantity.most
        relation = _many(quantity.kind, f"tolerance_{which}", f"value {'−' if which == 'least' else '+'} tolerance")
        return Finding("", which, quantity.kind, value, relation, (("value", quantity),))

    def assume(self, label: str, value: float, kind: str, keys: str, /, **inputs: Input) -> Finding:
        """Enter the value taken for a fact nobody stated; everything computed from it is marked ``assumed``."""
        relation = _many(kind, "assumed", "the unfavourable end of what may be")
        return Finding("", label, kind, value, relation, tuple(inputs.items()), assumed=frozenset({keys}))

    def word(self, name: str, word: str, rule: str, /, **inputs: Input) -> Finding:
        """Enter a word finding, with the rule that chose the word."""
        return self._enter(
            Finding(name, "", "word", word, None, tuple(inputs.items()), assumed=assumed_by(inputs.values()), rule=rule)
        )

    def count(self, name: str, number: int, rule: str, /, **inputs: Input) -> Finding:
        """Enter a count, with the rule by which it was counted."""
        return self._enter(
            Finding(
                name,
                "",
                "count",
                float(number),
                None,
                tuple(inputs.items()),
                assumed=assumed_by(inputs.values()),
                rule=rule,
            )
        )

    def solved(self, name: str, value: float, rule: str, /, **inputs: Input) -> Finding:
        """Enter the root of relations that are in the lineage already, with the condition it was sought by."""
        kind = finding_kind(name).kind
        followed = all(spread_of(given).certain for given in inputs.values())
        return self._enter(
            Finding(
                name,
                "",
                kind,
                value,
                None,
                tuple(inputs.items()),
                spread=EXACT if followed else Spread(whole=False),
                assumed=assumed_by(inputs.values()),
                rule=rule,
            )
        )

    def refuse(self, name: str, code: str, why: str, /, **inputs: Input) -> Finding:
        """Enter a finding that cannot be computed, with a stable code and one sentence."""
        return self._enter(
            Finding(
                name,
                "",
                finding_kind(name).kind,
                None,
                None,
                tuple(inputs.items()),
                assumed=assumed_by(inputs.values()),
                refused=code,
                why=why,
            )
        )

    def uncertain(self, finding: Finding, source: str, standard: Finding) -> Finding:
        """Return a step on the way that is uncertain by one more source.

        Parameters
        ----------
        finding
            The step.
        source
            What makes it uncertain, in words. Where it is uncertain by that already, this counts from now on.
        standard
            Standard uncertainty, in the unit of the step.
        """
        if finding.refused:
            return finding
        also = (*finding.also, standard)
        if standard.refused:
            return replace(finding, spread=Spread(finding.spread.parts, whole=False), also=also)
        return replace(finding, spread=finding.spread.and_source(source, standard.number), also=also)

    def as_bound(self, finding: Finding) -> Finding:
        """Return a step on the way without its uncertainty: what is made of it is a bound, and prints as a band."""
        return replace(finding, spread=EXACT)

    def rename(self, finding: Finding, name: str) -> Finding:
        """Enter a step on the way under a name of the table (for instance the worse of two ends)."""
        return self._enter(replace(finding, name=name, label=""))


def _number(given: Input) -> float:
    value = given.value
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ProgramFault(Problem("input-no-number", f"{given!r} is no number", "a number", ""))
    return float(value)
