"""What a name in a text of the words stands for: a value ready to print, a fact not stated, or a group of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

from jinja2 import UndefinedError
from pydantic import BaseModel

__all__ = ["CaseView", "FactsView", "FindingsView", "NotStated", "Said", "View", "Written"]


class Inside(Protocol):
    """Who looks up what is named, and keeps account of it."""

    def noted(self, given: Any) -> Any:
        """Return a value that a text names, and keep account of it."""

    def fact(self, given: object, keys: str) -> Any:
        """Return a fact ready to print, or a part of the facts to go on from."""

    def finding(self, name: str) -> Any:
        """Return a finding ready to print, or the group of findings to go on from."""


class NotStated:
    """A fact nobody stated: prints as such, and so does everything below it."""

    def __init__(self, keys: str, pattern: str) -> None:
        self._keys = keys
        self._pattern = pattern
        self.facts = (keys,)

    def __getattr__(self, name: str) -> NotStated:
        if name.startswith("__"):
            raise AttributeError(name)
        return NotStated(f"{self._keys}.{name.rstrip('_')}", self._pattern)

    def __str__(self) -> str:
        return self._pattern.format(fact=self._keys)

    def __bool__(self) -> bool:
        return False


class Said:
    """A value ready to print: ``x`` in both systems, ``x.lead`` and ``x.other`` in one, ``x.line`` with its spread.

    ``facts`` are the key paths of the facts it says, ``findings`` the numbers it was counted from.
    """

    def __init__(
        self,
        source: object,
        first: str,
        other: str = "",
        spread: str = "",
        facts: tuple[str, ...] = (),
        findings: tuple[str, ...] = (),
    ) -> None:
        self.source = source
        self.lead = first
        self.other = other
        self.spread = spread
        self.facts = facts
        self.findings = findings

    @property
    def line(self) -> str:
        """With the reading of the instrument behind it."""
        return f"{self.lead} {self.spread}" if self.spread else self.lead

    def __str__(self) -> str:
        return f"{self.lead} ({self.other})" if self.other else self.lead

    def __bool__(self) -> bool:
        return bool(self.lead)


class Written(str):
    """A text ready to print that says facts and findings."""

    __slots__ = ("facts", "findings")
    facts: tuple[str, ...]
    findings: tuple[str, ...]

    def __new__(cls, text: str, facts: tuple[str, ...] = (), findings: tuple[str, ...] = ()) -> Written:
        """Make a text that knows what it says."""
        made = super().__new__(cls, text)
        made.facts = facts
        made.findings = findings
        return made


class View:
    """Attributes by name; anything else is told of by its full name. ``inside`` keeps account of what was named."""

    def __init__(self, name: str, values: Mapping[str, Any], inside: Inside | None = None) -> None:
        self._name = name
        self._values = values
        self._inside = inside

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        try:
            found = self._values[name]
        except KeyError:
            known = ", ".join(sorted(self._values))
            raise UndefinedError(f"{self._name} has no {name!r}; it has {known}") from None
        return found if self._inside is None else self._inside.noted(found)


class CaseView:
    """The conditions, written with ``_``: looked up one by one, for every block has its own and names few of them."""

    def __init__(self, case: Mapping[str, bool]) -> None:
        self._case = case

    def __getattr__(self, name: str) -> bool:
        if name.startswith("__"):
            raise AttributeError(name)
        try:
            return self._case[name.replace("_", "-")]
        except KeyError:
            known = ", ".join(sorted(key.replace("-", "_") for key in self._case))
            raise UndefinedError(f"case has no {name!r}; it has {known}") from None


class FactsView:
    """A part of the facts: its keys as in the YAML."""

    def __init__(self, values: Inside, part: object, keys: str) -> None:
        self._inside = values
        self._part = part
        self._keys = keys

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        part = self._part
        if isinstance(part, BaseModel):
            fields = type(part).model_fields
            used = name if name in fields else f"{name}_" if f"{name}_" in fields else ""
            if not used:
                raise UndefinedError(f"the facts have no {self._keys}.{name}")
            return self._inside.noted(self._inside.fact(getattr(part, used), f"{self._keys}.{name}"))
        if isinstance(part, Mapping):
            found = part.get(name, part.get(name.replace("_", "-")))
            return self._inside.noted(self._inside.fact(found, f"{self._keys}.{name}"))
        raise UndefinedError(f"the facts have no {self._keys}.{name}")

    def __str__(self) -> str:
        raise UndefinedError(f"{self._keys} is a group of facts: name one of them")


class FindingsView:
    """The findings whose names begin with what was said so far."""

    def __init__(self, values: Inside, name: str) -> None:
        self._inside = values
        self._name = name

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        return self._inside.finding(f"{self._name}.{name}")

    def __str__(self) -> str:
        raise UndefinedError(f"{self._name} is a group of findings: name one of them")
