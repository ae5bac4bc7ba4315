"""The program starts, opens what it is given, and ends when its window closes."""

import sys
import threading

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest

from waterpark_designer import units
from waterpark_designer.gui import application
from waterpark_designer.gui.project_files import ProjectFiles
from waterpark_designer.gui.theme import DARK, apply_theme, colours
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage import recovery
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
    """Run the program with this library until it has begun, look at its window, close it."""
    return run_with(lambda: library, arguments, look)


def run_with(reads, arguments, look):
    """Run the program with a library that is read when it is wanted."""
    failed = []
    begin = application.begin

    def begin_and_look(window, given):
        try:
            begin(window, given)
            look(window)
        except AssertionError as failure:
            failed.append(failure)
        finally:
            window.close()

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(application, "begin", begin_and_look)
        code = application.run_window(arguments, reads, samples_folder())
    if failed:
        raise failed[0]
    return code


def test_start_page_with_the_samples(library) -> None:
    def look(window):
        assert window.project is None
        assert len(window.start_page.entries()) == 3

    assert run(library, [], look) == 0


def test_a_click_that_comes_before_anything_is_loaded_is_answered(library) -> None:
    def look(window):
        assert window.project is None
        sample = window.start_page.entries()[0]
        QTest.mouseClick(sample, Qt.MouseButton.LeftButton)
        assert window.project.site.name == sample.title

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(application, "load_ahead", lambda *_: None)
        assert run(library, [], look) == 0


def test_the_library_is_read_while_the_start_page_stands(library) -> None:
    read = []

    def reads():
        read.append(True)
        return library

    def look(window):
        assert not read
        application.load_ahead(window, ())
        assert read

    assert run_with(reads, [], look) == 0


def test_what_a_crash_left_is_offered_before_any_click_is_answered(library, small_site, tmp_path, monkeypatch) -> None:
    recovery.RecoveryCopy(tmp_path / "recovery").keep(small_site, None, None)
    asked = []
    monkeypatch.setattr(ProjectFiles, "offer_recovery", lambda files: asked.append(files))
    assert run(library, [], lambda window: None) == 0
    assert len(asked) == 1


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


def test_units_are_known_before_the_first_is_typed(library, qtbot, monkeypatch) -> None:
    made = []
    monkeypatch.setattr(units, "registry", lambda: made.append(True))
    monkeypatch.setattr(application, "READING_PAUSE", 0)

    def look(window):
        application.load_ahead(window, ())
        qtbot.waitUntil(lambda: bool(made))

    assert run(library, [], look) == 0
