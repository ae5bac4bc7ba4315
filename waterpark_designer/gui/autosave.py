"""Keeping a recovery copy of the open project while it has unsaved changes."""

from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.model.site import Site
from waterpark_designer.storage.errors import ProjectFileError
from waterpark_designer.storage.recovery import RecoveryCopy
from waterpark_designer.storage.safe_file import Fingerprint

INTERVAL_MILLISECONDS = 60_000


class Autosave(QObject):
    """Writes the copy every minute where there is something new to keep; a failure is told once, quietly."""

    failed = Signal(str)

    def __init__(self, folder: Path, parent: QObject) -> None:
        super().__init__(parent)
        self._folder = folder
        self._project: OpenProject | None = None
        self._fingerprint: Fingerprint | None = None
        self._copy: RecoveryCopy | None = None
        self._kept: Site | None = None
        self._has_failed = False
        self.timer = QTimer(self, interval=INTERVAL_MILLISECONDS)
        self.timer.timeout.connect(self.keep)

    def start(self, project: OpenProject, fingerprint: Fingerprint | None) -> None:
        """Keep copies of this project, whose file has this fingerprint."""
        self.stop()
        self._project, self._copy = project, RecoveryCopy(self._folder)
        self.saved(fingerprint)
        self.timer.start()

    def saved(self, fingerprint: Fingerprint | None) -> None:
        """The project was saved: its copy is not needed any more."""
        self._fingerprint, self._kept, self._has_failed = fingerprint, None, False
        if self._copy is not None:
            self._copy.discard()

    def stop(self) -> None:
        """The project was closed as the user wanted."""
        self.timer.stop()
        self.saved(None)
        self._project = self._copy = None

    def keep(self) -> bool:
        """Keep a copy now where there are changes that no copy has; whether all changes are kept."""
        project, copy = self._project, self._copy
        if project is None or copy is None:
            return True
        if project.undo_stack.isClean():
            self.saved(self._fingerprint)
        elif project.site is not self._kept:
            return self._write(project, copy)
        return True

    def _write(self, project: OpenProject, copy: RecoveryCopy) -> bool:
        try:
            copy.keep(project.site, project.path, self._fingerprint)
        except ProjectFileError as error:
            if not self._has_failed:
                self.failed.emit(str(error))
            self._has_failed = True
            return False
        self._kept, self._has_failed = project.site, False
        return True
