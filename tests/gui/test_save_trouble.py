"""Ways out when a project cannot be saved where it was."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.save_trouble import Rescue, ask_changed, ask_gone, ask_refused


@pytest.mark.parametrize(
    "ask, second, comfort",
    [
        (ask_changed, Rescue.OVERWRITE, "kept as a backup"),
        (ask_gone, Rescue.OVERWRITE, "The file is no longer there"),
        (ask_refused, Rescue.AGAIN, "unharmed"),
    ],
)
@pytest.mark.parametrize("place", [0, 1, 2])
def test_every_trouble_has_three_ways_out(
    qtbot: QtBot, ask: Callable[[QWidget, str], Rescue], second: Rescue, comfort: str, place: int
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    said: list[str] = []
    answer = (Rescue.ELSEWHERE, second, Rescue.CANCEL)[place]

    def press() -> None:
        dialog = QApplication.activeModalWidget()
        said.extend(label.text() for label in dialog.findChildren(QLabel))
        assert list(dialog.buttons) == [Rescue.ELSEWHERE, second, Rescue.CANCEL]
        dialog.buttons[answer].click()

    QTimer.singleShot(0, press)
    assert ask(window, "“a.waterpark” was not saved.") is answer
    assert "“a.waterpark” was not saved." in "\n".join(said) and comfort in "\n".join(said)
