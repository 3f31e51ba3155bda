"""The rules of the house: which way imports go, where each heavy library lives, what may not stand in a file."""

from __future__ import annotations

import ast
import importlib
import inspect
import json
import pkgutil
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

import firstfill
from firstfill import hydraulics
from firstfill.commissioning.table import FINDINGS
from firstfill.hydraulics.relation import RELATIONS
from firstfill.hydraulics.sources import SOURCES
from firstfill.quantities import KINDS

# A relation is known once its module was imported.
for _found in pkgutil.iter_modules(hydraulics.__path__, "firstfill.hydraulics."):
    importlib.import_module(_found.name)

ROOT = Path(__file__).parents[1]
PACKAGE = Path(firstfill.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))

# Data goes one way, and imports with it: a package may import those before it.
LAYERS = ("errors", "quantities", "specs", "hydraulics", "commissioning", "sheet", "figures", "publish", "cli")
# Physics knows nothing of YAML, jobs or pint, although it comes after them.
ONLY = {"quantities": {"errors"}, "specs": {"errors", "quantities"}, "hydraulics": {"errors"}}
# Each heavy library has one home.
HOMES = {
    "pint": "quantities/convert.py",
    "yaml": "specs/",
    "weasyprint": "publish/pdf.py",
    "fontTools": "publish/",
    "mkdocs": "publish/site/",
    "rich": "cli/",
    "click": "cli/",
}
# What runs in a browser, where there are no processes, sockets or foreign binaries.
IN_BROWSER = ("errors", "quantities", "specs", "hydraulics", "commissioning", "sheet", "figures", "publish")
NOT_IN_BROWSER = ("publish/site/", "publish/assets/")
BROWSER_LIBRARIES = {"firstfill", "jinja2", "markdown", "markupsafe", "pint", "pydantic", "pydantic_core", "yaml"}
NO_BROWSER_STANDARD = {"ctypes", "http", "multiprocessing", "signal", "socket", "ssl", "subprocess", "threading"}


def _name(module: Path) -> str:
    return module.relative_to(PACKAGE).as_posix()


def _layer(module: Path) -> str:
    return _name(module).partition("/")[0].removesuffix(".py")


def _imports(module: Path, *, on_import: bool = False) -> Iterator[str]:
    """Yield the full name of everything a module imports: anywhere in it, or only what importing it loads."""
    stack: list[ast.AST] = [ast.parse(module.read_text(encoding="utf-8"))]
    while stack:
        node = stack.pop()
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are written in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        for_types = isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        if not (on_import and (isinstance(node, ast.FunctionDef) or for_types)):
            stack.extend(ast.iter_child_nodes(node))


def _ours(module: Path) -> set[str]:
    return {name.split(".")[1] for name in _imports(module) if name.startswith("firstfill.")} - {"__version__"}


@pytest.mark.parametrize("module", MODULES, ids=_name)
def test_imports_run_one_way(module: Path) -> None:
    layer = _layer(module)
    if layer == "__init__":
        assert not _ours(module)
        return
    allowed = ONLY.get(layer, set(LAYERS[: LAYERS.index(layer)])) | {layer}
    assert _ours(module) <= allowed


@pytest.mark.parametrize("library", HOMES)
def test_each_heavy_library_has_one_home(library: str) -> None:
    users = {_name(module) for module in MODULES if any(name.split(".")[0] == library for name in _imports(module))}
    assert users, f"{library} is used nowhere: is it still needed?"
    assert all(user.startswith(HOMES[library]) for user in users), users


@pytest.mark.parametrize("module", [m for m in MODULES if _layer(m) == "hydraulics"], ids=_name)
def test_physics_is_standard_library_alone(module: Path) -> None:
    roots = {name.split(".")[0] for name in _imports(module)}
    assert roots <= sys.stdlib_module_names | {"firstfill"}


@pytest.mark.parametrize(
    "module",
    [m for m in MODULES if _layer(m) in IN_BROWSER and not _name(m).startswith(NOT_IN_BROWSER)],
    ids=_name,
)
def test_what_runs_in_a_browser_imports_nothing_that_cannot(module: Path) -> None:
    imported = set(_imports(module, on_import=True))
    roots = {name.split(".")[0] for name in imported}
    assert roots - sys.stdlib_module_names <= BROWSER_LIBRARIES
    assert not roots & NO_BROWSER_STANDARD
    assert not any(name.startswith("firstfill.publish.site") for name in imported)


def test_help_loads_nothing_heavy() -> None:
    code = "import sys, firstfill.cli; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    heavy = {"pydantic", "pint", "yaml", "weasyprint", "mkdocs", "jinja2", "rich", "firstfill.specs", "firstfill.sheet"}
    assert not heavy & set(loaded)


def _tracked() -> list[Path]:
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True).stdout.decode()
    return [ROOT / name for name in listed.split("\0") if name and (ROOT / name).is_file()]


def _texts() -> Iterator[tuple[str, str]]:
    for path in _tracked():
        content = path.read_bytes()
        if b"\0" not in content:
            yield path.relative_to(ROOT).as_posix(), content.decode("utf-8")


# Names and identifiers, not places anything is fetched from.
ADDRESSES = re.compile(
    r"https?://(?:www\.apache\.org/licenses|json-schema\.org/draft|www\.w3\.org/|scripts\.sil\.org/OFL"
    r"|github\.com/rsms/inter|[a-z0-9.-]*\.example\b|127\.0\.0\.1|localhost)"
)
# Written in pieces, so that this file passes its own test.
UNFINISHED = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|XX" + r"X|NotImplemented" + r"Error)\b")
MACHINE = re.compile(r"(?<![\w.*$}/])/(?:wo" + r"rk|ro" + r"ot|ho" + r"me|o" + r"pt|tm" + r"p)/")
REGISTRY = re.compile(
    r"py" + r"pi\.|python" + r"hosted|npm" + r"js\.|un" + r"pkg\.|(?<!emit-)index" + r"-url|\bcd" + r"n\."
)


def test_every_text_is_finished_and_names_no_machine_and_no_outside_host() -> None:
    found: list[str] = []
    for name, text in _texts():
        for number, line in enumerate(text.splitlines(), start=1):
            addresses = re.findall(r"https?://[^\s\"'<>)]+", line)
            outside = [address for address in addresses if not ADDRESSES.match(address)]
            if outside or any(pattern.search(line) for pattern in (UNFINISHED, MACHINE, REGISTRY)):
                found.append(f"{name}:{number}: {line.strip()[:120]}")
    assert not found


def test_whatever_silences_a_tool_says_why() -> None:
    silenced = re.compile(r"# (?:noqa|type: ignore)\b")
    reasoned = re.compile(r"# (?:noqa: [A-Z0-9, ]+?|type: ignore\[[a-z, -]+\])[ #-]{2,}[A-Za-z]")
    found = [
        f"{name}:{number}"
        for name, text in _texts()
        if name.endswith(".py") and not name.endswith("test_house.py")
        for number, line in enumerate(text.splitlines(), start=1)
        if silenced.search(line) and not reasoned.search(line)
    ]
    assert not found


@pytest.mark.parametrize("relation", RELATIONS.values(), ids=RELATIONS.keys())
def test_relation_declares_what_its_function_documents(relation) -> None:
    document = inspect.getdoc(relation.function) or ""
    for parameter in relation.symbols:
        assert re.search(rf"^(?:[\w, ]+, )?{parameter}(?:, [\w, ]+)?$", document, re.MULTILINE), parameter
    assert "Returns\n-------" in document
    kinds = {relation.result.kind, *(symbol.kind for symbol in relation.symbols.values())}
    assert kinds <= {*KINDS, "object", "any"}


def _words_of_code() -> set[str]:
    """Return every string that stands in the program outside the bibliography itself."""
    return {
        node.value
        for module in MODULES
        if module.name != "sources.py"
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def test_every_source_is_used() -> None:
    said = _words_of_code()
    words = "\n".join(text for name, text in _texts() if name.startswith("content/"))
    assert [key for key in SOURCES if key not in said and key not in words] == []


def test_every_check_names_a_source_of_the_bibliography(commissionings) -> None:
    for done in commissionings.values():
        for check in done.checks:
            assert check.source in SOURCES, check.id


def test_every_finding_has_a_kind_of_quantity() -> None:
    assert {row.kind for row in FINDINGS.values()} <= set(KINDS)


PINNED = re.compile(r"^([A-Za-z0-9_.-]+)==(\S+)(?: ; .*)? \\$", re.MULTILINE)


def _pinned(name: str) -> dict[str, set[str]]:
    made: dict[str, set[str]] = {}
    for package, version in PINNED.findall((ROOT / name).read_text(encoding="utf-8")):
        made.setdefault(canonicalize_name(package), set()).add(version)
    return made


def test_every_requirement_is_pinned_with_hashes_and_nothing_else_stands_there() -> None:
    for name in ("requirements.txt", "requirements-test.txt"):
        for line in (ROOT / name).read_text(encoding="utf-8").splitlines():
            assert re.fullmatch(
                r"#.*|[A-Za-z0-9_.-]+==\S+(?: ; .+)? \\|    --hash=sha256:[0-9a-f]{64}(?: \\)?", line
            ), line
        assert set(_pinned(name))


def test_requirements_agree_with_the_project() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    program, tests = _pinned("requirements.txt"), _pinned("requirements-test.txt")
    groups = project["dependency-groups"]
    for pinned, asked in (
        (program, [*project["project"]["dependencies"], *groups["build"]]),
        (tests, groups["test"]),
    ):
        for text in asked:
            requirement = Requirement(text)
            versions = pinned[canonicalize_name(requirement.name)]
            assert all(requirement.specifier.contains(version) for version in versions), text
    assert {name: tests[name] for name in program} == program


def test_published_schemas_are_those_of_the_models() -> None:
    from firstfill.specs.schema import schema_files

    folder = ROOT / "unit_specs" / "schemas"
    assert {path.name for path in folder.iterdir()} == set(schema_files())
    for name, text in schema_files().items():
        assert json.loads((folder / name).read_text(encoding="utf-8")) == json.loads(text), f"{name}: firstfill schema"


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_every_path_a_page_names_is_there(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    named = re.findall(r"`((?:generator|content|unit_specs|tests)/[\w./-]+)`|\]\(([\w.]+)\)", text)
    paths = ["".join(pair) for pair in named]
    assert paths
    assert [path for path in paths if not (ROOT / path).exists()] == []
