"""New, open, save, close: whatever the disk does, nothing is lost."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QLineEdit, QMainWindow
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import project_files
from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import NEW_CODE_BASIS, ProjectFiles
from waterpark_designer.gui.recovery_prompt import Recovery
from waterpark_designer.gui.save_trouble import Rescue
from waterpark_designer.gui.unsaved_prompt import Unsaved
from waterpark_designer.library import Library
from waterpark_designer.model.site import Site
from waterpark_designer.resources import samples_folder
from waterpark_designer.storage.project_file import (
    ChangedOnDisk,
    GoneFromDisk,
    ProjectFileError,
    backup_path,
    load_project,
    save_project,
)
from waterpark_designer.storage.recovery import Recoverable, RecoveryCopy, recoverable_projects
from waterpark_designer.units import UnitSystem

SAMPLE = samples_folder() / "resort-park.waterpark"
NO_PROCESS = 2**30
"""A process number that no system gives out."""


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
def files(
    window: QMainWindow, library: Library, settings: QSettings, recovery_folder: Path,
) -> Iterator[ProjectFiles]:
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
def opened(files: ProjectFiles, answers: Answers, path: Path) -> OpenProject:
    assert files.open(path) and files.project
    return files.project


def rename(project: OpenProject, name: str) -> None:
    project.edit("Rename", project.site.revised(name=name))


def name_on_disk(path: Path) -> str:
    return load_project(path).site.name


def changed_by_another(path: Path) -> None:
    save_project(load_project(path).site.revised(name="Theirs"), path, None)


def test_a_new_site_is_empty_held_to_a_code_and_has_nothing_to_save(
        files: ProjectFiles, answers: Answers, qtbot: QtBot) -> None:
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
        files: ProjectFiles, answers: Answers, path: Path, qtbot: QtBot, small_site: Site) -> None:
    answers.open_path = path
    with qtbot.waitSignals([files.project_opened, files.recent_changed]):
        assert files.open()
    assert files.project.site == small_site and files.project.path == path
    assert files.recent() == [path] and not files.unsaved


def test_choosing_no_file_changes_nothing(files: ProjectFiles, opened: OpenProject) -> None:
    assert not files.open()
    assert files.project is opened


@pytest.mark.parametrize("content, words", [
    (b"", "It is empty"), (b'{"format": "waterpark-project", "form', "breaks off"),
    (b'{"format": "waterpark-project", "format_version": 999, "site": {}}', "999"),
    (b"PK\x03\x04\xff", "not UTF-8"), (b"[" * 5000, "cannot be opened")])
def test_a_bad_file_is_explained_and_changes_nothing(
        files: ProjectFiles, answers: Answers, opened: OpenProject, tmp_path: Path, content: bytes,
        words: str) -> None:
    bad = tmp_path / "bad.waterpark"
    bad.write_bytes(content)
    rename(opened, "Mine")
    assert not files.open(bad)
    assert files.project is opened and files.unsaved and opened.site.name == "Mine"
    assert "bad.waterpark" in answers.told[0] and words in answers.told[0]
    assert answers.asked == [] and bad not in files.recent()


def test_a_recent_file_that_is_gone_is_explained_and_forgotten(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, qtbot: QtBot) -> None:
    assert files.close()
    path.unlink()
    with qtbot.waitSignal(files.recent_changed):
        assert not files.open(path)
    assert "does not exist" in answers.told[0] and files.recent() == []


def test_a_sample_opens_as_a_copy_that_asks_for_a_place(
        files: ProjectFiles, answers: Answers, tmp_path: Path) -> None:
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


def test_saving_marks_the_history_clean_and_keeps_the_last_file(
        files: ProjectFiles, opened: OpenProject, path: Path, qtbot: QtBot) -> None:
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
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.waterpark"
    answers.save_paths = [other]
    rename(opened, "Other")
    assert files.save_as()
    assert (name_on_disk(path), name_on_disk(other)) == ("Alder Bend", "Other")
    assert opened.path == other and files.recent()[0] == other and answers.suggested == [path]


def test_giving_up_the_place_saves_nothing(files: ProjectFiles, answers: Answers, tmp_path: Path) -> None:
    files.new()
    rename(files.project, "Mine")
    assert not files.save()
    assert files.unsaved and files.project.path is None


def test_nothing_open_is_nothing_to_save(files: ProjectFiles, answers: Answers) -> None:
    assert not files.save() and not files.save_as() and files.close()
    assert answers.suggested == []


@pytest.mark.parametrize("answer, closed, saved", [
    (Unsaved.CANCEL, False, "Alder Bend"), (Unsaved.DISCARD, True, "Alder Bend"), (Unsaved.SAVE, True, "Mine")])
@pytest.mark.parametrize("leave", ["close", "new", "open"])
def test_unsaved_changes_are_asked_about_before_they_are_left(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, tmp_path: Path,
        answer: Unsaved, closed: bool, saved: str, leave: str) -> None:
    answers.unsaved = answer
    answers.open_path = tmp_path / "second.waterpark"
    save_project(Site(name="Second"), answers.open_path, None)
    rename(opened, "Mine")
    assert getattr(files, leave)() is closed
    assert answers.asked == ["Mine"] and (files.project is not opened) is closed
    assert name_on_disk(path) == saved


def test_leaving_is_off_when_the_save_fails(files: ProjectFiles, answers: Answers, opened: OpenProject,
                                            path: Path) -> None:
    answers.unsaved = Unsaved.SAVE
    rename(opened, "Mine")
    changed_by_another(path)
    assert not files.close()
    assert files.project is opened and files.unsaved and name_on_disk(path) == "Theirs"


@pytest.mark.parametrize("answer, name", [(Unsaved.SAVE, "Mine"), (Unsaved.DISCARD, "Alder Bend")])
def test_opening_the_open_file_again_reads_what_is_there_then(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, answer: Unsaved, name: str) -> None:
    answers.unsaved = answer
    rename(opened, "Mine")
    assert files.open(path)
    assert files.project is not opened and files.project.site.name == name
    assert files.save(), "nothing stands between the file read and the next save"


def test_closing_tells_and_another_project_closes_the_first(
        files: ProjectFiles, opened: OpenProject, qtbot: QtBot, tmp_path: Path) -> None:
    with qtbot.waitSignals([files.project_closed, files.project_opened], order="strict"):
        files.new()
    with qtbot.waitSignal(files.project_closed):
        assert files.close()
    assert files.project is None


Damage = Callable[[Path], object]


@pytest.mark.parametrize("damage, trouble", [
    (changed_by_another, ChangedOnDisk), (Path.unlink, GoneFromDisk)])
def test_a_conflict_on_disk_can_be_cancelled_with_nothing_lost(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, damage: Damage,
        trouble: type[ProjectFileError]) -> None:
    rename(opened, "Mine")
    damage(path)
    there = path.read_bytes() if path.exists() else None
    assert not files.save()
    assert type(answers.troubles[0]) is trouble
    assert files.unsaved and opened.site.name == "Mine"
    assert (path.read_bytes() if path.exists() else None) == there


def test_overwriting_keeps_the_other_version_as_a_backup(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path) -> None:
    rename(opened, "Mine")
    changed_by_another(path)
    answers.rescues = [Rescue.OVERWRITE]
    assert files.save() and not files.unsaved
    assert name_on_disk(path) == "Mine"
    assert "Theirs" in backup_path(path).read_text(encoding="utf-8")


def test_a_file_that_is_gone_is_saved_anew(
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path) -> None:
    rename(opened, "Mine")
    path.unlink()
    answers.rescues = [Rescue.OVERWRITE]
    assert files.save() and name_on_disk(path) == "Mine"


def test_a_folder_that_is_gone_leads_to_another_place(
        files: ProjectFiles, answers: Answers, small_site: Site, tmp_path: Path) -> None:
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
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path,
        monkeypatch: pytest.MonkeyPatch) -> None:
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
        files: ProjectFiles, answers: Answers, opened: OpenProject, path: Path, qtbot: QtBot) -> None:
    with qtbot.waitSignal(files.message) as told:
        changed_by_another(path)
    assert "Another program changed alder.waterpark" in told.args[0]
    assert files.open(path) and answers.asked == [] and files.project.site.name == "Theirs"


def test_a_file_deleted_under_us_is_told_and_the_project_counts_as_unsaved(
        files: ProjectFiles, opened: OpenProject, path: Path, qtbot: QtBot) -> None:
    with qtbot.waitSignal(files.message) as told:
        path.unlink()
    assert "moved or deleted" in told.args[0] and files.unsaved


def test_our_own_save_is_not_another_programs_change(
        files: ProjectFiles, opened: OpenProject, qtbot: QtBot) -> None:
    rename(opened, "Mine")
    assert files.save()
    with qtbot.assertNotEmitted(files.watch.changed), qtbot.assertNotEmitted(files.watch.vanished):
        files.watch.look()


def test_a_drop_opens_a_project_and_says_why_not(
        files: ProjectFiles, answers: Answers, path: Path, tmp_path: Path, qtbot: QtBot) -> None:
    with qtbot.waitSignal(files.project_opened):
        files.drop.take([path])
    with qtbot.waitSignal(files.message) as told:
        files.drop.take([tmp_path / "plan.pdf"])
    assert "plan.pdf is not a project" in told.args[0]


def test_what_is_being_typed_is_saved_too(
        files: ProjectFiles, opened: OpenProject, path: Path, window: QMainWindow, qtbot: QtBot) -> None:
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


def left_behind(folder: Path, site: Site, path: Path | None) -> None:
    """A recovery copy as a program that was killed leaves it."""
    RecoveryCopy(folder, NO_PROCESS).keep(site, path, load_project(path).fingerprint if path else None)


def test_a_crash_is_recovered_where_it_cut_off(
        files: ProjectFiles, answers: Answers, path: Path, small_site: Site, recovery_folder: Path) -> None:
    left_behind(recovery_folder, small_site.revised(name="Mine"), path)
    answers.recovery = Recovery.OPEN
    files.offer_recovery()
    assert answers.asked == ["Mine"]
    assert files.project.site.name == "Mine" and files.project.path == path and files.unsaved
    assert name_on_disk(path) == "Alder Bend"
    assert recoverable_projects(recovery_folder) == (), "the copy now belongs to this program"
    assert files.save() and name_on_disk(path) == "Mine"
    assert list(recovery_folder.iterdir()) == []


def test_recovery_does_not_overwrite_what_was_changed_since(
        files: ProjectFiles, answers: Answers, path: Path, small_site: Site, recovery_folder: Path) -> None:
    left_behind(recovery_folder, small_site.revised(name="Mine"), path)
    changed_by_another(path)
    answers.recovery = Recovery.OPEN
    files.offer_recovery()
    assert not files.save() and isinstance(answers.troubles[0], ChangedOnDisk)
    assert name_on_disk(path) == "Theirs"


@pytest.mark.parametrize("answer, left", [(Recovery.LATER, 1), (Recovery.DELETE, 0)])
def test_recovery_can_wait_or_be_refused(
        files: ProjectFiles, answers: Answers, small_site: Site, recovery_folder: Path, answer: Recovery,
        left: int) -> None:
    left_behind(recovery_folder, small_site, None)
    answers.recovery = answer
    files.offer_recovery()
    assert files.project is None and len(recoverable_projects(recovery_folder)) == left


def test_a_damaged_recovery_copy_is_explained(
        files: ProjectFiles, answers: Answers, small_site: Site, recovery_folder: Path) -> None:
    left_behind(recovery_folder, small_site, None)
    [copy] = recovery_folder.iterdir()
    copy.write_text(copy.read_text(encoding="utf-8").replace('"systems":', '"sistems":'), encoding="utf-8")
    answers.recovery = Recovery.OPEN
    files.offer_recovery()
    assert files.project is None and "not recovered" in answers.told[0]


def test_without_a_crash_nothing_is_offered(files: ProjectFiles, answers: Answers) -> None:
    files.offer_recovery()
    assert answers.asked == []


def test_unsaved_changes_survive_the_program(
        files: ProjectFiles, opened: OpenProject, recovery_folder: Path) -> None:
    rename(opened, "Mine")
    files.autosave.timer.timeout.emit()
    assert "Mine" in next(recovery_folder.iterdir()).read_text(encoding="utf-8")
    opened.undo_stack.undo()
    assert files.close() and list(recovery_folder.iterdir()) == []


def test_a_failed_autosave_is_a_quiet_message(
        files: ProjectFiles, answers: Answers, opened: OpenProject, recovery_folder: Path, qtbot: QtBot) -> None:
    recovery_folder.write_text("in the way", encoding="utf-8")
    rename(opened, "Mine")
    with qtbot.waitSignal(files.message) as told:
        files.autosave.timer.timeout.emit()
    assert "No recovery copy" in told.args[0] and answers.told == []


def test_the_dialogs_start_in_the_folder_used_last(
        window: QMainWindow, files: ProjectFiles, opened: OpenProject, path: Path,
        monkeypatch: pytest.MonkeyPatch, library: Library, settings: QSettings, tmp_path: Path) -> None:
    asked: list[Path] = []
    again = ProjectFiles(window, library, settings, tmp_path)
    monkeypatch.setattr(project_files.file_dialogs, "ask_open_path", lambda _window, folder: asked.append(folder))
    assert not again.open()
    assert asked == [path.parent]


@pytest.mark.parametrize("error, asker", [
    (ChangedOnDisk("x"), "ask_changed"), (GoneFromDisk("x"), "ask_gone"), (ProjectFileError("x"), "ask_refused")])
def test_each_trouble_has_its_question(
        files: ProjectFiles, monkeypatch: pytest.MonkeyPatch, error: ProjectFileError, asker: str) -> None:
    asked: list[str] = []
    for name in ("ask_changed", "ask_gone", "ask_refused"):
        monkeypatch.setattr(
            project_files.save_trouble, name, lambda _window, text, name=name: asked.append(name) or Rescue.CANCEL)
    assert files.ask_rescue(error) is Rescue.CANCEL
    assert asked == [asker]


def test_ctrl_s_twice_writes_once(files: ProjectFiles, opened: OpenProject, path: Path) -> None:
    rename(opened, "Mine")
    assert files.save()
    written = path.stat().st_mtime_ns
    assert files.save() and path.stat().st_mtime_ns == written
