"""New, open, close: nothing is left without a question, and a bad file does no harm."""

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QMainWindow
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import project_files
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import NEW_CODE_BASIS, ProjectFiles
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import load_project, save_project
from waterpark_designer.units import UnitSystem

if TYPE_CHECKING:
    from tests.gui.files.conftest import Answers

SAMPLE = samples_folder() / "resort-park.waterpark"


def rename(project: OpenProject, name: str) -> None:
    project.edit("Rename", project.site.revised(name=name))


def name_on_disk(path: Path) -> str:
    return load_project(path).site.name


def test_a_new_site_is_empty_held_to_a_code_and_has_nothing_to_save(
    files: ProjectFiles, answers: "Answers", qtbot: QtBot
) -> None:
    with qtbot.waitSignal(files.project_opened) as told:
        assert files.new()
    project = told.args[0]
    assert project is files.project and project.path is None
    assert project.site.code_basis == NEW_CODE_BASIS and project.site.systems == () and project.site.name
    assert project.design.basis.unknown == ()
    assert not files.unsaved and files.close()
    assert answers.asked == []


def test_a_new_site_keeps_the_units_on_screen(files: ProjectFiles, opened: OpenProject) -> None:
    opened.edit("Units", opened.site.revised(units=UnitSystem.SI))
    opened.undo_stack.setClean()
    assert files.new() and files.project.units is UnitSystem.SI


def test_opening_shows_the_project_and_remembers_the_file(
    files: ProjectFiles, answers: "Answers", path: Path, qtbot: QtBot, small_site: Site
) -> None:
    answers.open_path = path
    with qtbot.waitSignals([files.project_opened, files.recent_changed]):
        assert files.open()
    assert files.project.site == small_site and files.project.path == path
    assert files.recent() == [path] and not files.unsaved


def test_choosing_no_file_changes_nothing(files: ProjectFiles, opened: OpenProject) -> None:
    assert not files.open()
    assert files.project is opened


@pytest.mark.parametrize(
    "content, words",
    [
        (b"", "It is empty"),
        (b'{"format": "waterpark-project", "form', "breaks off"),
        (b'{"format": "waterpark-project", "format_version": 999, "site": {}}', "999"),
        (b"PK\x03\x04\xff", "not UTF-8"),
        (b"[" * 5000, "cannot be opened"),
    ],
)
def test_a_bad_file_is_explained_and_changes_nothing(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, tmp_path: Path, content: bytes, words: str
) -> None:
    bad = tmp_path / "bad.waterpark"
    bad.write_bytes(content)
    rename(opened, "Mine")
    assert not files.open(bad)
    assert files.project is opened and files.unsaved and opened.site.name == "Mine"
    assert "bad.waterpark" in answers.told[0] and words in answers.told[0]
    assert answers.asked == [] and bad not in files.recent()


def test_a_recent_file_that_is_gone_is_explained_and_forgotten(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path, qtbot: QtBot
) -> None:
    assert files.close()
    path.unlink()
    with qtbot.waitSignal(files.recent_changed):
        assert not files.open(path)
    assert "does not exist" in answers.told[0] and files.recent() == []


def test_a_sample_opens_as_a_copy_that_asks_for_a_place(
    files: ProjectFiles, answers: "Answers", tmp_path: Path
) -> None:
    before = SAMPLE.read_bytes()
    assert files.open(SAMPLE)
    project = files.project
    assert project.path is None and not files.unsaved and files.recent() == []
    rename(project, "My park")
    answers.save_paths = [SAMPLE, tmp_path / "mine.waterpark"]
    assert files.save()
    assert SAMPLE.read_bytes() == before and "Samples stay as they are" in answers.told[0]
    assert answers.suggested[0].name == "My park.waterpark"
    assert name_on_disk(tmp_path / "mine.waterpark") == "My park"
    assert project.path == tmp_path / "mine.waterpark" and not files.unsaved


@pytest.mark.parametrize(
    "answer, closed, saved",
    [(Unsaved.CANCEL, False, "Alder Bend"), (Unsaved.DISCARD, True, "Alder Bend"), (Unsaved.SAVE, True, "Mine")],
)
@pytest.mark.parametrize("leave", ["close", "new", "open"])
def test_unsaved_changes_are_asked_about_before_they_are_left(
    files: ProjectFiles,
    answers: "Answers",
    opened: OpenProject,
    path: Path,
    tmp_path: Path,
    answer: Unsaved,
    closed: bool,
    saved: str,
    leave: str,
) -> None:
    answers.unsaved = answer
    answers.open_path = tmp_path / "second.waterpark"
    save_project(Site(name="Second"), answers.open_path, None)
    rename(opened, "Mine")
    assert getattr(files, leave)() is closed
    assert answers.asked == ["Mine"] and (files.project is not opened) is closed
    assert name_on_disk(path) == saved


@pytest.mark.parametrize("answer, name", [(Unsaved.SAVE, "Mine"), (Unsaved.DISCARD, "Alder Bend")])
def test_opening_the_open_file_again_reads_what_is_there_then(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, path: Path, answer: Unsaved, name: str
) -> None:
    answers.unsaved = answer
    rename(opened, "Mine")
    assert files.open(path)
    assert files.project is not opened and files.project.site.name == name
    assert files.save(), "nothing stands between the file read and the next save"


def test_closing_tells_and_another_project_closes_the_first(
    files: ProjectFiles, opened: OpenProject, qtbot: QtBot, tmp_path: Path
) -> None:
    with qtbot.waitSignals([files.project_closed, files.project_opened], order="strict"):
        files.new()
    with qtbot.waitSignal(files.project_closed):
        assert files.close()
    assert files.project is None


def test_a_drop_opens_a_project_and_says_why_not(
    files: ProjectFiles, answers: "Answers", path: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(files.project_opened):
        files.drop.take([path])
    with qtbot.waitSignal(files.message) as told:
        files.drop.take([tmp_path / "plan.pdf"])
    assert "plan.pdf is not a project" in told.args[0]


def test_the_dialogs_start_in_the_folder_used_last(
    window: QMainWindow,
    files: ProjectFiles,
    opened: OpenProject,
    path: Path,
    monkeypatch: pytest.MonkeyPatch,
    library: Library,
    settings: QSettings,
    tmp_path: Path,
) -> None:
    asked: list[Path] = []
    again = ProjectFiles(window, library, settings, tmp_path)
    monkeypatch.setattr(project_files.file_dialogs, "ask_open_path", lambda _window, folder: asked.append(folder))
    assert not again.open()
    assert asked == [path.parent]
