"""Tab goes through the panel as it is read."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.main_window import MainWindow
from waterpark_designer.gui.tab_order import focus_next_in, tab_stops
from waterpark_designer.model.walk import walk


@pytest.fixture
def pane(qtbot: QtBot) -> Iterator[QWidget]:
    """Three lines in a pane, made from the last to the first, between two buttons."""
    window = QWidget()
    outer = QVBoxLayout(window)
    within = QWidget()
    before, after = QPushButton("before"), QPushButton("after")
    for widget in (before, within, after):
        outer.addWidget(widget)
    inner = QVBoxLayout(within)
    for name in ("third", "second", "first"):
        line = QLineEdit()
        line.setObjectName(name)
        inner.insertWidget(0, line)
    inner.addWidget(QLineEdit(enabled=False))
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    yield within
    window.close()


def test_stops_are_in_the_order_on_screen(pane: QWidget) -> None:
    assert [stop.objectName() for stop in tab_stops(pane)] == ["first", "second", "third"]
    pane.findChild(QLineEdit, "second").hide()
    assert [stop.objectName() for stop in tab_stops(pane)] == ["first", "third"]


def test_beyond_an_end_comes_what_is_outside(pane: QWidget) -> None:
    first, third = pane.findChild(QLineEdit, "first"), pane.findChild(QLineEdit, "third")
    third.setFocus()
    assert focus_next_in(pane, onwards=True)
    assert QApplication.focusWidget().text() == "after"
    assert not focus_next_in(pane, onwards=True), "what is outside goes on by itself"
    first.setFocus()
    assert focus_next_in(pane, onwards=False)
    assert QApplication.focusWidget().text() == "before"


def test_fields_of_a_body_come_before_its_figures_and_notes(qtbot: QtBot, open_window: MainWindow) -> None:
    panel = open_window.lay_out.panel
    pool = next(part for part in walk(open_window.project.site) if part.name == "Lap pool")
    open_window.project.select(pool.id)
    panel.name.setFocus()
    passed = []
    while panel.isAncestorOf(open_window.focusWidget()):
        passed.append(open_window.focusWidget())
        qtbot.keyClick(passed[-1], Qt.Key.Key_Tab)
    names = [part.accessibleName() for part in passed]
    assert names[0] == "Name" and names[-1] == "Notes"
    in_order = ["Kind", "Water temperature", "Shape", "Length", "Table of depths", "Working of volume"]
    assert [name for name in names if name in in_order] == in_order
    panel.notes.setFocus()
    qtbot.keyClick(panel.notes, Qt.Key.Key_Backtab)
    assert open_window.focusWidget() is passed[-2]
