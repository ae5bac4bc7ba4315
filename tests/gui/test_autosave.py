"""Recovery copies are kept while there is something to lose, and only then."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.autosave import Autosave
from waterpark_designer.gui.open_project import OpenProject


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "recovery"


@pytest.fixture
def autosave(qtbot: QtBot, folder: Path, project: OpenProject) -> Iterator[Autosave]:
    holder = QObject()
    keeping = Autosave(folder, holder)
    keeping.start(project, None)
    yield keeping
    keeping.stop()


def rename(project: OpenProject, name: str) -> None:
    project.edit("Rename", project.site.revised(name=name))


def copies(folder: Path) -> list[Path]:
    return sorted(folder.glob("*")) if folder.exists() else []


def test_it_runs_every_minute(autosave: Autosave) -> None:
    assert autosave.timer.isActive() and autosave.timer.interval() == 60_000


def test_nothing_is_kept_of_a_project_without_changes(autosave: Autosave, folder: Path) -> None:
    autosave.timer.timeout.emit()
    assert copies(folder) == []


def test_changes_are_kept_and_written_only_when_there_are_new_ones(
    autosave: Autosave, folder: Path, project: OpenProject
) -> None:
    rename(project, "Alder Bend East")
    autosave.timer.timeout.emit()
    [copy] = copies(folder)
    assert "Alder Bend East" in copy.read_text(encoding="utf-8")
    copy.write_text("left alone", encoding="utf-8")
    autosave.timer.timeout.emit()
    assert copy.read_text(encoding="utf-8") == "left alone"
    rename(project, "Alder Bend West")
    autosave.timer.timeout.emit()
    assert "Alder Bend West" in copy.read_text(encoding="utf-8")


def test_the_copy_goes_when_the_project_is_saved_closed_or_undone(
    autosave: Autosave, folder: Path, project: OpenProject
) -> None:
    def save() -> None:
        project.undo_stack.setClean()
        autosave.saved(None)

    for end in (save, project.undo_stack.undo, autosave.stop):
        rename(project, f"{project.site.name} again")
        assert autosave.keep() and copies(folder)
        end()
        autosave.timer.timeout.emit()
        assert copies(folder) == []


def test_a_failure_is_told_once_and_quietly(
    autosave: Autosave, folder: Path, project: OpenProject, qtbot: QtBot
) -> None:
    folder.write_text("a file where the folder should be", encoding="utf-8")
    rename(project, "Alder Bend East")
    with qtbot.waitSignal(autosave.failed) as told:
        autosave.timer.timeout.emit()
    assert "No recovery copy was kept" in told.args[0]
    with qtbot.assertNotEmitted(autosave.failed):
        assert autosave.keep() is False
    folder.unlink()
    assert autosave.keep() and copies(folder)
