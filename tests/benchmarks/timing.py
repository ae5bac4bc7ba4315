"""Medians, and how a line of results is written."""

import statistics
import time
from collections.abc import Callable, Iterable


def median_seconds(action: Callable[[], object], runs: int = 9) -> float:
    """Median time of an action over several runs, after one that does not count."""
    action()
    return statistics.median(_timed(action) for _ in range(runs))


def median_of(actions: Iterable[Callable[[], object]]) -> float:
    """Median time of different actions, each run once."""
    return statistics.median(_timed(action) for action in actions)


def _timed(action: Callable[[], object]) -> float:
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def line(what: str, seconds: float, baseline: float, against: str, goal: str = "") -> str:
    """One result: the median, its ratio to the baseline, and the goal where there is one."""
    ratio = f"{seconds / baseline:8.1f} × {against}"
    return f"  {what:<52}{1000 * seconds:10.2f} ms  {ratio}{f'   goal {goal}' if goal else ''}"
