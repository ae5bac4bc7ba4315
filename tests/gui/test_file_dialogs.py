"""Names and dialogs for project files."""

from pathlib import Path

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import file_dialogs
from waterpark_designer.gui.file_dialogs import ask_open_path, ask_save_path, file_name_for, with_suffix


@pytest.mark.parametrize(
    "typed, saved",
    [
        ("park", "park.waterpark"),
        ("park.waterpark", "park.waterpark"),
        ("Park.WATERPARK", "Park.WATERPARK"),
        ("park rev. 2.1", "park rev. 2.1.waterpark"),
    ],
)
def test_a_project_file_always_has_its_suffix(typed: str, saved: str) -> None:
    assert with_suffix(Path("folder", typed)) == Path("folder", saved)


@pytest.mark.parametrize(
    "name, suggested",
    [
        ("Hallenbad Mühlgrund", "Hallenbad Mühlgrund.waterpark"),
        ('North/South: "A" <1>', "North South A 1.waterpark"),
        ("...", "Site.waterpark"),
        ("x" * 200, "x" * 80 + ".waterpark"),
    ],
)
def test_any_site_name_gives_a_file_name(name: str, suggested: str) -> None:
    assert file_name_for(name) == suggested


@pytest.fixture
def window(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> QWidget:
    class PlainDialog(QFileDialog):
        """The dialog that Qt draws, which a test can type into."""

        def __init__(self, *arguments: object) -> None:
            super().__init__(*arguments)
            self.setOption(QFileDialog.Option.DontUseNativeDialog)

    monkeypatch.setattr(file_dialogs, "QFileDialog", PlainDialog)
    shown = QWidget()
    qtbot.addWidget(shown)
    return shown


def type_and_accept(name: str, then: str = "") -> None:
    """Type a name and accept it; answer the question that follows, if one should."""

    def act() -> None:
        dialog = QApplication.activeModalWidget()
        dialog.findChild(QLineEdit).setText(name)
        if then:
            dialog.finished.connect(lambda: QTimer.singleShot(0, answer))
        dialog.accept()

    def answer() -> None:
        QApplication.activeModalWidget().buttons[then].click()

    QTimer.singleShot(0, act)


def test_the_save_dialog_suggests_a_name_and_gives_the_chosen_place(window: QWidget, tmp_path: Path) -> None:
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().accept())
    assert ask_save_path(window, tmp_path / "Alder Bend.waterpark") == tmp_path / "Alder Bend.waterpark"
    type_and_accept("other")
    assert ask_save_path(window, tmp_path / "Alder Bend.waterpark") == tmp_path / "other.waterpark"


@pytest.mark.parametrize("answer, chosen", [("replace", "rev. 2.1.waterpark"), ("cancel", None)])
def test_a_file_that_the_suffix_leads_to_is_not_replaced_unasked(
    window: QWidget, tmp_path: Path, answer: str, chosen: str | None
) -> None:
    (tmp_path / "rev. 2.1.waterpark").write_text("there", encoding="utf-8")
    type_and_accept("rev. 2.1", then=answer)
    assert ask_save_path(window, tmp_path / "a.waterpark") == (tmp_path / chosen if chosen else None)


def test_giving_up_gives_no_place(window: QWidget, tmp_path: Path) -> None:
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().reject())
    assert ask_save_path(window, tmp_path / "a.waterpark") is None


@pytest.mark.parametrize("answer, path", [(("folder/a.waterpark", ""), Path("folder/a.waterpark")), (("", ""), None)])
def test_the_open_dialog_gives_what_was_chosen(
    window: QWidget, monkeypatch: pytest.MonkeyPatch, answer: tuple[str, str], path: Path | None
) -> None:
    asked: list[str] = []

    def choose(*arguments: object) -> tuple[str, str]:
        asked.extend(map(str, arguments[1:]))
        return answer

    monkeypatch.setattr(file_dialogs.QFileDialog, "getOpenFileName", choose)
    assert ask_open_path(window, Path("folder")) == path
    assert "*.waterpark" in asked[-1]


def test_another_name_can_be_chosen_instead(window: QWidget, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "rev. 2.1.waterpark").write_text("there", encoding="utf-8")
    names = iter(["rev. 2.1", "rev. 2.2"])
    monkeypatch.setattr(file_dialogs, "_chosen_to_save", lambda _parent, _suggested: tmp_path / next(names))
    monkeypatch.setattr(file_dialogs, "ask", lambda *_question: "another")
    assert ask_save_path(window, tmp_path / "a.waterpark") == tmp_path / "rev. 2.2.waterpark"
