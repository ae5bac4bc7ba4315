"""The program with a window: one application, one window, one place where mistakes are shown."""

import importlib
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QSettings, QStandardPaths, QTimer
from PySide6.QtWidgets import QApplication, QWidget

from waterpark_designer.gui.crash_dialog import CrashReporter
from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.theme import apply_theme
from waterpark_designer.gui.window_state import WindowState

if TYPE_CHECKING:
    from waterpark_designer.library import Library

NAME = "waterpark-designer"
AHEAD = (
    "pydantic",
    "pydantic.main",
    "waterpark_designer.model.node",
    "waterpark_designer.model.zones",
    "waterpark_designer.model.site",
    "waterpark_designer.engine.design_site",
    "waterpark_designer.library",
    "waterpark_designer.gui.project_files",
    "waterpark_designer.gui.comparison_table",
    "waterpark_designer.gui.working_view",
    "waterpark_designer.gui.node_panel",
    "waterpark_designer.gui.lay_out_desk",
    "waterpark_designer.documents.register",
    "waterpark_designer.gui.desks",
)
"""What the first project needs, in steps short enough that the start page answers between them."""

READING_PAUSE = 1500
"""Milliseconds in which whoever came looks at the start page or the project, before the rest is loaded."""


def run_window(arguments: Sequence[str], library: "Callable[[], Library]", samples: Path) -> int:
    """Open the window, with the project that the arguments name; returns the exit code when it is closed."""
    app = make_application()
    settings = QSettings()
    apply_theme(app, WindowState(settings).theme())
    window = MainWindow(library, sorted(samples.glob("*.waterpark")), settings, recovery_folder())
    CrashReporter(window, lambda: window.files.autosave.keep()).install()
    AfterFirstPaint(window, lambda: begin(window, arguments))
    window.show()
    return app.exec()


def begin(window: MainWindow, arguments: Sequence[str]) -> None:
    """Once the window is there: offer what a crash left behind, open the file that was asked for, load the rest."""
    if _holds_anything(recovery_folder()):
        # Asked before any click is answered: what is recovered takes the place of what is open.
        window.files.offer_recovery()
    if arguments and window.project is None:
        window.files.open(Path(arguments[0]))
    load_ahead(window, AHEAD)


def load_ahead(window: MainWindow, names: Sequence[str]) -> None:
    """Load modules one by one while the start page is read; a click in between loads what it needs by itself."""
    if names:
        importlib.import_module(names[0])
        QTimer.singleShot(0, window, lambda: load_ahead(window, names[1:]))
    else:
        _ = window.files
        QTimer.singleShot(READING_PAUSE, window, know_all_units)


def know_all_units() -> None:
    """Make the registry of units, which the first entry such as “29 degC” would wait for."""
    from waterpark_designer.units import registry

    registry()


class AfterFirstPaint(QObject):
    """Does something once, when a window has been painted; an idle timer alone may come before the screen asks."""

    def __init__(self, window: QWidget, act: Callable[[], None]) -> None:
        super().__init__(window)
        self._act = act
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            QTimer.singleShot(0, self, self._act)
        return False


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


def _holds_anything(folder: Path) -> bool:
    return folder.is_dir() and any(folder.iterdir())
