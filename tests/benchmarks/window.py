"""Window: from start to usable, from edit to repainted, and memory, against a bare window."""

import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator


from tests.benchmarks.timing import line

RUNS = 5


def measurements() -> Iterator[str]:
    """Each in processes of its own, so that nothing is warm that would not be."""
    bare, bare_memory = _median("bare", "0")
    yield f"  bare window with a tree of 50 rows: {1000 * bare:.0f} ms, {bare_memory:.0f} MB"
    for what, argument in (("start page", "start"), ("resort sample open", "resort"), ("1,000 bodies open", "1000")):
        seconds, memory = _median(argument, "0")
        goal = "1.5 ×" if argument in ("start", "resort") else ""
        yield line(f"start to usable window, {what}, {memory:.0f} MB", seconds, bare, "bare window", goal)
    label, _ = _median("bare", "1")
    for what, argument in (("7 bodies", "resort"), ("30 bodies", "30"), ("1,000 bodies", "1000")):
        seconds, _ = _median(argument, "1")
        yield line(f"one edit to repainted window, {what}", seconds, label, "a bare label")


def _median(window: str, edits: str) -> tuple[float, float]:
    """Median seconds and megabytes of several fresh processes."""
    command = [sys.executable, "-m", "tests.benchmarks.one_window", window, edits]
    with tempfile.TemporaryDirectory() as folder:
        answers = [
            subprocess.run([*command, folder], capture_output=True, text=True, check=True).stdout.split()
            for _ in range(RUNS)
        ]
    times, sizes = zip(*((float(answer[-2]), float(answer[-1])) for answer in answers), strict=True)
    return statistics.median(times), statistics.median(sizes)


