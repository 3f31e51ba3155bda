"""Which keys a section of the words may have, file by file: the whole grammar a writer has to know."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

__all__ = [
    "BLOCK_KEYS",
    "ENTRY_FILES",
    "FIGURES",
    "KINDS_OF_BLOCK",
    "LOCKOUT_ORDER",
    "PHASE_KEYS",
    "RELEASE_ORDER",
    "REQUIRED_LABELS",
    "STEP_KEYS",
    "STYLE",
    "TABLES",
    "Keys",
]


@dataclass(frozen=True)
class Keys:
    """The keys of one kind of section.

    Parameters
    ----------
    required, optional
        Each at most once.
    repeated
        Any number of times.
    words
        Keys that take a plain word, with the words allowed; an empty tuple allows any.
    open_prefixes
        Beginnings of further keys that are allowed.
    """

    required: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()
    repeated: tuple[str, ...] = ()
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    open_prefixes: tuple[str, ...] = ()

    def all(self) -> tuple[str, ...]:
        """Return every key with a fixed name."""
        return tuple(dict.fromkeys((*self.required, *self.optional, *self.repeated, *self.words)))

    def allows(self, key: str) -> bool:
        """Tell whether a key may stand there."""
        return key in self.all() or key.startswith(self.open_prefixes)

    def repeats(self, key: str) -> bool:
        """Tell whether a key may stand there more than once."""
        return key in self.repeated


# What the words of a language are held to: read by their check alone, never printed.
STYLE = "style.md"
KINDS_OF_BLOCK = ("steps", "hold", "pause", "lockout", "release")
LOCKOUT_ORDER = (
    ("tell",),
    ("stop", "off"),
    ("isolate",),
    ("lock",),
    ("relieve",),
    ("try", "try-fitted"),
    ("read", "read-all"),
    ("rest",),
    ("hold",),
    ("ends",),
)
"""In the first lockout nobody has seen the leaf at rest yet: the last three are steps of phase 2 there. The last stands
only where closed volumes are let down, or read, at the cylinders; the one before, and its counterpart in the release,
only where wind moves the leaf, and not in phases 2 to 7, where the restraint stays in.
"""
RELEASE_ORDER = (("tools",), ("free",), ("people",), ("locks",), ("call",), ("power",))
FIGURES = (
    "bleed-timeline",
    "circuit",
    "circuit-rows",
    "danger-line",
    "door",
    "level-strip",
    "load-curve",
    "sight-glass",
)
"""What a block may place; a job that has nothing for one of them leaves it out."""
TABLES = ("levels", "stages", "holds", "bands", "air", "trapped", "lines", "energies", "settings")

PHASE_KEYS = Keys(required=("purpose",))
BLOCK_KEYS = Keys(
    optional=("when", "each", "kind", "insert", "as", "answer", "arrive", "done"),
    repeated=("warn", "table", "figure", "text"),
)
STEP_KEYS = Keys(
    required=("who", "where", "state", "do", "expect"),
    optional=("when", "opens", "drives", "starts", "lasts", "times", "minutes"),
    repeated=("detail", "box", "timer", "warn", "needs", "sets", "if not"),
)

_YES = ("yes",)
_SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
_SYMBOLS = (
    "general",
    "crushing",
    "hand-crushing",
    "electricity",
    "injection",
    "slip",
    "hot",
    "overhead-load",
    "start-up",
    "fall",
)

ENTRY_FILES: MappingProxyType[str, Mapping[str, Keys]] = MappingProxyType(
    {
        "checks": {
            "*": Keys(
                required=("says", "at", "way out"),
                optional=("way out stop",),
                words={"at": ()},
                open_prefixes=("ok", "caution", "stop"),
            )
        },
        "cautions": {
            "*": Keys(
                required=("signal", "hazard", "consequence", "avoid"),
                optional=("when",),
                words={"signal": _SIGNALS, "symbol": _SYMBOLS, "front": _YES},
            )
        },
        "front": {
            "head": Keys(required=("label", "value"), optional=("when", "note"), words={"finding": ()}),
            "role": Keys(required=("letter", "name", "does"), optional=("when",)),
            "person": Keys(required=("who", "needs", "steps"), optional=("when",)),
            "tool": Keys(required=("name", "count", "use"), optional=("when",)),
            "text": Keys(repeated=("text",), optional=("when",)),
        },
        "energies": {
            "energy": Keys(
                required=("source", "magnitude", "isolator", "where", "control", "verified"), optional=("when",)
            )
        },
        "trouble": {
            "trouble": Keys(required=("sign", "cause", "look", "back"), optional=("when",), words={"back": ()})
        },
        "record": {"record": Keys(optional=("when",), repeated=("box", "text"))},
    }
)

REQUIRED_LABELS = frozenset(
    {
        *(f"role {role}" for role in ("installer", "second", "electrician", "owner")),
        *(f"place {place}" for place in ("outside", "controls", "unit", "isolator", "valves", "sweep", "cabinet")),
        *(f"power {word}" for word in ("locked", "on", "unknown")),
        *(f"pressure {word}" for word in ("zero", "ends", "trapped", "low", "working")),
        *(f"leaf {word}" for word in ("held", "resting", "anywhere")),
        *(f"ending {word}" for word in ("stop", "home", "stuck", "unsafe", "wait", "calm", "return", "lockout return")),
        *(f"translation {word}" for word in ("of", "mark", "unreviewed", "reviewed", "working")),
        *(
            f"figure {word}"
            for word in (
                "level",
                "floor",
                "leaf",
                "sweep",
                "inside",
                "outside",
                "cylinder",
                "cylinders",
                "divided",
                "tee",
                "motor",
                "line",
                "centre",
                "scale at",
                "circuit title",
                "one of",
                "not drawn",
            )
        ),
        *(f"figure line {word}" for word in ("title", "says", "scale")),
        *(
            f"figure door {word}"
            for word in (
                "title",
                "tilt-up",
                "swing",
                "vertical lift",
                "slide",
                "valves",
                "turns",
                "goes",
                "hinged scale",
                "guided scale",
                "overhead",
            )
        ),
        *(f"figure centre {word}" for word in ("tandem", "open", "closed", "float")),
        *(f"figure acting {word}" for word in ("double", "push", "pull", "plunger", "through-rod")),
        *(
            f"figure part {word}"
            for word in (
                "extend",
                "retract",
                "relief",
                "blocking",
                "divider",
                "holding",
                "bleed",
                "vent",
                "gauge",
                "isolator",
                "filter",
                "inlet",
                "breather",
                "low",
                "full",
            )
        ),
        *(f"figure rows {word}" for word in ("title", "round", "shut", "vent", "row", "held", "note")),
        *(
            f"figure load {word}"
            for word in (
                "title",
                "opening",
                "closing",
                "held",
                "wind",
                "still",
                "curve",
                "relief",
                "holding",
                "stop",
                "note",
                "still note",
            )
        ),
        *(
            f"figure course {word}"
            for word in (
                *("title", "done", "level", "stop", "dead", "live", "then", "off", "said"),
                *("bars", "note", "hold", "total"),
            )
        ),
        *("block starts", "block starts rest", "timer starts", "step starts"),
        *(f"post {word}" for word in ("isolator", "watch", "both", "apart", "containers", "starter", "starter open")),
        *(f"people {word}" for word in ("second", "both", "third", "starter")),
        *(f"second {word}" for word in ("watch", "isolator", "containers", "holds")),
        *("third isolator", "third watch"),
        *("post holds", "post holds third", "post starts", "post starts third"),
        *("closed", "open", "close verb", "open verb", "shut", "turn", "turns", "never", "yes", "no"),
    }
)
