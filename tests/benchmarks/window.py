"""Window: from start to usable, from edit to repainted, and memory, against a bare window."""

import os
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.timing import line
from tests.large_site import large_site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import save_project

RUNS = 7
RESORT = str(samples_folder() / "resort-park.waterpark")


def measurements() -> Iterator[str]:
    """Each in processes of its own, so that nothing is warm that would not be."""
    with tempfile.TemporaryDirectory() as folder:
        bare, bare_memory = _median("bare", False, folder)
        yield f"  bare window with a tree of 50 rows: {1000 * bare:.0f} ms, {bare_memory:.0f} MB"
        yield from _starts(bare, folder)
        label, _ = _median("bare", True, folder)
        for what, file, goal in (
            ("7 bodies", RESORT, ""),
            ("30 bodies", _site(30, folder), "16 ms"),
            ("1,000 bodies", _site(1000, folder), "16 ms"),
        ):
            seconds, _ = _median(file, True, folder)
            yield line(f"one edit to repainted window, {what}", seconds, label, "a bare label", goal)


def _starts(bare: float, folder: str) -> Iterator[str]:
    for what, argument, goal in (
        ("start to usable start page", "start", "1.5 ×"),
        ("  its longest wait for an answer", "waiting", ""),
        ("start to resort sample on screen", RESORT, "1.5 ×"),
        ("start to 1,000 bodies on screen", _site(1000, folder), ""),
    ):
        seconds, memory = _median(argument, False, folder)
        yield line(f"{what}, {memory:.0f} MB", seconds, bare, "bare window", goal)


def _site(bodies: int, folder: str) -> str:
    """The file of a site of this size, written once."""
    path = Path(folder) / f"{bodies}.waterpark"
    if not path.exists():
        save_project(large_site(bodies), path, None)
    return str(path)


def _median(window: str, edits: bool, folder: str) -> tuple[float, float]:
    """Median seconds and megabytes of several fresh processes, after one that leaves compiled modules behind.

    A setting that keeps Python from storing those would time the compiler at every start.
    """
    command = [sys.executable, "-m", "tests.benchmarks.one_window", window, str(int(edits)), folder]
    setting = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    answers = [_answer(command, setting) for _ in range(1 + RUNS)][1:]
    times, sizes = zip(*((float(answer[-2]), float(answer[-1])) for answer in answers), strict=True)
    return statistics.median(times), statistics.median(sizes)


def _answer(command: list[str], setting: dict[str, str]) -> list[str]:
    return subprocess.run(command, capture_output=True, text=True, check=True, env=setting).stdout.split()
