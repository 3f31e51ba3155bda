"""Boxes of a step or of the record: label, unit, and the target as text and as numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from jinja2 import UndefinedError

from firstfill.commissioning.finding import Finding
from firstfill.commissioning.instruments import Instruments, System, instruments_of
from firstfill.commissioning.showing import shown
from firstfill.errors import Location, Problem, ProgramFault, WordsError
from firstfill.hydraulics.constants import Constant
from firstfill.quantities import Direction, Quantity, from_si, kind_named, show, unit_label
from firstfill.sheet.document import Box
from firstfill.sheet.lists import items
from firstfill.sheet.said import NotStated, Said
from firstfill.sheet.terms import unit_word
from firstfill.sheet.view import Values
from firstfill.sheet.words import BoxWords

__all__ = ["make_boxes", "named"]

_KIND_OF_WORD = {
    "gauge": "gauge pressure",
    "level": "length",
    "wind": "speed",
    "temperature": "temperature",
    "volume": "volume",
    "length": "length",
    "force": "force",
}
_LENGTH_STEP: dict[System, float] = {"metric": 1.0, "us": 0.05}
_STEPS = {"wind": 1.0, "temperature": 1.0, "s": 1.0, "A": 0.1, "V": 1.0, "N": 1.0, "%": 0.1}


_ENDS = 2


@dataclass(frozen=True, slots=True)
class _Bound:
    """One end of a target."""

    text: str
    number: float | None
    finding: str = ""
    spread: float = 0.0


def _unit(given: str, instruments: Instruments) -> str:
    """Return the unit a box is written in, a spelling of its kind."""
    if given == "gauge":
        return instruments.gauge_unit
    kind = _KIND_OF_WORD.get(given)
    if kind is None:
        return given
    lead = instruments.lead("level" if given == "level" else "")
    row = kind_named(kind)
    return row.us if lead == "us" else row.metric


def _step(given: str, instruments: Instruments) -> float | None:
    if given == "gauge":
        return instruments.gauge_division
    if given in {"level", "length"}:
        return _LENGTH_STEP[instruments.lead("level" if given == "level" else "")]
    return _STEPS.get(given)


def named(values: Values, dotted: str, location: Location) -> object:
    """Return the value a dotted name behind a box or a timer stands for.

    Raises
    ------
    WordsError
        When this job has no such value.
    """
    try:
        return values.resolve(dotted)
    except (UndefinedError, AttributeError) as error:
        said = str(getattr(error, "message", "") or error)
        raise WordsError(
            Problem("words-value", said, "a value this job has", "name another, or leave the line out", location)
        ) from None


def _bound(values: Values, words: BoxWords, name: str, direction: Direction, instruments: Instruments) -> _Bound:
    said = named(values, name, words.location)
    if isinstance(said, NotStated):
        return _Bound("", None)
    if not isinstance(said, Said):
        raise ProgramFault(Problem("box-target", f"{name} is no value", "a fact or a finding", "", words.location))
    source = said.source
    if isinstance(source, Finding) and source.value is not None and not isinstance(source.value, str):
        values.printed[source.name] = None
        made = shown(source, values.commissioning.facts)
        spread = 0.0
        if words.unit == "level" and made.spread:
            spread = from_si(instruments.glass_reading, "length", _unit("level", instruments))
        number = float(made.first.number) if made.first is not None else None
        return _Bound(made.text, number, source.name, spread)
    if isinstance(source, int):
        return _Bound(str(source), float(source))
    if isinstance(source, Quantity | Constant):
        unit = _unit(words.unit, instruments)
        if unit not in kind_named(source.kind).units:
            return _Bound(said.lead, None)
        text = show(source.value, source.kind, unit, direction, step=_step(words.unit, instruments))
        return _Bound(text.text, float(text.number))
    return _Bound(said.lead, None)


def _target(values: Values, words: BoxWords, instruments: Instruments) -> tuple[str, str, float | None, float | None]:
    """Return the target as text, the finding it comes from, and its two ends as numbers."""
    kind, names, labels = words.target.kind, words.target.names, values.labels
    if kind == "any":
        return "", "", None, None
    if kind == "zero":
        return labels["zero"], "", 0.0, 0.0
    if kind == "exactly" and (band := _band_of(values, words, names[0])) is not None:
        return band
    ways: dict[str, tuple[Direction, ...]] = {"at most": ("down",), "at least": ("up",), "between": ("up", "down")}
    directions = ways.get(kind, ("nearest",))
    bounds = [_bound(values, words, name, way, instruments) for name, way in zip(names, directions, strict=True)]
    if not all(bound.text for bound in bounds):
        return labels["no limit"], "", None, None
    first, last = bounds[0], bounds[-1]
    if kind == "at most":
        return labels["at most"].format(value=first.text), first.finding, None, first.number
    if kind == "at least":
        least, text = _lower_end(words, instruments, first)
        return labels["at least"].format(value=text), first.finding, least, None
    if kind == "between":
        return _between(labels, words, instruments, first, last)
    return _exactly(labels, words, instruments, first)


def _band_of(values: Values, words: BoxWords, name: str) -> tuple[str, str, float | None, float | None] | None:
    """Return what comes out between two findings and nothing sets; ``None`` for any other value."""
    said = named(values, name, words.location)
    if not isinstance(said, Said) or said.source is not None or len(said.findings) != _ENDS:
        return None
    least, most = (shown(values.commissioning.ledger[end], values.commissioning.facts).first for end in said.findings)
    values.printed |= dict.fromkeys(said.findings)
    if least is None or most is None:
        return said.lead, "", None, None
    return said.lead, said.findings[-1], float(least.number), float(most.number)


def _lower_end(words: BoxWords, instruments: Instruments, bound: _Bound) -> tuple[float | None, str]:
    """Return the lowest reading that agrees with a bound, as number and text."""
    if not bound.spread or bound.number is None:
        return bound.number, bound.text
    lowest = bound.number - bound.spread
    return lowest, f"{lowest:g} {unit_label(_unit(words.unit, instruments))}"


def _between(
    labels: Mapping[str, str], words: BoxWords, instruments: Instruments, least: _Bound, most: _Bound
) -> tuple[str, str, float | None, float | None]:
    lowest, text = _lower_end(words, instruments, least)
    return labels["between"].format(least=text, most=most.text), most.finding or least.finding, lowest, most.number


def _exactly(
    labels: Mapping[str, str], words: BoxWords, instruments: Instruments, exact: _Bound
) -> tuple[str, str, float | None, float | None]:
    # A time asked for is a least: only an adjuster can set it, and throttles no further than it must.
    if exact.number is not None and words.unit in kind_named("time").units:
        return labels["at least"].format(value=exact.text), exact.finding, exact.number, None
    if exact.spread and exact.number is not None:
        spread = labels["spread"].format(reading=f"{exact.spread:g} {unit_label(_unit(words.unit, instruments))}")
        return f"{exact.text} {spread}", exact.finding, exact.number - exact.spread, exact.number + exact.spread
    return exact.text, exact.finding, exact.number, exact.number


def _one(values: Values, words: BoxWords, identity: str) -> Box:
    instruments = instruments_of(values.commissioning.facts)
    text, finding, least, most = _target(values, words, instruments)
    return Box(
        label=words.label.said(values.names),
        unit=unit_word(values.labels, unit_label(_unit(words.unit, instruments))),
        target=text,
        finding=finding,
        id=identity,
        least=least,
        most=most,
    )


def make_boxes(values: Values, boxes: tuple[BoxWords, ...], owner: str) -> tuple[Box, ...]:
    """Fill in the boxes of a step or of a group of the record; a box whose label comes out empty is left out.

    Parameters
    ----------
    values
        What the words can name here.
    boxes
        The boxes as written.
    owner
        Id of what they belong to; their own ids begin with it.
    """
    made: list[Box] = []
    for words in boxes:
        several = items(values, words.each) if words.each else [None]
        for item in several:
            inside = values if item is None else values.inside(each=item)
            if words.label.source and not words.label.said(inside.names):
                continue
            made.append(_one(inside, words, f"{owner}.{len(made) + 1}"))
    return tuple(made)
