"""What becomes of unsaved changes."""

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.unsaved_prompt import Unsaved, ask_unsaved


@pytest.mark.parametrize("answer", list(Unsaved))
def test_the_question_names_the_project_and_each_answer_comes_back(qtbot: QtBot, answer: Unsaved) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    said: list[str] = []

    def press() -> None:
        dialog = QApplication.activeModalWidget()
        said.extend(label.text() for label in dialog.findChildren(QLabel))
        dialog.buttons[answer].click()

    QTimer.singleShot(0, press)
    assert ask_unsaved(window, "Alder Bend") is answer
    assert "Save the changes to Alder Bend?" in said
