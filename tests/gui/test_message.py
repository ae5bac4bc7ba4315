"""Messages answer by mouse and by key, and show text as it is."""

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.message import Choice, Message, ask, tell

CHOICES = (Choice("yes", "Do it", "primary"), Choice("other", "Do something else"), Choice("no", "Cancel"))


@pytest.fixture
def message(qtbot: QtBot) -> Message:
    shown = Message(None, "A question", "Is it <b>so</b> & more?", CHOICES)
    qtbot.addWidget(shown)
    shown.show()
    return shown


@pytest.mark.parametrize("key, answer", [(Qt.Key.Key_Return, "yes"), (Qt.Key.Key_Escape, "no")])
def test_enter_takes_the_first_choice_and_escape_the_last(
    message: Message, qtbot: QtBot, key: Qt.Key, answer: str
) -> None:
    qtbot.keyClick(message, key)
    assert message.answer == answer and not message.isVisible()


@pytest.mark.parametrize("key", ["yes", "other", "no"])
def test_each_button_answers_with_its_key(message: Message, qtbot: QtBot, key: str) -> None:
    qtbot.mouseClick(message.buttons[key], Qt.MouseButton.LeftButton)
    assert message.answer == key


def test_markup_in_a_file_name_is_shown_and_not_obeyed(message: Message) -> None:
    texts = {label.text(): label.textFormat() for label in message.findChildren(QLabel)}
    assert texts["Is it <b>so</b> & more?"] is Qt.TextFormat.PlainText


def press_when_shown(key: str) -> None:
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().buttons[key].click())


def test_asking_waits_for_the_answer(qtbot: QtBot) -> None:
    press_when_shown("other")
    assert ask(None, "A question", "Which?", CHOICES) == "other"


def test_telling_waits_until_it_is_closed(qtbot: QtBot) -> None:
    press_when_shown("close")
    tell(None, "Something happened", "It is over.")
    assert QApplication.activeModalWidget() is None
