"""One window in a process of its own; prints seconds and megabytes.

Arguments: `bare`, `start`, `waiting` or a project file; 0 to time the start, 1 to time edits; a folder for settings.
Time runs from the first line of this module, so that starting the interpreter counts for nobody.

`bare` ends when a plain window is painted. `start` begins as the program's own command does and ends when the start
page is painted and a Tab key that was waiting then has moved the keyboard focus. `waiting` is the longest time for
which the start page answers nothing while the rest is loaded behind it. A file is the command's argument; that ends
when its project is painted.
"""

import os
import sys
import time

START = time.perf_counter()
os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtWidgets import QApplication, QLabel, QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget  # noqa: E402

TYPE_CHECKING = False  # `typing` is one of the modules whose loading is timed
if TYPE_CHECKING:
    from collections.abc import Callable

    from waterpark_designer.gui.main_window import MainWindow

EDITS = 21


def main(window: str, edits: bool, folder: str) -> None:
    """Show the window, edit it where asked; the measurement that is due prints itself and ends the process."""
    if window == "bare":
        bare(edits)
    else:
        program(window, edits, folder)


def tell(seconds: float) -> None:
    """Print a measurement and end."""
    import psutil

    print(seconds, psutil.Process().memory_info().rss / 1e6, flush=True)
    os._exit(0)


def bare(edits: bool) -> None:
    """A window with a label and a tree of 50 rows."""
    application = QApplication([])
    window, label, tree = QWidget(), QLabel("0"), QTreeWidget()
    for row in range(50):
        tree.addTopLevelItem(QTreeWidgetItem([f"Row {row}"]))
    layout = QVBoxLayout(window)
    layout.addWidget(label)
    layout.addWidget(tree)
    window.show()
    application.processEvents()
    tell(_median(lambda number: label.setText(str(number))) if edits else time.perf_counter() - START)


def program(what: str, edits: bool, folder: str) -> None:
    """The program as its command starts it, with settings and folders that are not the user's own."""
    from pathlib import Path

    from PySide6.QtCore import QSettings, QStandardPaths

    from waterpark_designer import app
    from waterpark_designer.gui import application

    QStandardPaths.setTestModeEnabled(True)
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
    begin = application.begin
    application.recovery_folder = lambda: Path(folder, "recovery", str(os.getpid()))

    def once_painted(window: "MainWindow", arguments: "list[str]") -> None:
        if what == "start":
            _press_tab(window)
            tell(time.perf_counter() - START)
        begin(window, arguments)
        if what == "waiting":
            tell(_longest_wait())
        QApplication.processEvents()
        tell(_median(_edit_of(window)) if edits else time.perf_counter() - START)

    application.begin = once_painted
    app.main([] if what in ("start", "waiting") else [what])


def _press_tab(window: "MainWindow") -> None:
    from PySide6.QtCore import QEvent, Qt
    from PySide6.QtGui import QKeyEvent

    before = QApplication.focusWidget()
    QApplication.postEvent(window, QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier))
    QApplication.sendPostedEvents()
    assert QApplication.focusWidget() is not before, "the start page does not answer"


def _longest_wait() -> float:
    """The longest single turn of the event loop until all is loaded."""
    longest = 0.0
    while "waterpark_designer.gui.desks" not in sys.modules:
        start = time.perf_counter()
        QApplication.processEvents()
        longest = max(longest, time.perf_counter() - start)
    return longest


def _edit_of(window: "MainWindow") -> "Callable[[int], None]":
    from waterpark_designer.model.edits import revise

    project = window.project
    assert project is not None

    def edit(number: int) -> None:
        body = project.site.systems[0].attractions[0]
        project.edit("Temperature", revise(project.site, body.id, water_temperature=300.0 + number / 10))

    return edit


def _median(edit: "Callable[[int], None]") -> float:
    """The median time from an edit to a repainted window."""
    import statistics

    def timed(number: int) -> float:
        start = time.perf_counter()
        edit(number)
        QApplication.processEvents()
        return time.perf_counter() - start

    return statistics.median(timed(number) for number in range(EDITS))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2] == "1", sys.argv[3])
