"""The questions asked at the terminal, each answer judged by the loader before the next is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from firstfill.cli.new_job.asking import ask, ask_choice, tell
from firstfill.cli.new_job.choices import Choice, doors, oils, plate, power_units, wirings
from firstfill.cli.new_job.draft import Draft, Nested
from firstfill.cli.new_job.finishing import Printing, commented, problems_of, provisional, with_unit
from firstfill.cli.new_job.questions import QUESTIONS, Question, question_of
from firstfill.cli.work import Sources
from firstfill.errors import FactsError, Problem
from firstfill.specs import Door, JobFacts, LineRun
from firstfill.specs.nodes import Mapping, Node, Text

__all__ = ["Dialogue"]

_LEFT_OUT = "-"
_PARTS = ("door", "power_unit")
_OF_A_RUN = {
    "side": "side (cap or rod)",
    "branch": "branch (as the door names them: left, right, only, common)",
    "inside_diameter": "inside diameter",
    "kind": "kind (tube, pipe or hose)",
    "expansion_modulus": "of a hose: elastic modulus of its volume",
}


class Dialogue:
    """One dialogue.

    Parameters
    ----------
    sources
        Facts and words.
    printing
        What was printed last.
    """

    def __init__(self, sources: Sources, printing: Printing) -> None:
        self._library = sources.library
        self._words = sources.words.get(printing.language) or next(iter(sources.words.values()))
        self._printing = printing
        self._draft = Draft()

    def run(self) -> Draft:
        """Ask everything and return what was answered: a file the loader takes."""
        tell("A new job. Enter keeps what is in [ ]; what nobody knows stays open.")
        for key in ("number", "site", "words", "altitude"):
            self._ask(QUESTIONS[key])
        self._choose("door", doors(self._library))
        self._choose("power_unit", power_units(self._library, self._draft.answers["door"]))
        unit = self._revision().unit
        self._ask(QUESTIONS["coldest_start"])
        self._choose("fluid", oils(self._library, self._draft, self._words))
        self._ask(QUESTIONS["fill"])
        self._ask(QUESTIONS["hottest_oil"], beside=unit.oil_temperature.most.text)
        for key, said in plate(unit).items():
            self._ask(QUESTIONS[key], beside=f"the plate says {said}")
        self._choose("wiring", wirings())
        for key in ("people", "isolator_distance", "isolator_from_controls"):
            self._ask(QUESTIONS[key])
        facts = self._as_known()
        self._runs(facts.door)
        self._differences(facts)
        self._printed()
        return commented(self._mended(), self._library)

    def _as_known(self) -> JobFacts:
        return provisional(self._draft, self._library)

    def _problems(self, draft: Draft) -> tuple[Problem, ...]:
        try:
            provisional(draft, self._library)
        except FactsError as wrong:
            return wrong.problems
        return ()

    def _takes(self, draft: Draft, keys: str) -> bool:
        """Keep the draft where the loader has nothing to say about what stands at a key path."""
        wrong = [problem for problem in self._problems(draft) if f"{_keys(problem)}.".startswith(f"{keys}.")]
        for problem in wrong:
            tell(f"  {_said(problem)}")
        if not wrong:
            self._draft = draft
        return not wrong

    def _ask(self, question: Question, beside: str = "") -> None:
        text = f"{question.text} ({beside})" if beside else question.text
        taken = False
        while not taken:
            answer = with_unit(question.key, ask(text, unknown=question.unknown))
            draft = self._draft.answered(question.key, answer, "" if answer else question.without)
            taken = self._takes(draft, question.keys)

    def _choose(self, key: str, choices: Sequence[Choice]) -> None:
        chosen = ask_choice(QUESTIONS[key].text, choices)
        self._draft = self._draft.answered(key, chosen)

    def _revision(self) -> JobFacts:
        """Ask for the serial number, else for the month, and say at once which revision that is."""
        while True:
            serial = ask(QUESTIONS["serial"].text, unknown=QUESTIONS["serial"].unknown)
            built = None if serial else ask(QUESTIONS["built"].text, unknown=QUESTIONS["built"].unknown)
            draft = self._draft.answered("serial", serial).answered("built", built)
            if not self._takes(draft, "power_unit"):
                continue
            facts = self._as_known()
            note = "" if serial else "; the sheet says to read the plate"
            tell(f"  revision {facts.unit.revision}, {facts.revision.serial_range}{note}")
            return facts

    def _runs(self, door: Door) -> None:
        tell("Line runs as built: the length, or length and inside diameter with a comma between; - where left out.")
        for run, plan in door.line_runs.items():
            as_planned = f"{plan.length.text}, {plan.inside_diameter.text}"
            self._asked_run(run, f"{run} ({plan.where}; planned {as_planned})")
        while (added := ask("Any run added? Its name", unknown="none")) is not None:
            self._added_run(added)

    def _asked_run(self, run: str, text: str) -> None:
        taken = False
        while not taken:
            answer = ask(text, unknown="as planned, not measured")
            if answer is None:
                return
            draft = self._draft.with_run(run, None if answer == _LEFT_OUT else _run_stated(answer))
            taken = self._takes(draft, f"line_runs.{run}")

    def _added_run(self, run: str) -> None:
        """Ask for a run the door does not plan: everything that has to be known of one."""
        stated: Nested = {}
        for key, field in LineRun.model_fields.items():
            answer = ask(f"  {_OF_A_RUN.get(key, key)}", unknown="" if field.is_required() else "none")
            if answer is not None:
                stated[key] = answer
        self._takes(self._draft.with_run(run, stated), f"line_runs.{run}")

    def _differences(self, facts: JobFacts) -> None:
        text = "Anything else different from the door's or unit's sheet? Its key path (as door.leaf.mass)"
        while (keys := ask(text, unknown="no")) is not None:
            part, _, below = keys.partition(".")
            if part not in _PARTS or not below:
                tell("  a key path begins with door. or power_unit.")
                continue
            node = _looked_up(facts.door.node if part == "door" else facts.unit.node, below)
            if node is not None and not isinstance(node, Text):
                tell(f"  that is more than one value{': ' + ', '.join(node) if isinstance(node, Mapping) else ''}")
                continue
            tell(f"  the sheet says {node}" if node is not None else "  the sheet does not say")
            value = ask("  in this job", default=str(node) if node is not None else "")
            self._takes(self._draft.with_difference(keys, str(value)), f"{part}.changes")

    def _printed(self) -> None:
        last = self._printing
        draft = self._draft
        taken = False
        while not taken:
            units = ask("Units, the first one first", default=last.units)
            paper = ask("Paper (A4 or Letter)", default=last.paper)
            language = ask("Language", default=last.language)
            said = {"units": units, "paper": paper, "language": language}
            taken = self._takes(last.applied(draft, said), "print")

    def _mended(self) -> Draft:
        """Ask again for whatever only the whole shows to be wrong.

        Raises
        ------
        FactsError
            When what is wrong is the answer to no single question.
        """
        while problems := problems_of(self._draft, self._library):
            again = {question.key: question for problem in problems if (question := question_of(_keys(problem)))}
            if not again:
                raise FactsError(problems)
            for problem in problems:
                tell(f"  {_said(problem)}")
            for question in again.values():
                self._ask(question)
        return self._draft


def _keys(problem: Problem) -> str:
    return problem.location.keys if problem.location is not None else ""


def _said(problem: Problem) -> str:
    """Return a problem without its place: whoever answers knows it."""
    return str(replace(problem, location=None))


def _run_stated(answer: str) -> Nested:
    length, _, diameter = (part.strip() for part in answer.partition(","))
    return {"length": length, "inside_diameter": diameter} if diameter else {"length": length}


def _looked_up(node: Node, keys: str) -> Node | None:
    for key in keys.split("."):
        if not isinstance(node, Mapping) or key not in node:
            return None
        node = node[key]
    return node
