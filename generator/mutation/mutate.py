"""Whether the tests notice a changed line of physics: `make mutate` runs this.

Every operator, number and argument of the modules under ``hydraulics/`` is changed, one at a time, in a throw-away copy
of the program, and the tests of physics run against each change. A change that no test notices is a survivor and is
listed; ``survivors.md`` says of the known ones why they live. mutmut makes the changes and runs the tests; it leaves
decorated functions alone, and every relation is one, so the copy first moves the body of each decorated function into
a plain one that the decorated one calls.

Left out: what a refusal says (words, not physics), and the declarations of symbols and formulas.
"""

from __future__ import annotations

import argparse
import collections
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import libcst as cst

ROOT = Path(__file__).parents[2]
COPIED = {"generator/firstfill": "src/firstfill", "tests": "tests", "unit_specs": "unit_specs", "content": "content"}
TESTS = ("tests/hydraulics", "tests/outside", "tests/commissioning")
NOT_RUN = "test_physics_needs_the_standard_library"  # the copy imports what mutmut put in
NOT_MUTATED = ("__init__", "sources", "relation", "constants")
KEPT = ("staticmethod", "classmethod")
KNOWN = Path(__file__).with_name("survivors.md")
SETTINGS = """
[tool.mutmut]
source_paths = ["src"]
only_mutate = [{modules}]
also_copy = ["unit_specs", "content"]
do_not_mutate_patterns = ["raise OutsideValidity"]
pytest_add_cli_args = ["-p", "no:cacheprovider", "-p", "no:xdist", "-W", "ignore", "-k", "not {not_run}"]
pytest_add_cli_args_test_selection = [{tests}]
use_git_change_detection = false
mutate_only_covered_lines = false
timeout_multiplier = 3.0

[tool.pytest.ini_options]
addopts = "--import-mode=importlib"
pythonpath = ["tests", "src"]
markers = ["browser: drives the built pages in a real Chromium"]
"""


class _Undecorated(cst.CSTTransformer):
    """Moves the body of each decorated function into a plain one beside it."""

    def _split(self, node: cst.FunctionDef) -> cst.BaseStatement | cst.FlattenSentinel[cst.BaseStatement]:
        names = [getattr(d.decorator, "value", None) for d in node.decorators]
        if not node.decorators or any(name in KEPT for name in names):
            return node
        plain = cst.Name(f"plain_{node.name.value}")
        parameters = [*node.params.posonly_params, *node.params.params, *node.params.kwonly_params]
        given = [cst.Arg(value=parameter.name) for parameter in parameters]
        bare = [
            parameter.with_changes(default=None, star="", equal=cst.MaybeSentinel.DEFAULT) for parameter in parameters
        ]
        in_class = bool(parameters) and parameters[0].name.value == "self"
        call = cst.Call(func=cst.Attribute(cst.Name("self"), plain) if in_class else plain, args=given[in_class:])
        described = [line for line in node.body.body[:1] if node.get_docstring() is not None]
        body = cst.IndentedBlock([*described, cst.SimpleStatementLine([cst.Return(call)])])
        moved = node.with_changes(name=plain, decorators=[], params=cst.Parameters(params=bare))
        return cst.FlattenSentinel([moved, node.with_changes(body=body)])

    def leave_FunctionDef(  # noqa: N802 - named by the library
        self, original_node: cst.FunctionDef, updated_node: cst.FunctionDef
    ) -> cst.BaseStatement | cst.FlattenSentinel[cst.BaseStatement]:
        """Split a decorated function."""
        return self._split(updated_node)

    def leave_Raise(  # noqa: N802 - named by the library
        self, original_node: cst.Raise, updated_node: cst.Raise
    ) -> cst.Raise:
        """Set a refusal on one line, so that it can be left alone as a whole."""
        call = updated_node.exc
        if not (isinstance(call, cst.Call) and isinstance(call.func, cst.Name) and len(call.args) == 2):
            return updated_node
        arguments = [cst.Arg(_on_one_line(argument.value)) for argument in call.args]
        return updated_node.with_changes(exc=cst.Call(func=call.func, args=arguments))


def _on_one_line(value: cst.BaseExpression) -> cst.BaseExpression:
    if isinstance(value, cst.ConcatenatedString):
        right = _on_one_line(value.right)
        return cst.ConcatenatedString(value.left, right, whitespace_between=cst.SimpleWhitespace(" "))
    return value


def prepare(to: Path, modules: list[str], folders: list[str]) -> None:
    """Lay the throw-away copy."""
    shutil.rmtree(to, ignore_errors=True)
    ignored = shutil.ignore_patterns("__pycache__", "node_modules", ".hypothesis")
    for folder, copy in COPIED.items():
        shutil.copytree(ROOT / folder, to / copy, ignore=ignored)
    physics = to / "src/firstfill/hydraulics"
    for module in modules:
        file = physics / f"{module}.py"
        file.write_text(cst.parse_module(file.read_text()).visit(_Undecorated()).code)
    chosen = ", ".join(f'"src/firstfill/hydraulics/{module}.py"' for module in modules)
    tests = ", ".join(f'"{folder}"' for folder in folders)
    (to / "pyproject.toml").write_text(SETTINGS.format(modules=chosen, tests=tests, not_run=NOT_RUN))


def outcome(to: Path) -> tuple[collections.Counter[str], list[str]]:
    """Count what became of the mutants, and name those that lived."""
    counts: collections.Counter[str] = collections.Counter()
    alive: list[str] = []
    for file in sorted((to / "mutants").rglob("*.meta")):
        for name, code in json.loads(file.read_text())["exit_code_by_key"].items():
            state = {0: "survived", 5: "untested", 33: "untested", None: "not run", 1: "killed", 3: "killed"}.get(
                code, "killed by time or crash"
            )
            counts[state] += 1
            if state in ("survived", "untested"):
                alive.append(name)
    return counts, alive


def main() -> int:
    """Mutate the modules named, or all of the physics."""
    physics = ROOT / "generator/firstfill/hydraulics"
    known = sorted(file.stem for file in physics.glob("*.py") if file.stem not in NOT_MUTATED)
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("modules", nargs="*", choices=[*known, []], help="modules of hydraulics/; none: all")
    parser.add_argument("--copy", type=Path, default=ROOT / "build/mutation", help="where the throw-away copy stands")
    parser.add_argument("--children", default="2", help="tests of so many mutants run at a time")
    parser.add_argument("--tests", nargs="+", default=TESTS, help="folders of the tests that run")
    given = parser.parse_args()
    prepare(given.copy, given.modules or known, given.tests)
    mutmut = Path(sys.executable).with_name("mutmut")
    log = given.copy / "mutmut.log"
    print(f"mutating {', '.join(given.modules or known)}; what mutmut says: {log}", flush=True)
    with log.open("w") as said:
        command = [str(mutmut), "run", "--max-children", given.children]
        settings = {**os.environ, "CI": "true"}  # hypothesis takes the same examples each time
        ran = subprocess.run(command, cwd=given.copy, check=False, stdout=said, stderr=said, env=settings)  # noqa: S603 - mutmut of this environment
    counts, alive = outcome(given.copy)
    for name in alive:
        asked = [str(mutmut), "show", name]
        shown = subprocess.run(asked, cwd=given.copy, check=False, capture_output=True, text=True)  # noqa: S603 - the same
        changed = [line for line in shown.stdout.splitlines() if line[:1] in "+-" and line[:3] not in ("+++", "---")]
        print("\n".join([name, *(f"    {line}" for line in changed)]))
    total = counts.total()
    dead = counts["killed"] + counts["killed by time or crash"]
    print(f"{total} mutants: " + ", ".join(f"{count} {state}" for state, count in counts.most_common()))
    print(f"{dead / total:.1%} die" if total else "no mutants")
    if alive:
        print(f"why a survivor may live: {KNOWN.relative_to(ROOT)}")
    return ran.returncode if not total else int(dead < 0.95 * total)


if __name__ == "__main__":
    sys.exit(main())
