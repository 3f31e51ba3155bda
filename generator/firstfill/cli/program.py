"""The command group, and the one place where errors become exit codes."""

from __future__ import annotations

import os
import signal
import sys
import traceback
from pathlib import Path
from typing import Any

import click

from firstfill import __version__
from firstfill.cli.commands.affects import affects
from firstfill.cli.commands.check import check
from firstfill.cli.commands.doctor import doctor
from firstfill.cli.commands.new import new
from firstfill.cli.commands.schema import schema
from firstfill.cli.commands.sheet import sheet
from firstfill.cli.commands.show import show
from firstfill.cli.commands.site import pages, serve, site
from firstfill.cli.commands.translate import translate
from firstfill.cli.commands.why import why
from firstfill.cli.terminal import complain, is_debugging
from firstfill.errors import FirstfillError

__all__ = ["EXIT_FAULT", "EXIT_STOPPED", "EXIT_WRONG", "main"]

EXIT_STOPPED = 1
EXIT_WRONG = 2
EXIT_FAULT = 3
_EXIT_INTERRUPTED = 128 + signal.SIGINT
_EXIT_NO_READER = 128 + signal.SIGPIPE


class _ReaderGone(Exception):
    """Whoever read the output has gone away: ``firstfill check | head``."""


class Program(click.Group):
    """The group of all commands: runs one and turns whatever it raises into one line each and an exit code."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command called; click itself would end with 1 where the reader of the output has gone away."""
        try:
            return super().invoke(ctx)
        except BrokenPipeError:
            raise _ReaderGone from None

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order in which they are needed, not of the alphabet."""
        return list(self.commands)

    def main(self, *arguments: Any, **options: Any) -> Any:
        """Run a command and end the process with its exit code; takes what click's own method takes."""
        try:
            outcome = super().main(*arguments, **{"prog_name": "firstfill", **options, "standalone_mode": False})
            sys.stdout.flush()
        except Exception as wrong:  # noqa: BLE001  # the outermost place: whatever comes is told, never swallowed
            sys.exit(_told(wrong))
        sys.exit(outcome if isinstance(outcome, int) else 0)


def _told(wrong: Exception) -> int:
    """Say on the error stream what went wrong and return the exit code."""
    match wrong:
        case _ReaderGone() | BrokenPipeError():
            _leave_output()
            return _EXIT_NO_READER
        case click.Abort() if isinstance(wrong.__cause__, KeyboardInterrupt):
            complain("interrupted: nothing was changed")
            return _EXIT_INTERRUPTED
        case click.Abort():
            click.echo(err=True)  # the prompt that nobody answered ends its line
            complain("the answers end before the questions do: nothing was written; see --answers")
            return EXIT_WRONG
        case click.exceptions.NoArgsIsHelpError():
            click.echo(wrong.format_message(), err=True)
            return EXIT_WRONG
        case click.UsageError():
            complain(_usage(wrong))
            return EXIT_WRONG
        case FirstfillError() if wrong.exit_code < EXIT_FAULT:
            for problem in wrong.problems:
                complain(str(problem))
            return wrong.exit_code
        case OSError():
            name = f" {wrong.filename}" if wrong.filename else ""
            complain(f"cannot use{name}: {wrong.strerror or wrong}")
            if is_debugging():
                traceback.print_exception(wrong)
            return EXIT_WRONG
        case _:
            for line in _fault(wrong):
                complain(f"fault of the program: {line}")
            if is_debugging():
                traceback.print_exception(wrong)
            return EXIT_FAULT


def _leave_output() -> None:
    """Point standard output elsewhere: Python would complain once more when it closes a stream nobody reads."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _usage(wrong: click.UsageError) -> str:
    said = " ".join(wrong.format_message().split()).rstrip(".")
    command = wrong.ctx.command_path if wrong.ctx is not None else "firstfill"
    return f"{said}; see {command} --help"


def _fault(wrong: Exception) -> list[str]:
    if isinstance(wrong, FirstfillError):
        said = [str(problem) for problem in wrong.problems]
    else:
        frames = traceback.extract_tb(wrong.__traceback__)
        place = f" ({Path(frames[-1].filename).name}:{frames[-1].lineno})" if frames else ""
        text = " ".join(str(wrong).split())
        said = [f"{type(wrong).__name__}{place}{': ' if text else ''}{text}"]
    said[-1] += "; run it again as firstfill --debug … and report what that prints"
    return said


@click.group(
    cls=Program,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit code: 0 all usable; 1 a sheet is stopped; 2 facts, words or call wrong; 3 a fault of the program.",
)
@click.version_option(__version__, prog_name="firstfill", message="%(prog)s %(version)s")
@click.option("--debug", is_flag=True, help="Show where in the program a fault happened.")
@click.pass_context
def main(ctx: click.Context, debug: bool) -> None:
    """Turn facts and words into door-specific commissioning sheets."""
    if debug:
        os.environ["FIRSTFILL_DEBUG"] = "1"
    if os.environ.get("NO_COLOR"):
        ctx.color = False


for _command in (check, sheet, show, why, affects, site, pages, serve, new, schema, translate, doctor):
    main.add_command(_command)
