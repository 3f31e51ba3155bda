"""The way of any number down to the facts, for every number of every job."""

from __future__ import annotations

import json
import re

import pytest

from firstfill.cli.folders import Folders
from firstfill.cli.lineage import found_findings, lineage, lineage_plain
from firstfill.hydraulics.sources import SOURCES

JOBS = (
    "brackwater-lifeboat-shed",
    "harrowmoss-machine-shed",
    "oddernsay-research-hangar",
    "quernholt-tower-shed",
    "saltmarrow-depot",
)
TITLES = {source.title for source in SOURCES.values()}


@pytest.fixture(scope="module")
def demonstration_folders(request) -> Folders:
    root = request.config.rootpath
    return Folders(root / "unit_specs", root / "content", root / "build")


@pytest.mark.parametrize("job", JOBS)
def test_every_number_of_every_job_is_walked_down_to_facts_constants_and_gaps(demonstration_folders, job: str) -> None:
    commissioning, findings = found_findings(demonstration_folders, job, None)
    assert len(findings) > 150
    made = lineage_plain(commissioning, findings)
    assert json.loads(json.dumps(made, allow_nan=False)) == made
    nodes = made["nodes"]
    for node in nodes:
        below = [part["node"] for part in node.get("inputs", ())] + node.get("also", [])
        assert all(0 <= number < len(nodes) for number in below)
        match node["is"]:
            case "fact":
                assert node["file"].endswith(".yaml")
                assert node["line"] > 0
                assert node["keys"]
            case "missing":
                assert node["keys"]
            case "constant":
                assert any(node["source"].startswith(title) for title in TITLES)
            case "finding" | "step":
                # Whatever was made by no relation says the rule it was made by, or why there is no number.
                assert node["formula"] or node.get("refused"), node
                assert not node["relation"] or any(node["source"].startswith(title) for title in TITLES)
            case "group":
                assert node["inputs"]
            case other:
                pytest.fail(other)
    # Nothing is left hanging: every node is below one of those that were asked for.
    seen: set[int] = set()
    waiting = list(made["roots"])
    while waiting:
        number = waiting.pop()
        if number not in seen:
            seen.add(number)
            waiting += [part["node"] for part in nodes[number].get("inputs", ())] + nodes[number].get("also", [])
    assert seen == set(range(len(nodes)))


@pytest.mark.parametrize("job", JOBS)
def test_every_number_has_its_tree(demonstration_folders, job: str) -> None:
    """Each alone, as somebody would ask for it: a head, then branches that end in facts with their line."""
    commissioning, findings = found_findings(demonstration_folders, job, None)
    for finding in findings:
        lines = list(lineage(commissioning, [finding]))
        assert lines[0].startswith(f"{finding.name} = ")
        assert all(line == line.rstrip() for line in lines)
        written = [line for line in lines if re.search(r"\.yaml:\d+:\d+", line)]
        constants = [line for line in lines if any(title in line for title in TITLES)]
        assert written or constants or finding.name == "lockouts.planned", finding.name


def test_what_the_terminal_says_is_what_the_file_says(place, run) -> None:
    """The lines quoted are those of the file, at the line named."""
    done = run("why", "brackwater-lifeboat-shed", "bleed.stop_pressure")
    assert done.exit_code == 0
    lines = done.stdout.splitlines()
    quoted = 0
    for number, line in enumerate(lines[:-1]):
        named = re.search(r"(unit_specs/\S+\.yaml):(\d+):\d+", line)
        following = re.search(r"> (.+)$", lines[number + 1])
        if named and following:
            there = (place / named[1]).read_text(encoding="utf-8").splitlines()[int(named[2]) - 1]
            assert following[1].strip("… ") in there
            quoted += 1
    assert quoted > 5


def test_the_same_number_as_data(place, run) -> None:
    done = run("why", "brackwater-lifeboat-shed", "bleed.stop_pressure", "--json")
    made = json.loads(done.stdout)
    assert made["format"] == "firstfill.why/1"
    (root,) = made["roots"]
    top = made["nodes"][root]
    assert (top["name"], top["value"], top["unit"]) == ("bleed.stop_pressure", pytest.approx(2.6e6), "Pa")
    # 400 psi of the unit, in whole divisions of its gauge; 1 psi = 6894.757 Pa (NIST SP 811, appendix B.8).
    least = made["nodes"][top["inputs"][0]["node"]]
    assert least["value"] == pytest.approx(400 * 6894.757, rel=1e-6)


def test_all_of_them_at_once(place, run) -> None:
    done = run("why", "saltmarrow-depot", "--all")
    assert done.exit_code == 0
    heads = {line.split(" = ")[0] for line in done.stdout.splitlines() if line and line[0].isalpha()}
    assert {"bleed.stop_pressure", "lockouts.planned", "oil.to_order"} <= heads
    data = json.loads(run("why", "saltmarrow-depot", "--all", "--json").stdout)
    assert {data["nodes"][number]["name"] for number in data["roots"]} == heads


def test_the_end_of_a_name_will_do_and_a_beginning_shows_all_below_it(place, run) -> None:
    done = run("why", "brackwater-lifeboat-shed", "stop_pressure")
    assert done.stdout.startswith("bleed.stop_pressure = ")
    row = run("why", "brackwater-lifeboat-shed", "bleed.stage.1.", "--json")
    made = json.loads(row.stdout)
    names = [made["nodes"][number]["name"] for number in made["roots"]]
    assert len(names) > 5
    assert all(name.startswith("bleed.stage.1.") for name in names)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("gauge_most", "expected bleed.stage.1.gauge_most or bleed.stage.2.gauge_most"),
        ("bleed.stop_presure", "expected bleed.stop_pressure"),
        ("lines.run.lft-cap.velocity", "lines.run.left-cap.velocity"),
        ("nothing.of.the.sort", "a name such as bleed.stop_pressure"),
    ],
)
def test_a_name_that_is_none_is_told_what_is_near(place, run, asked: str, said: str) -> None:
    done = run("why", "brackwater-lifeboat-shed", asked)
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stderr.count("\n") == 1


def test_one_number_or_all_but_not_both_or_neither(place, run) -> None:
    for call in (("why", "saltmarrow-depot"), ("why", "saltmarrow-depot", "oil.to_order", "--all")):
        done = run(*call)
        assert done.exit_code == 2
        assert "no number is named" in done.stderr
