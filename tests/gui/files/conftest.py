"""A window with its project files, and somebody who answers its questions."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QMainWindow
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import ProjectFiles
from waterpark_designer.gui.recovery_prompt import Recovery
from waterpark_designer.gui.save_trouble import Rescue
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import ProjectFileError, save_project
from waterpark_designer.storage.recovery import Recoverable


class Answers:
    """Stands for the user: what each question is answered with, and what was asked and told."""

    def __init__(self, files: ProjectFiles, monkeypatch: pytest.MonkeyPatch) -> None:
        self.open_path: Path | None = None
        self.save_paths: list[Path | None] = []
        self.unsaved = Unsaved.CANCEL
        self.rescues: list[Rescue] = []
        self.recovery = Recovery.LATER
        self.asked: list[str] = []
        self.troubles: list[ProjectFileError] = []
        self.told: list[str] = []
        self.suggested: list[Path] = []
        for name in ("ask_open_path", "ask_save_path", "ask_unsaved", "ask_rescue", "ask_recovery", "tell"):
            monkeypatch.setattr(files, name, getattr(self, name))

    def ask_open_path(self) -> Path | None:
        return self.open_path

    def ask_save_path(self, suggested: Path) -> Path | None:
        self.suggested.append(suggested)
        return self.save_paths.pop(0) if self.save_paths else None

    def ask_unsaved(self, name: str) -> Unsaved:
        self.asked.append(name)
        return self.unsaved

    def ask_rescue(self, error: ProjectFileError) -> Rescue:
        self.troubles.append(error)
        return self.rescues.pop(0) if self.rescues else Rescue.CANCEL

    def ask_recovery(self, found: tuple[Recoverable, ...]) -> tuple[Recovery, Recoverable]:
        self.asked.append(found[0].name)
        return self.recovery, found[0]

    def tell(self, title: str, text: str) -> None:
        self.told.append(f"{title}: {text}")


@pytest.fixture
def window(qtbot: QtBot) -> QMainWindow:
    shown = QMainWindow()
    qtbot.addWidget(shown)
    return shown


@pytest.fixture
def recovery_folder(tmp_path: Path) -> Path:
    return tmp_path / "recovery"


@pytest.fixture
def files(window: QMainWindow, library: Library, settings: QSettings, recovery_folder: Path) -> Iterator[ProjectFiles]:
    made = ProjectFiles(window, library, settings, recovery_folder)
    yield made
    made.ask_unsaved = lambda name: Unsaved.DISCARD
    assert made.close()


@pytest.fixture
def answers(files: ProjectFiles, monkeypatch: pytest.MonkeyPatch) -> Answers:
    return Answers(files, monkeypatch)


@pytest.fixture
def path(tmp_path: Path, small_site: Site) -> Path:
    saved = tmp_path / "alder.waterpark"
    save_project(small_site, saved, None)
    return saved


@pytest.fixture
def opened(files: ProjectFiles, answers: "Answers", path: Path) -> OpenProject:
    assert files.open(path) and files.project
    return files.project
