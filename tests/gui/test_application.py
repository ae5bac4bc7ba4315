"""The program starts, opens what it is given, and ends when its window closes."""

import sys
import threading

import pytest
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication

from waterpark_designer.gui import application
from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.theme import DARK, apply_theme, colours
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import save_project


@pytest.fixture(autouse=True)
def hooks_and_folders(monkeypatch, qapp, tmp_path):
    """The hooks as they were, the theme as it was, recovery copies away from the user's own."""
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    monkeypatch.setattr(application, "recovery_folder", lambda: tmp_path / "recovery")
    yield
    QSettings().clear()
    apply_theme(qapp, "light")


def run(library, arguments, look):
    """Run the program until its window is there, look at it, close it."""
    failed = []

    def at_the_window():
        window = next(widget for widget in QApplication.topLevelWidgets() if isinstance(widget, MainWindow)
                      and widget.isVisible())
        try:
            look(window)
        except AssertionError as failure:
            failed.append(failure)
        window.close()

    QTimer.singleShot(0, lambda: QTimer.singleShot(0, at_the_window))
    code = application.run_window(arguments, library, samples_folder())
    if failed:
        raise failed[0]
    return code


def test_start_page_with_the_samples(library) -> None:
    def look(window):
        assert window.project is None
        assert len(window.start_page.entries()) == 3

    assert run(library, [], look) == 0


def test_file_named_on_the_command_line(library, small_site, tmp_path) -> None:
    path = tmp_path / "alder-bend.waterpark"
    save_project(small_site, path, None)

    def look(window):
        assert window.project.site == small_site
        assert window.project.path == path

    assert run(library, [str(path)], look) == 0


def test_theme_of_last_time_is_worn_from_the_start(library) -> None:
    application.make_application()
    QSettings().setValue("window/theme", "dark")

    def look(window):
        assert colours() is DARK

    run(library, [], look)


def test_mistakes_are_caught(library) -> None:
    def look(window):
        assert sys.excepthook.__name__ == "catch"

    run(library, [], look)


def test_settings_and_folders_bear_the_programs_name(qapp) -> None:
    application.make_application()
    assert qapp.applicationName() == "waterpark-designer"
