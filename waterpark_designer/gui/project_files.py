"""Files in the window: new, open, save, close, and everything that keeps work from being lost."""

from pathlib import Path

from PySide6.QtCore import QObject, QSettings, Signal
from PySide6.QtWidgets import QWidget

from waterpark_designer.gui import file_dialogs, message, recovery_prompt, save_trouble, unsaved_prompt
from waterpark_designer.gui.autosave import Autosave
from waterpark_designer.gui.disk_watch import DiskWatch
from waterpark_designer.gui.entry_in_hand import finish_typing
from waterpark_designer.gui.file_drop import FileDrop
from waterpark_designer.gui.folders import last_folder, remember_folder
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.recent_files import RecentFiles
from waterpark_designer.gui.recovery_prompt import Recovery
from waterpark_designer.gui.save_trouble import Rescue
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.model.starting_points import new_site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import (
    ChangedOnDisk,
    Fingerprint,
    GoneFromDisk,
    LoadedProject,
    ProjectFileError,
    load_project,
    save_project,
)
from waterpark_designer.storage.recovery import Recoverable, recoverable_projects

NEW_CODE_BASIS = ("cdc-mahc-2023", "common-practice")


class ProjectFiles(QObject):
    """The one open project and its file; every question to the user is a method of its own."""

    project_opened = Signal(object)
    """The OpenProject now on screen; the one before it was closed first."""
    project_closed = Signal()
    recent_changed = Signal()
    message = Signal(str)
    """A sentence that needs no answer."""

    def __init__(self, window: QWidget, library: Library, settings: QSettings, recovery_folder: Path) -> None:
        super().__init__(window)
        self.project: OpenProject | None = None
        self._window, self._library, self._settings = window, library, settings
        self._recovery_folder = recovery_folder
        self._fingerprint: Fingerprint | None = None
        self._recent = RecentFiles(settings)
        self.autosave = Autosave(recovery_folder, self)
        self.autosave.failed.connect(self.message)
        self.watch = DiskWatch(self)
        self.watch.changed.connect(self._changed_on_disk)
        self.watch.vanished.connect(self._vanished_from_disk)
        self.drop = FileDrop(window)
        self.drop.dropped.connect(self.open)
        self.drop.refused.connect(self.message)

    @property
    def unsaved(self) -> bool:
        """Whether closing now would lose changes."""
        return self.project is not None and not self.project.undo_stack.isClean()

    def recent(self) -> list[Path]:
        """Files opened or saved last, newest first, also those that are no longer there."""
        return self._recent.paths()

    def new(self) -> bool:
        """Start an empty site; False where the user would rather keep the open one."""
        if not self._may_leave():
            return False
        units = self.project.units if self.project else new_site().units
        self._show(new_site(units).revised(code_basis=NEW_CODE_BASIS), None, None)
        return True

    def open(self, path: Path | None = None) -> bool:
        """Open a project, asking for one where none is named; a bad file is explained and changes nothing."""
        path = path or self.ask_open_path()
        if path is None:
            return False
        path = path.absolute()
        loaded = self._read(path)
        if loaded is None or not self._may_leave():
            return False
        if self.project and self.project.path == path:
            # Leaving it may have saved it.
            loaded = self._read(path)
        if loaded is None:
            return False
        if _is_sample(path):
            self._show(loaded.site, None, None)
        else:
            self._show(loaded.site, path, loaded.fingerprint)
            self._remember(path)
        return True

    def save(self) -> bool:
        """Save in the file the project is from, asking for one where it has none; whether it was saved."""
        finish_typing(self._window)
        if self.project is None or self.project.path is None:
            return self.save_as()
        return self._save_to(self.project.path, self._fingerprint)

    def save_as(self) -> bool:
        """Save under a name that the user chooses; whether it was saved."""
        finish_typing(self._window)
        path = self._place_to_save() if self.project else None
        return path is not None and self._save_to(path, None)

    def close(self) -> bool:
        """Close the project, asking what becomes of unsaved changes; False where the user stays."""
        if not self._may_leave():
            return False
        self._drop_project()
        return True

    def offer_recovery(self) -> None:
        """Offer what a crash left behind, until one is opened or the rest is left for later."""
        found = recoverable_projects(self._recovery_folder)
        while found:
            answer, chosen = self.ask_recovery(found)
            if answer is Recovery.LATER or (answer is Recovery.OPEN and self._recover(chosen)):
                return
            if answer is Recovery.DELETE:
                chosen.discard()
            found = tuple(one for one in found if one is not chosen)

    def ask_open_path(self) -> Path | None:
        return file_dialogs.ask_open_path(self._window, self._folder())

    def ask_save_path(self, suggested: Path) -> Path | None:
        return file_dialogs.ask_save_path(self._window, suggested)

    def ask_unsaved(self, name: str) -> Unsaved:
        return unsaved_prompt.ask_unsaved(self._window, name)

    def ask_rescue(self, error: ProjectFileError) -> Rescue:
        if isinstance(error, GoneFromDisk):
            return save_trouble.ask_gone(self._window, str(error))
        if isinstance(error, ChangedOnDisk):
            return save_trouble.ask_changed(self._window, str(error))
        return save_trouble.ask_refused(self._window, str(error))

    def ask_recovery(self, found: tuple[Recoverable, ...]) -> tuple[Recovery, Recoverable]:
        return recovery_prompt.ask_recovery(self._window, found)

    def tell(self, title: str, text: str) -> None:
        message.tell(self._window, title, text)

    def _read(self, path: Path) -> LoadedProject | None:
        try:
            return load_project(path)
        except ProjectFileError as error:
            self.tell("The project was not opened", str(error))
        if path in self.recent() and not path.exists():
            self._recent.forget(path)
            self.recent_changed.emit()
        return None

    def _show(self, site: Site, path: Path | None, fingerprint: Fingerprint | None, unsaved: bool = False) -> None:
        """Put a site on screen in place of the open one."""
        project = OpenProject(site, self._library, path, self)
        if unsaved:
            project.undo_stack.resetClean()
        self._drop_project()
        self.project, self._fingerprint = project, fingerprint
        self.autosave.start(project, fingerprint)
        if path and fingerprint:
            self.watch.watch(path, fingerprint)
        self.project_opened.emit(project)

    def _drop_project(self) -> None:
        project, self.project, self._fingerprint = self.project, None, None
        self.watch.stop()
        self.autosave.stop()
        if project is not None:
            self.project_closed.emit()
            # A history that is deleted with changes in it says once more that it is clean.
            project.undo_stack.blockSignals(True)
            project.deleteLater()

    def _may_leave(self) -> bool:
        """Whether the open project may be closed: nothing is unsaved, or the user decided about it."""
        finish_typing(self._window)
        if self.project is None or not self.unsaved:
            return True
        answer = self.ask_unsaved(self.project.site.name)
        return answer is Unsaved.DISCARD or (answer is Unsaved.SAVE and self.save())

    def _save_to(self, path: Path, expected: Fingerprint | None) -> bool:
        assert self.project is not None
        try:
            fingerprint = save_project(self.project.site, path, expected)
        except ProjectFileError as error:
            answer = self.ask_rescue(error)
            if answer is Rescue.ELSEWHERE:
                return self.save_as()
            again = answer in (Rescue.AGAIN, Rescue.OVERWRITE)
            return again and self._save_to(path, None if answer is Rescue.OVERWRITE else expected)
        self._saved(self.project, path, fingerprint)
        return True

    def _saved(self, project: OpenProject, path: Path, fingerprint: Fingerprint) -> None:
        project.path, self._fingerprint = path, fingerprint
        project.undo_stack.setClean()
        self.autosave.saved(fingerprint)
        self.watch.watch(path, fingerprint)
        self._remember(path)
        project.file_changed.emit()
        self.message.emit(f"{path.name} is saved.")

    def _place_to_save(self) -> Path | None:
        """Where the user wants the project, but never among the samples."""
        assert self.project is not None
        name = file_dialogs.file_name_for(self.project.site.name)
        while (path := self.ask_save_path(self.project.path or self._folder() / name)) is not None:
            if not _is_sample(path):
                return path
            self.tell("Samples stay as they are", "Choose another folder for your copy of the sample.")
        return None

    def _recover(self, found: Recoverable) -> bool:
        """Open what a crash left behind; its copy goes once a new one is kept."""
        try:
            site = found.site()
        except ProjectFileError as error:
            self.tell("The project was not recovered", str(error))
            return False
        self._show(site, found.path, found.fingerprint, unsaved=True)
        if self.autosave.keep():
            found.discard()
        self.message.emit(f"{found.name} is recovered. Save it to keep it.")
        return True

    def _changed_on_disk(self, path: Path) -> None:
        self.message.emit(
            f"Another program changed {path.name}. Open it again to read that; saving asks which one stays."
        )

    def _vanished_from_disk(self, path: Path) -> None:
        if self.project is not None:
            self.project.undo_stack.resetClean()
        self.message.emit(f"{path.name} was moved or deleted. The project is still here; save it to keep it.")

    def _remember(self, path: Path) -> None:
        remember_folder(str(path), self._settings)
        self._recent.add(path)
        self.recent_changed.emit()

    def _folder(self) -> Path:
        """Where the dialogs start."""
        return Path(last_folder(self._settings))


def _is_sample(path: Path) -> bool:
    return path.resolve().is_relative_to(samples_folder().resolve())
