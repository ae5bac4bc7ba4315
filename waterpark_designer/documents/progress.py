"""How far a long document has come, and the way to stop it."""

from collections.abc import Callable

Progress = Callable[[float], bool]
"""Told the share that is done, from 0 to 1; answers whether to go on."""

STEPS = 200


class ExportCancelled(Exception):
    """Whoever watched the progress asked to stop."""


class Ticker:
    """Counts work done and tells the watcher now and then, not at every tick."""

    def __init__(self, total: int, progress: Progress | None) -> None:
        self._total, self._progress = max(total, 1), progress
        self._done = 0
        self._told = -1

    def tick(self, work: int = 1) -> None:
        """Note work done. Raises ExportCancelled when the watcher wants no more."""
        self._done += work
        step = STEPS * self._done // self._total
        if self._progress and step > self._told:
            self._told = step
            if not self._progress(min(self._done / self._total, 1.0)):
                raise ExportCancelled
