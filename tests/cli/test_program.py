"""Whatever goes wrong ends as one line each and the right exit code, never as a traceback."""

from __future__ import annotations

import subprocess
import sys

import click
import pytest

from firstfill.cli import main
from firstfill.cli.program import Program
from firstfill.errors import FactsError, Location, Problem, ProgramFault

COMMANDS = ("check", "sheet", "show", "why", "affects", "site", "pages", "serve", "schema", "doctor")


@pytest.mark.parametrize("command", [*COMMANDS, "new job", "new unit", "new door", "new fluid"])
def test_every_command_has_the_three_folders_and_an_example(run, command: str) -> None:
    shown = run(*command.split(), "--help")
    assert shown.exit_code == 0
    for option in ("--specs", "--words", "--to"):
        assert option in shown.output
    assert f"Example: firstfill {command}" in shown.output


def test_help_lists_the_commands_in_the_order_of_need(run) -> None:
    listed = run("--help").output
    order = [
        listed.index(f"\n  {command} ")
        for command in ("check", "sheet", "show", "why", "affects", "site", "new", "doctor")
    ]
    assert order == sorted(order)
    assert "Exit code" in listed


@pytest.mark.parametrize(
    ("call", "said"),
    [
        ("shet", "'sheet'"),
        ("sheet", "no sheet is named"),
        ("sheet --all brackwater-lifeboat-shed", "no sheet is named"),
        ("sheet --form docx brackwater-lifeboat-shed", "'docx' is not one of"),
        ("show", "Missing argument 'JOB'"),
        ("show --nonsense x", "--nonsense"),
        ("show brackwater-lifeboat-shet", "expected one of brackwater-lifeboat-shed;"),
        ("why brackwater-lifeboat-shed bleed.stop_presure", "expected bleed.stop_pressure"),
        ("why brackwater-lifeboat-shed reservoir.stays_above_low", "is a check, not a number; expected reservoir."),
        ("why brackwater-lifeboat-shed bleed.stage.9.gauge_most", "does not apply to brackwater-lifeboat-shed"),
        ("check --specs nowhere", "no directory nowhere"),
        ("check --words nowhere", "no directory nowhere"),
        ("site --language tlh", "no words in 'tlh'"),
        ("schema --specs nowhere", "no directory nowhere"),
        ("new job --answers nowhere.yaml", "no file nowhere.yaml"),
        ("serve --port 99999", "99999 is not in the range"),
    ],
)
def test_a_wrong_call_is_told_in_one_line(place, run, call: str, said: str) -> None:
    done = run(*call.split())
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stdout == ""
    assert not (place / "build").exists()


def test_called_with_nothing_it_shows_its_help(run) -> None:
    done = run()
    assert done.exit_code == 2
    assert "Commands:" in done.stderr


def _raising(wrong: BaseException) -> Program:
    @click.command
    def burst() -> None:
        raise wrong

    return Program(commands={"burst": burst})


PROBLEMS = (
    Problem("facts-b", "two", "one", "take one", Location("b.yaml", 2, 1, "keys")),
    Problem("facts-a", "text\nwith a break", "a number", "", Location("a.yaml", 1, 1)),
)


@pytest.mark.parametrize(
    ("wrong", "code", "lines"),
    [
        (FactsError(PROBLEMS), 2, ["a.yaml:1:1: text with a break; expected a number", "b.yaml:2:1: keys: two; "]),
        (ProgramFault(PROBLEMS[0]), 3, ["fault of the program: b.yaml:2:1: keys: two"]),
        (KeyError("relief"), 3, ["fault of the program: KeyError (test_program.py:"]),
        (RecursionError(), 3, ["fault of the program: RecursionError"]),
        (PermissionError(13, "Permission denied", "build"), 2, ["cannot use build: Permission denied"]),
        (OSError(28, "No space left on device"), 2, ["cannot use: No space left on device"]),
        (KeyboardInterrupt(), 130, ["", "interrupted: nothing was changed"]),
        (BrokenPipeError(), 141, []),
    ],
    ids=lambda value: type(value).__name__ if isinstance(value, BaseException) else "",
)
def test_every_error_becomes_lines_and_an_exit_code(wrong, code: int, lines: list[str], monkeypatch, capfd) -> None:
    monkeypatch.delenv("FIRSTFILL_DEBUG", raising=False)
    monkeypatch.setattr("firstfill.cli.program._leave_output", lambda: None)
    with pytest.raises(SystemExit) as ended:
        _raising(wrong).main(["burst"])
    assert ended.value.code == code
    said = capfd.readouterr().err.splitlines()
    assert len(said) == len(lines)
    assert all(line.startswith(begun) for line, begun in zip(said, lines, strict=True))


def test_a_fault_shows_its_place_only_when_asked(monkeypatch, capfd) -> None:
    monkeypatch.setenv("FIRSTFILL_DEBUG", "1")
    with pytest.raises(SystemExit):
        _raising(KeyError("relief")).main(["burst"])
    assert "Traceback" in capfd.readouterr().err


def test_a_reader_that_goes_away_is_no_stopped_sheet() -> None:
    code = "from firstfill.cli import main; main()"
    # The reader is gone long before the program has started, so its first line meets a closed pipe every time.
    writer = f"{sys.executable} -c '{code}' doctor | true; exit ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", writer], capture_output=True, text=True, check=False)
    assert done.returncode == 141
    assert done.stderr == ""


def test_colour_is_for_terminals_alone_and_never_against_the_wish(run, monkeypatch) -> None:
    from click.testing import CliRunner

    assert "\x1b[" not in run("doctor").output
    assert "\x1b[" in CliRunner().invoke(main, ["doctor"], color=True).output
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b[" not in CliRunner().invoke(main, ["doctor"], color=True).output
