"""Offering what a crash left behind."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui import recovery_prompt
from waterpark_designer.gui.message import Message
from waterpark_designer.gui.recovery_prompt import Recovery, RecoveryPrompt, ask_recovery
from waterpark_designer.storage.recovery import Recoverable

FOUND = (
    Recoverable(Path("1.recovery"), "Alder Bend", Path("folder", "alder.waterpark"), None, 1_770_034_800.0),
    Recoverable(Path("2.recovery"), "New site", None, None, 1_760_014_400.0),
)


@pytest.fixture
def prompt(qtbot: QtBot) -> RecoveryPrompt:
    shown = RecoveryPrompt(None, FOUND)
    qtbot.addWidget(shown)
    shown.show()
    return shown


def test_it_tells_what_was_kept_when_and_from_where(prompt: RecoveryPrompt) -> None:
    first, second = (prompt.list.item(row).text() for row in range(prompt.list.count()))
    assert "Alder Bend" in first and "2026-02-02" in first and "alder.waterpark" in first
    assert "New site" in second and "2025-10-09" in second and "never saved" in second


def test_arrow_keys_choose_and_enter_opens(prompt: RecoveryPrompt, qtbot: QtBot) -> None:
    assert prompt.chosen is FOUND[0]
    qtbot.keyClick(prompt.list, Qt.Key.Key_Down)
    qtbot.keyClick(prompt.list, Qt.Key.Key_Return)
    assert (prompt.answer, prompt.chosen) == (Recovery.OPEN, FOUND[1])


def test_escape_leaves_them_for_later(prompt: RecoveryPrompt, qtbot: QtBot) -> None:
    qtbot.keyClick(prompt, Qt.Key.Key_Escape)
    assert prompt.answer is Recovery.LATER


@pytest.mark.parametrize("answer", list(Recovery))
def test_each_button_answers(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, answer: Recovery) -> None:
    monkeypatch.setattr(recovery_prompt, "ask_delete", lambda *_: True)
    window = QWidget()
    qtbot.addWidget(window)
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().findChild(QPushButton, answer).click())
    assert ask_recovery(window, FOUND) == (answer, FOUND[0])


@pytest.mark.parametrize(("button", "answer"), [("delete", Recovery.DELETE), ("keep", Recovery.LATER)])
def test_a_copy_is_deleted_only_when_asked_twice(
    prompt: RecoveryPrompt, monkeypatch: pytest.MonkeyPatch, button: str, answer: Recovery
) -> None:
    asked: list[Message] = []

    def click(message: Message) -> None:
        asked.append(message)
        message.buttons[button].click()

    monkeypatch.setattr(Message, "exec", click)
    prompt.findChild(QPushButton, Recovery.DELETE).click()
    assert asked[0].windowTitle() == "Delete the recovery copy of Alder Bend?"
    assert prompt.answer is answer
    assert prompt.isVisible() == (button == "keep")
