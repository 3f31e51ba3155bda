"""Work spread over processes that may die: the pool is built anew and the lost tasks are tried again.

Processes are spawned, not forked: the renderer of PDFs does not survive a fork.
"""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from typing import TypeVar

from firstfill.errors import Problem, ProgramFault

__all__ = ["worked"]

_Task = TypeVar("_Task")
_Result = TypeVar("_Result")

_TRIES = 3


def worked(
    work: Callable[[_Task], _Result], tasks: Sequence[_Task], *, worth: int, processes: int | None = None
) -> Iterator[tuple[int, _Result]]:
    """Yield the number and the result of each task as it is done.

    Parameters
    ----------
    work
        A function of a module, so that another process can find it.
    tasks
        What it is called with, one at a time.
    worth
        From how many tasks on several processes are quicker than this one alone.
    processes
        How many; else as many as there are cores.

    Raises
    ------
    ProgramFault
        When processes died three times running without getting any further.
    """
    processes = min(processes or os.cpu_count() or 1, len(tasks))
    if processes < 2 or len(tasks) < worth:
        for number, task in enumerate(tasks):
            yield number, work(task)
        return
    left = dict(enumerate(tasks))
    tries = 0
    while left:
        before = len(left)
        try:
            for number, result in _round(work, left, processes):
                del left[number]
                yield number, result
        except BrokenProcessPool:
            tries = tries + 1 if len(left) == before else 0
            if tries == _TRIES:
                found = f"processes died over {len(left)} tasks, {_TRIES} times without getting any further"
                raise ProgramFault(Problem("workers-died", found, "results", "see how much memory is left")) from None


def _round(
    work: Callable[[_Task], _Result], tasks: Mapping[int, _Task], processes: int
) -> Iterator[tuple[int, _Result]]:
    """Yield results until all tasks are done or a process dies."""
    with ProcessPoolExecutor(processes, mp_context=multiprocessing.get_context("spawn")) as pool:
        started: dict[Future[_Result], int] = {pool.submit(work, task): number for number, task in tasks.items()}
        try:
            for done in as_completed(started):
                yield started[done], done.result()
        finally:
            pool.shutdown(wait=True, cancel_futures=True)
