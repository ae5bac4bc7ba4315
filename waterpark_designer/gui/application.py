"""The program with a window: one application, one window, one place where mistakes are shown."""

import sys
from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QSettings, QStandardPaths, QTimer
from PySide6.QtWidgets import QApplication

from waterpark_designer.gui.crash_dialog import CrashReporter
from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.theme import apply_theme
from waterpark_designer.gui.window_state import WindowState
from waterpark_designer.library import Library

NAME = "waterpark-designer"


def run_window(arguments: Sequence[str], library: Library, samples: Path) -> int:
    """Open the window, with the project that the arguments name; returns the exit code when it is closed."""
    app = make_application()
    settings = QSettings()
    apply_theme(app, WindowState(settings).theme())
    window = MainWindow(library, sorted(samples.glob("*.waterpark")), settings, recovery_folder())
    CrashReporter(window, window.files.autosave.keep).install()
    window.show()
    QTimer.singleShot(0, window, lambda: begin(window, arguments))
    return app.exec()


def begin(window: MainWindow, arguments: Sequence[str]) -> None:
    """Once the window is there: offer what a crash left behind, and open the file that was asked for."""
    window.files.offer_recovery()
    if arguments and window.project is None:
        window.files.open(Path(arguments[0]))
    # The start page stands; while it is read, what a project needs is loaded.
    QTimer.singleShot(0, load_desks)


def load_desks() -> None:
    """Load the desks ahead of the first project."""
    import waterpark_designer.gui.desks  # noqa: F401


def make_application() -> QApplication:
    """The one application, under the name that its settings and folders bear."""
    running = QApplication.instance()
    app = running if isinstance(running, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName(NAME)
    app.setApplicationDisplayName("Waterpark Designer")
    app.setOrganizationName(NAME)
    return app


def recovery_folder() -> Path:
    """Where recovery copies are kept."""
    data = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation)
    return Path(data) / "recovery"
