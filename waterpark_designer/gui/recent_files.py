"""Recent files, newest first, remembered in the program's settings."""

from pathlib import Path

from PySide6.QtCore import QSettings

KEY = "recent_files"
MOST = 10


class RecentFiles:
    """The files opened or saved last; junk in the settings reads as no files."""

    def __init__(self, settings: QSettings) -> None:
        self._settings = settings

    def paths(self) -> list[Path]:
        """The recent files, newest first, whether they are still there or not."""
        stored = self._settings.value(KEY) or []
        entries = [stored] if isinstance(stored, str) else stored if isinstance(stored, list) else []
        return [Path(entry) for entry in entries if isinstance(entry, str) and entry][:MOST]

    def add(self, path: Path) -> None:
        """Put a file first."""
        path = path.absolute()
        self._store([path, *(other for other in self.paths() if other != path)])

    def forget(self, path: Path) -> None:
        """Take a file off the list."""
        self._store([other for other in self.paths() if other != path])

    def _store(self, paths: list[Path]) -> None:
        self._settings.setValue(KEY, [str(path) for path in paths[:MOST]])
