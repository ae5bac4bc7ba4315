"""Saving: whatever the disk and other programs do, nothing is lost."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLineEdit, QMainWindow
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import project_files
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import ProjectFiles
from waterpark_designer.gui.save_trouble import Rescue
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import (
    ChangedOnDisk,
    GoneFromDisk,
    ProjectFileError,
    backup_path,
    load_project,
    save_project,
)

if TYPE_CHECKING:
    from tests.gui.files.conftest import Answers


def rename(project: OpenProject, name: str) -> None:
    project.edit("Rename", project.site.revised(name=name))


def name_on_disk(path: Path) -> str:
    return load_project(path).site.name


def changed_by_another(path: Path) -> None:
    save_project(load_project(path).site.revised(name="Theirs"), path, None)


def test_saving_marks_the_history_clean_and_keeps_the_last_file(
    files: ProjectFiles, opened: OpenProject, path: Path, qtbot: QtBot
) -> None:
    before = path.read_bytes()
    rename(opened, "Alder Bend East")
    assert files.unsaved
    with qtbot.waitSignals([opened.file_changed, files.message]):
        assert files.save()
    assert opened.undo_stack.isClean() and not files.unsaved
    assert name_on_disk(path) == "Alder Bend East" and backup_path(path).read_bytes() == before
    opened.undo_stack.undo()
    assert files.unsaved and files.save() and path.read_bytes() == before


def test_saving_under_another_name_leaves_the_first_file(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other.waterpark"
    answers.save_paths = [other]
    rename(opened, "Other")
    assert files.save_as()
    assert (name_on_disk(path), name_on_disk(other)) == ("Alder Bend", "Other")
    assert opened.path == other and files.recent()[0] == other and answers.suggested == [path]


def test_giving_up_the_place_saves_nothing(files: ProjectFiles, answers: "Answers", tmp_path: Path) -> None:
    files.new()
    rename(files.project, "Mine")
    assert not files.save()
    assert files.unsaved and files.project.path is None


def test_nothing_open_is_nothing_to_save(files: ProjectFiles, answers: "Answers") -> None:
    assert not files.save() and not files.save_as() and files.close()
    assert answers.suggested == []


def test_ctrl_s_twice_writes_once(files: ProjectFiles, opened: OpenProject, path: Path) -> None:
    rename(opened, "Mine")
    assert files.save()
    written = path.stat().st_mtime_ns
    assert files.save() and path.stat().st_mtime_ns == written


def test_what_is_being_typed_is_saved_too(
    files: ProjectFiles, opened: OpenProject, path: Path, window: QMainWindow, qtbot: QtBot
) -> None:
    field = QLineEdit()
    window.setCentralWidget(field)
    field.editingFinished.connect(lambda: rename(opened, field.text()))
    with qtbot.waitActive(window):
        window.show()
    field.setFocus()
    qtbot.keyClicks(field, "Typed")
    assert opened.site.name == "Alder Bend"
    assert files.save() and name_on_disk(path) == "Typed" and not files.unsaved
    assert field.hasFocus()
    window.takeCentralWidget()


def test_leaving_is_off_when_the_save_fails(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path
) -> None:
    answers.unsaved = Unsaved.SAVE
    rename(opened, "Mine")
    changed_by_another(path)
    assert not files.close()
    assert files.project is opened and files.unsaved and name_on_disk(path) == "Theirs"


Damage = Callable[[Path], object]


@pytest.mark.parametrize("damage, trouble", [(changed_by_another, ChangedOnDisk), (Path.unlink, GoneFromDisk)])
def test_a_conflict_on_disk_can_be_cancelled_with_nothing_lost(
    files: ProjectFiles,
    answers: "Answers",
    opened: OpenProject,
    path: Path,
    damage: Damage,
    trouble: type[ProjectFileError],
) -> None:
    rename(opened, "Mine")
    damage(path)
    there = path.read_bytes() if path.exists() else None
    assert not files.save()
    assert type(answers.troubles[0]) is trouble
    assert files.unsaved and opened.site.name == "Mine"
    assert (path.read_bytes() if path.exists() else None) == there


def test_overwriting_keeps_the_other_version_as_a_backup(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path
) -> None:
    rename(opened, "Mine")
    changed_by_another(path)
    answers.rescues = [Rescue.OVERWRITE]
    assert files.save() and not files.unsaved
    assert name_on_disk(path) == "Mine"
    assert "Theirs" in backup_path(path).read_text(encoding="utf-8")


def test_a_file_that_is_gone_is_saved_anew(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path
) -> None:
    rename(opened, "Mine")
    path.unlink()
    answers.rescues = [Rescue.OVERWRITE]
    assert files.save() and name_on_disk(path) == "Mine"


def test_a_folder_that_is_gone_leads_to_another_place(
    files: ProjectFiles, answers: "Answers", small_site: Site, tmp_path: Path
) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    path = folder / "alder.waterpark"
    save_project(small_site, path, None)
    assert files.open(path)
    rename(files.project, "Mine")
    path.unlink()
    folder.rmdir()
    answers.rescues = [Rescue.OVERWRITE, Rescue.ELSEWHERE]
    answers.save_paths = [tmp_path / "safe.waterpark"]
    assert files.save()
    assert "folder does not exist" in str(answers.troubles[1])
    assert name_on_disk(tmp_path / "safe.waterpark") == "Mine" and not files.unsaved


def test_a_full_disk_can_be_tried_again(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    attempts = iter([ProjectFileError("There is no room left on the disk."), None])

    def save(site: Site, to: Path, expected: object) -> object:
        trouble = next(attempts)
        if trouble:
            raise trouble
        return save_project(site, to, expected)

    monkeypatch.setattr(project_files, "save_project", save)
    rename(opened, "Mine")
    answers.rescues = [Rescue.AGAIN]
    assert files.save()
    assert len(answers.troubles) == 1 and name_on_disk(path) == "Mine" and not files.unsaved


def test_another_programs_change_is_told_and_opening_again_reads_it(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(files.message) as told:
        changed_by_another(path)
    assert "Another program changed alder.waterpark" in told.args[0]
    assert files.open(path) and answers.asked == [] and files.project.site.name == "Theirs"


def test_a_file_deleted_under_us_is_told_and_the_project_counts_as_unsaved(
    files: ProjectFiles, opened: OpenProject, path: Path, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(files.message) as told:
        path.unlink()
    assert "moved or deleted" in told.args[0] and files.unsaved


def test_our_own_save_is_not_another_programs_change(files: ProjectFiles, opened: OpenProject, qtbot: QtBot) -> None:
    rename(opened, "Mine")
    assert files.save()
    with qtbot.assertNotEmitted(files.watch.changed), qtbot.assertNotEmitted(files.watch.vanished):
        files.watch.look()


@pytest.mark.parametrize(
    "error, asker",
    [(ChangedOnDisk("x"), "ask_changed"), (GoneFromDisk("x"), "ask_gone"), (ProjectFileError("x"), "ask_refused")],
)
def test_each_trouble_has_its_question(
    files: ProjectFiles, monkeypatch: pytest.MonkeyPatch, error: ProjectFileError, asker: str
) -> None:
    asked: list[str] = []
    for name in ("ask_changed", "ask_gone", "ask_refused"):
        monkeypatch.setattr(
            project_files.save_trouble, name, lambda _window, text, name=name: asked.append(name) or Rescue.CANCEL
        )
    assert files.ask_rescue(error) is Rescue.CANCEL
    assert asked == [asker]
