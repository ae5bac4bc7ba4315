"""One window in a process of its own; prints seconds and megabytes.

Arguments: `bare`, `start`, `resort` or a number of bodies; 0 to time the start, 1 to time edits; a folder to write in.
"""

import os
import time

START = time.perf_counter()
os.environ["QT_QPA_PLATFORM"] = "offscreen"

import statistics  # noqa: E402
import sys  # noqa: E402
from collections.abc import Callable  # noqa: E402
from pathlib import Path  # noqa: E402

import psutil  # noqa: E402
from PySide6.QtCore import QSettings  # noqa: E402
from PySide6.QtWidgets import QApplication, QLabel, QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget  # noqa: E402

EDITS = 21


def main(window: str, edits: bool, folder: Path) -> None:
    """Show the window, edit it where asked, and print the median."""
    edit = bare() if window == "bare" else program(window, folder)
    seconds = statistics.median(_timed(edit, number) for number in range(EDITS)) if edits else time.perf_counter() - START
    print(seconds, psutil.Process().memory_info().rss / 1e6)
    os._exit(0)


def bare() -> Callable[[int], None]:
    """A window with a label and a tree of 50 rows, painted once."""
    application = QApplication([])
    window, label, tree = QWidget(), QLabel("0"), QTreeWidget()
    for row in range(50):
        tree.addTopLevelItem(QTreeWidgetItem([f"Row {row}"]))
    layout = QVBoxLayout(window)
    layout.addWidget(label)
    layout.addWidget(tree)
    _show(application, window)

    def edit(number: int) -> None:
        label.setText(str(number))
        application.processEvents()

    edit.window = window  # type: ignore[attr-defined]
    return edit


def program(window: str, folder: Path) -> Callable[[int], None]:
    """The program's window on its start page, or on a project, painted once."""
    from waterpark_designer.app import tune_memory
    from waterpark_designer.gui.application import make_application
    from waterpark_designer.gui.main_window import MainWindow
    from waterpark_designer.gui.theme import apply_theme
    from waterpark_designer.library import read_library
    from waterpark_designer.model.edits import revise
    from waterpark_designer.resources import resources_folder, samples_folder

    tune_memory()
    application = make_application()
    apply_theme(application, "light")
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    shown = MainWindow(read_library(resources_folder()), [], settings, folder / "recovery")
    shown.resize(1440, 900)
    if window != "start":
        shown.files.open(samples_folder() / "resort-park.waterpark" if window == "resort" else _written(window, folder))
    _show(application, shown)

    def edit(number: int) -> None:
        project = shown.project
        assert project is not None
        body = project.site.systems[0].attractions[0]
        project.edit("Temperature", revise(project.site, body.id, water_temperature=300.0 + number / 10))
        application.processEvents()

    return edit


def _written(count: str, folder: Path) -> Path:
    from tests.large_site import large_site
    from waterpark_designer.storage.project_file import save_project

    path = folder / f"{count}.waterpark"
    if not path.exists():
        save_project(large_site(int(count)), path, None)
    return path


def _show(application: QApplication, window: QWidget) -> None:
    window.show()
    application.processEvents()


def _timed(edit: Callable[[int], None], number: int) -> float:
    start = time.perf_counter()
    edit(number)
    return time.perf_counter() - start


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2] == "1", Path(sys.argv[3]))
