"""How long each stage takes, in one run on this machine, and as a share of the slowest: read them as ratios.

Usage: ``make bench``, or ``python generator/bench.py [--times N]``.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


def timed(work: Callable[[], object], times: int) -> float:
    """Return the median time of a piece of work, s, after one run that warms it up."""
    work()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def command(*arguments: str) -> Callable[[], object]:
    """Return what runs the program in a process of its own."""
    return lambda: subprocess.run(  # noqa: S603  # the program itself, without a shell
        [sys.executable, "-c", "from firstfill.cli import main; main()", *arguments],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )


def stages() -> dict[str, Callable[[], object]]:
    """Return the stages by what they are, each for one sheet unless it says otherwise."""
    from firstfill.commissioning import commission
    from firstfill.publish import json_file, single_file
    from firstfill.publish.page import card_html, print_html, working_html
    from firstfill.publish.pdf import pdf_bytes
    from firstfill.sheet import compose, read_words
    from firstfill.specs import load

    library = load(ROOT / "unit_specs")
    words = read_words(ROOT / "content", "en")
    facts = library.all_jobs()[0]
    computed = commission(facts)
    sheet = compose(computed, words)
    html = print_html(sheet)
    return {
        "firstfill --help, a process": command("--help"),
        "firstfill why, a process": command("why", facts.id, "bleed.stop_pressure"),
        f"load all facts ({len(library.jobs)} jobs)": lambda: load(ROOT / "unit_specs"),
        "read all words": lambda: read_words(ROOT / "content", "en"),
        **{f"compute {job.id}": partial(commission, job) for job in library.all_jobs()},
        "compose": lambda: compose(computed, words),
        "JSON": lambda: json_file.json_bytes(json_file.document(sheet)),
        "one HTML file": lambda: single_file.html(sheet),
        "print page": lambda: print_html(sheet),
        "PDF": lambda: pdf_bytes(html, sheet),
        "PDF of the working": lambda: pdf_bytes(working_html(sheet), sheet, "working"),
        "card": lambda: pdf_bytes(card_html(sheet), sheet, "card"),
    }


def compute_many(jobs: int) -> float:
    """Return how long the physics of many jobs takes, s: those of the demonstration again and again, one process."""
    from firstfill.commissioning import commission
    from firstfill.specs import load

    orders = load(ROOT / "unit_specs").all_jobs()
    start = time.perf_counter()
    for job in range(jobs):
        commission(orders[job % len(orders)])
    return time.perf_counter() - start


def main() -> None:
    """Time every stage and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=5, help="how often each stage is timed (default 5)")
    parser.add_argument("--jobs", type=int, default=1000, help="how many jobs are computed in a row (default 1000)")
    given = parser.parse_args()
    times, jobs = given.times, given.jobs
    measured = {what: timed(work, times) for what, work in stages().items()}
    measured[f"compute {jobs} jobs, once"] = compute_many(jobs)
    pdf = measured["PDF"]
    width = max(map(len, measured))
    print(f"{'':{width}}  {'ms':>8}  of a PDF    (median of {times})")
    for what, seconds in measured.items():
        print(f"{what:{width}}  {seconds * 1000:8.1f}  {seconds / pdf:8.2f}", flush=True)


if __name__ == "__main__":
    main()
