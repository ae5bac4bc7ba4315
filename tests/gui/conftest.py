"""What the window's tests share: a theme in force, settings that are thrown away, and open projects."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import ProjectFiles
from waterpark_designer.gui.theme import apply_theme, dress
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import save_project


@pytest.fixture(scope="session", autouse=True)
def settings_away_from_the_users_own(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Whatever asks for the program's settings gets some that are thrown away."""
    folder = str(tmp_path_factory.mktemp("settings"))
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)


@pytest.fixture(scope="session", autouse=True)
def theme(qapp: QApplication) -> None:
    """Widgets look as they do in the program."""
    apply_theme(qapp, "light")
    dress(qapp)


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    """Settings in a file of this test alone."""
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def open_project(qapp: QApplication, library: Library) -> Iterator[Callable[[Site], OpenProject]]:
    """Opens a project on a site; its history is dropped when the test ends."""
    opened: list[OpenProject] = []

    def opens(site: Site) -> OpenProject:
        opened.append(OpenProject(site, library))
        return opened[-1]

    yield opens
    for project in opened:
        project.undo_stack.clear()


@pytest.fixture
def project(open_project: Callable[[Site], OpenProject], small_site: Site) -> OpenProject:
    """The small site, open."""
    return open_project(small_site)


@pytest.fixture
def window(
    qtbot: QtBot, library: Library, settings: QSettings, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[MainWindow]:
    """The program's window on its start page, shown; closing it loses what was not saved."""
    monkeypatch.setattr(ProjectFiles, "ask_unsaved", lambda *_: Unsaved.DISCARD)
    made = MainWindow(lambda: library, sorted(samples_folder().glob("*.waterpark")), settings, tmp_path / "recovery")
    qtbot.addWidget(made)
    made.resize(1440, 900)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close()


@pytest.fixture
def open_window(window: MainWindow, small_site: Site, tmp_path: Path) -> MainWindow:
    """The window with the small site open from a file."""
    path = tmp_path / "alder-bend.waterpark"
    save_project(small_site, path, None)
    assert window.files.open(path)
    return window
