"""A window in a folder of its own, with the projects that its states need."""

from pathlib import Path

from PySide6.QtCore import QEvent, QSettings
from PySide6.QtWidgets import QApplication, QDialog

from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import load_project, save_project


class Stage:
    """Makes one window, opens projects in it, and takes it down again."""

    def __init__(self, library: Library, folder: Path, size: tuple[int, int]) -> None:
        self.library, self.folder, self.size = library, folder, size
        settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
        self.samples = sorted(samples_folder().glob("*.waterpark"))
        self.window = MainWindow(lambda: library, self.samples, settings, folder / "recovery")
        self.window.resize(*size)
        self.window.show()
        self.settle()

    def sample(self, name: str) -> MainWindow:
        """The window with a sample project open."""
        return self.site(load_project(samples_folder() / f"{name}.waterpark").site)

    def site(self, site: Site) -> MainWindow:
        """The window with this site open from a file."""
        path = self.folder / "project.waterpark"
        save_project(site, path, None)
        assert self.window.files.open(path)
        self.settle()
        return self.window

    def dialog(self, dialog: QDialog) -> QDialog:
        """A dialog, shown without waiting for an answer, no larger than the screen."""
        dialog.show()
        self.settle()
        width, height = (min(one, most) for one, most in zip(dialog.size().toTuple(), self.size, strict=True))
        dialog.resize(width, height)
        return dialog

    def settle(self) -> None:
        """Let everything that is waiting be drawn."""
        for _ in range(5):
            QApplication.processEvents()

    def clear(self) -> None:
        """Take down every window of this stage."""
        project = self.window.project
        if project is not None:
            project.undo_stack.setClean()
        self.window.close()
        self.window.deleteLater()
        self.settle()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
