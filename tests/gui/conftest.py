"""What the window's tests share: a theme in force, settings that are thrown away, and open projects."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.theme import apply_theme
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site


@pytest.fixture(scope="session", autouse=True)
def theme(qapp: QApplication) -> None:
    """Widgets look as they do in the program."""
    apply_theme(qapp, "light")


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
