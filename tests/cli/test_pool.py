"""Work on several processes: all of it comes back, whoever dies on the way."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.pool_work import die_always, die_once, fail, square
from firstfill.cli.pool import worked
from firstfill.errors import FactsError, ProgramFault


@pytest.mark.parametrize("worth", [1, 100], ids=["on processes", "in this one"])
def test_every_task_gives_its_result(worth: int) -> None:
    assert dict(worked(square, range(7), worth=worth, processes=2)) == {n: n * n for n in range(7)}


def test_a_task_lost_with_its_process_is_done_again(tmp_path: Path) -> None:
    tasks = [tmp_path / str(number) for number in range(2)]
    assert dict(worked(die_once, tasks, worth=1, processes=2)) == {0: "0", 1: "1"}


def test_processes_that_always_die_are_a_fault() -> None:
    with pytest.raises(ProgramFault, match="3 times without getting any further"):
        list(worked(die_always, range(2), worth=1, processes=2))


def test_an_error_of_a_task_comes_back_as_it_is() -> None:
    with pytest.raises(FactsError, match="a text"):
        list(worked(fail, range(3), worth=1, processes=2))
