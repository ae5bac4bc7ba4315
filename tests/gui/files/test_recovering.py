"""After a crash: what was kept is offered, and goes on where it was cut off."""

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.open_project import OpenProject
from waterpark_designer.gui.project_files import ProjectFiles
from waterpark_designer.gui.recovery_prompt import Recovery
from waterpark_designer.model.site import Site
from waterpark_designer.storage.project_file import ChangedOnDisk, load_project, save_project
from waterpark_designer.storage.recovery import RecoveryCopy, recoverable_projects

if TYPE_CHECKING:
    from tests.gui.files.conftest import Answers

NO_PROCESS = 2**30
"""A process number that no system gives out."""


def rename(project: OpenProject, name: str) -> None:
    project.edit("Rename", project.site.revised(name=name))


def name_on_disk(path: Path) -> str:
    return load_project(path).site.name


def changed_by_another(path: Path) -> None:
    save_project(load_project(path).site.revised(name="Theirs"), path, None)


def left_behind(folder: Path, site: Site, path: Path | None) -> None:
    """A recovery copy as a program that was killed leaves it."""
    RecoveryCopy(folder, NO_PROCESS).keep(site, path, load_project(path).fingerprint if path else None)


def test_a_crash_is_recovered_where_it_cut_off(
    files: ProjectFiles, answers: "Answers", path: Path, small_site: Site, recovery_folder: Path
) -> None:
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
    files: ProjectFiles, answers: "Answers", path: Path, small_site: Site, recovery_folder: Path
) -> None:
    left_behind(recovery_folder, small_site.revised(name="Mine"), path)
    changed_by_another(path)
    answers.recovery = Recovery.OPEN
    files.offer_recovery()
    assert not files.save() and isinstance(answers.troubles[0], ChangedOnDisk)
    assert name_on_disk(path) == "Theirs"


@pytest.mark.parametrize("answer, left", [(Recovery.LATER, 1), (Recovery.DELETE, 0)])
def test_recovery_can_wait_or_be_refused(
    files: ProjectFiles, answers: "Answers", small_site: Site, recovery_folder: Path, answer: Recovery, left: int
) -> None:
    left_behind(recovery_folder, small_site, None)
    answers.recovery = answer
    files.offer_recovery()
    assert files.project is None and len(recoverable_projects(recovery_folder)) == left


def test_a_damaged_recovery_copy_is_explained(
    files: ProjectFiles, answers: "Answers", small_site: Site, recovery_folder: Path
) -> None:
    left_behind(recovery_folder, small_site, None)
    [copy] = recovery_folder.iterdir()
    copy.write_text(copy.read_text(encoding="utf-8").replace('"systems":', '"sistems":'), encoding="utf-8")
    answers.recovery = Recovery.OPEN
    files.offer_recovery()
    assert files.project is None and "not recovered" in answers.told[0]


def test_without_a_crash_nothing_is_offered(files: ProjectFiles, answers: "Answers") -> None:
    files.offer_recovery()
    assert answers.asked == []


def test_unsaved_changes_survive_the_program(files: ProjectFiles, opened: OpenProject, recovery_folder: Path) -> None:
    rename(opened, "Mine")
    files.autosave.timer.timeout.emit()
    assert "Mine" in next(recovery_folder.iterdir()).read_text(encoding="utf-8")
    opened.undo_stack.undo()
    assert files.close() and list(recovery_folder.iterdir()) == []


def test_a_failed_autosave_is_a_quiet_message(
    files: ProjectFiles, answers: "Answers", opened: OpenProject, recovery_folder: Path, qtbot: QtBot
) -> None:
    recovery_folder.write_text("in the way", encoding="utf-8")
    rename(opened, "Mine")
    with qtbot.waitSignal(files.message) as told:
        files.autosave.timer.timeout.emit()
    assert "No recovery copy" in told.args[0] and answers.told == []
