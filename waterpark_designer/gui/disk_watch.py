"""Watching the open file: whether another program changed, moved or deleted it."""

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal

from waterpark_designer.storage.project_file import Fingerprint, changed_on_disk

SETTLE_MILLISECONDS = 300
"""Programs write in several steps; what is there after the last of them counts."""


class DiskWatch(QObject):
    """Tells once when the file is no longer what was read or written last."""

    changed = Signal(Path)
    vanished = Signal(Path)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._watcher = QFileSystemWatcher(self)
        self._path: Path | None = None
        self._expected: Fingerprint | None = None
        self._settled = QTimer(self, singleShot=True, interval=SETTLE_MILLISECONDS)
        self._settled.timeout.connect(self.look)
        self._watcher.fileChanged.connect(lambda _path: self._settled.start())
        self._watcher.directoryChanged.connect(lambda _path: self._settled.start())

    def watch(self, path: Path, expected: Fingerprint) -> None:
        """Watch this file and no other."""
        self.stop()
        self._path, self._expected = path, expected
        # The folder too: a file that is replaced under its name is a new one, which the watcher loses.
        self._watcher.addPaths([str(place) for place in (path, path.parent) if place.exists()])

    def stop(self) -> None:
        """Watch nothing."""
        self._settled.stop()
        self._path = self._expected = None
        watched = self._watcher.files() + self._watcher.directories()
        if watched:
            self._watcher.removePaths(watched)

    def look(self) -> None:
        """Compare the file with what it should be, and tell when it differs for the first time."""
        if self._path is None or self._expected is None or not changed_on_disk(self._path, self._expected):
            self._keep_watching()
            return
        path = self._path
        self.stop()
        (self.changed if path.exists() else self.vanished).emit(path)

    def _keep_watching(self) -> None:
        if self._path is not None and str(self._path) not in self._watcher.files() and self._path.exists():
            self._watcher.addPath(str(self._path))
