"""A notice is seen, stays within its window, and goes away."""

import pytest
from PySide6.QtWidgets import QPushButton, QWidget

from waterpark_designer.gui.notice import Notice


@pytest.fixture
def holder(qtbot):
    made = QWidget()
    made.resize(600, 400)
    qtbot.addWidget(made)
    made.show()
    return made


def test_notice_stays_within_the_window(holder) -> None:
    notice = Notice(holder)
    notice.tell("alder-bend.waterpark is saved. " * 8)
    assert notice.isVisible() and holder.rect().contains(notice.geometry())
    holder.resize(420, 300)
    assert holder.rect().contains(notice.geometry())


def test_notice_goes_by_itself_and_by_its_button(qtbot, holder) -> None:
    notice = Notice(holder)
    notice.timer.setInterval(1)
    notice.tell("Saved.")
    qtbot.waitSignal(notice.timer.timeout).wait()
    assert notice.isHidden()
    notice.timer.setInterval(60_000)
    notice.tell("Saved again.")
    notice.findChild(QPushButton).click()
    assert notice.isHidden()
