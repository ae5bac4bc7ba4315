"""Exporting from the window: where to, in what form, how it ends, and how it is stopped."""

import threading
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QProgressDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.documents import export as export_module
from waterpark_designer.documents.register import DOCUMENTS
from waterpark_designer.gui import export_actions, file_dialogs, folders
from waterpark_designer.gui.export_actions import SUFFIXES, ExportActions, file_name
from waterpark_designer.gui.open_project import OpenProject

MAGIC = {"pdf": b"%PDF-", "xlsx": b"PK", "csv": b""}


@pytest.fixture
def actions(project: OpenProject, qtbot: QtBot, settings: QSettings, monkeypatch: pytest.MonkeyPatch) -> ExportActions:
    monkeypatch.setattr(folders, "QSettings", lambda: settings)
    window = QWidget()
    qtbot.addWidget(window)
    with qtbot.waitExposed(window):
        window.show()
    made = ExportActions(project, window)
    yield made
    qtbot.waitUntil(lambda: not made.busy)


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What was told in a message."""
    texts: list[str] = []
    monkeypatch.setattr(export_actions, "tell", lambda _window, _title, text: texts.append(text))
    return texts


def answer(monkeypatch: pytest.MonkeyPatch, path: Path | str) -> list[tuple[object, ...]]:
    """Have the file dialog answer with a path; returns what it was asked."""
    asked: list[tuple[object, ...]] = []

    def dialog(*arguments: object) -> tuple[str, str]:
        asked.append(arguments)
        return str(path), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", dialog)
    return asked


@pytest.mark.parametrize("suffix", list(SUFFIXES))
def test_a_document_is_saved_in_each_form(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, suffix: str
) -> None:
    path = tmp_path / f"schedule.{suffix}"
    answer(monkeypatch, path)
    with qtbot.waitSignal(actions.exported, timeout=20_000) as saved:
        actions.export("equipment-schedule", suffix)
    assert saved.args == [path]
    assert path.read_bytes().startswith(MAGIC[suffix]) and path.stat().st_size > 500
    assert not actions.busy


def test_the_name_offered_says_site_document_and_revision(
    actions: ExportActions, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    asked = answer(monkeypatch, "")
    folders.remember_folder(str(tmp_path / "old.pdf"))
    actions.export("salt-schedule", "xlsx")
    assert asked[0][2] == str(tmp_path / "Alder Bend salt schedule rev A.xlsx")
    assert asked[0][3] == "Excel workbook (*.xlsx)"
    assert not actions.busy


def test_a_name_is_one_that_every_system_takes() -> None:
    assert file_name('A/B: "C" <D>', "Salt schedule", "1?") == "A B C D salt schedule rev 1"
    assert file_name("Heron", "Checks", "") == "Heron checks"
    assert len(file_name("x" * 500, "Checks", "A")) <= 120


def test_the_suffix_is_added_and_the_folder_remembered(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    answer(monkeypatch, tmp_path / "issue 2.final")
    with qtbot.waitSignal(actions.exported, timeout=20_000):
        actions.export("checks", "csv")
    assert (tmp_path / "issue 2.final.csv").is_file()
    assert folders.last_folder() == str(tmp_path)


@pytest.mark.parametrize(("choice", "chosen"), [("cancel", None), ("replace", "issue 2.final.csv")])
def test_a_file_that_the_suffix_leads_to_is_not_replaced_unasked(
    actions: ExportActions, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, choice: str, chosen: str | None
) -> None:
    (tmp_path / "issue 2.final.csv").write_text("there", encoding="utf-8")
    answer(monkeypatch, tmp_path / "issue 2.final")
    monkeypatch.setattr(file_dialogs, "ask", lambda *_question: choice)
    assert actions.choose_file("checks", "csv") == (tmp_path / chosen if chosen else None)


def test_what_went_wrong_is_told_in_plain_words(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, told: list[str]
) -> None:
    answer(monkeypatch, tmp_path / "gone" / "schedule.csv")
    with qtbot.waitSignal(actions.failed, timeout=20_000) as failed:
        actions.export("equipment-schedule", "csv")
    assert "the folder does not exist" in failed.args[0]
    assert told == failed.args


def test_an_unforeseen_failure_is_told_and_leaves_the_next_export_possible(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, told: list[str]
) -> None:
    def broken(*_arguments: object, **_named: object) -> None:
        raise RuntimeError("a fault in the program")

    with monkeypatch.context() as patched:
        patched.setattr(export_module, "export", broken)
        with qtbot.waitSignal(actions.failed, timeout=20_000):
            actions.export_to("checks", tmp_path / "checks.csv")
    assert "a fault in the program" in told[0]
    with qtbot.waitSignal(actions.exported, timeout=20_000):
        actions.export_to("checks", tmp_path / "checks.csv")


def test_a_long_export_shows_progress_and_can_be_stopped(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    window_thread, threads = threading.get_ident(), set()

    def endless(_design: object, _name: str, path: Path, progress: object) -> None:
        while progress(0.25):
            threads.add(threading.get_ident())
        raise export_module.ExportCancelled

    monkeypatch.setattr(export_module, "export", endless)
    actions.export_to("calculation-sheets", tmp_path / "sheets.pdf")
    dialog = actions._window.findChild(QProgressDialog)
    qtbot.waitUntil(dialog.isVisible)
    qtbot.waitUntil(lambda: dialog.value() == dialog.maximum() // 4)
    assert "sheets.pdf" in dialog.labelText()
    with qtbot.waitSignal(actions.cancelled):
        qtbot.mouseClick(dialog.findChild(QPushButton), Qt.MouseButton.LeftButton)
    assert threads and window_thread not in threads
    assert list(tmp_path.iterdir()) == []


def test_one_export_at_a_time(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    go_on = threading.Event()
    started: list[str] = []

    def waiting(_design: object, name: str, path: Path, progress: object) -> None:
        started.append(name)
        go_on.wait(10)

    monkeypatch.setattr(export_module, "export", waiting)
    answer(monkeypatch, tmp_path / "a.csv")
    actions.export("checks", "csv")
    actions.export("salt-schedule", "csv")
    with qtbot.waitSignal(actions.exported):
        go_on.set()
    assert started == ["checks"]


def test_the_design_exported_is_the_one_of_the_click(
    actions: ExportActions, project: OpenProject, qtbot: QtBot, tmp_path: Path
) -> None:
    with qtbot.waitSignal(actions.exported, timeout=20_000):
        actions.export_to("site-summary", tmp_path / "summary.csv")
        project.edit("Rename", project.site.revised(name="Another name"))
    assert "Alder Bend" in (tmp_path / "summary.csv").read_text(encoding="utf-8-sig")


def test_the_menu_offers_every_document_in_every_form(
    actions: ExportActions, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    menu = actions.menu(actions._window)
    titles = [action.text() for action in menu.actions()]
    assert titles == [kind.title for kind in DOCUMENTS.values()]
    forms = menu.actions()[0].menu().actions()
    assert [form.text() for form in forms] == ["PDF…", "XLSX…", "CSV…"]
    answer(monkeypatch, tmp_path / "summary.csv")
    with qtbot.waitSignal(actions.exported, timeout=20_000):
        forms[2].trigger()
    assert (tmp_path / "summary.csv").is_file()


def test_the_folder_of_a_saved_file_is_opened(
    actions: ExportActions, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: opened.append(url.toLocalFile()))
    actions.open_folder(tmp_path / "schedule.pdf")
    assert opened == [str(tmp_path)]
