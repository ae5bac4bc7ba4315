"""What is being typed, and the table it stands in."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QStandardItem, QStandardItemModel
from PySide6.QtWidgets import QCheckBox, QLineEdit, QTableView, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.entry_in_hand import edit_text, finish_typing
from waterpark_designer.gui.entry_widgets import EntryLine


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    shown = QWidget()
    layout = QVBoxLayout(shown)
    model = QStandardItemModel(shown)
    model.appendRow(QStandardItem("4"))
    table = QTableView()
    table.setModel(model)
    for widget in (EntryLine(), QCheckBox(), table):
        layout.addWidget(widget)
    qtbot.addWidget(shown)
    shown.show()
    shown.activateWindow()
    qtbot.waitUntil(shown.isActiveWindow)
    return shown


def test_a_line_is_entered_and_keeps_the_keyboard(qtbot: QtBot, window: QWidget) -> None:
    line = window.findChild(EntryLine)
    line.setFocus()
    qtbot.keyClicks(line, "12")
    with qtbot.waitSignal(line.committed) as taken:
        finish_typing(window)
    assert taken.args == ["12"]
    assert line.hasFocus()


def test_a_cell_is_entered_and_its_table_has_the_keyboard(qtbot: QtBot, window: QWidget) -> None:
    table = window.findChild(QTableView)
    first = table.model().index(0, 0)
    table.setFocus()
    table.edit(first)
    line = table.findChild(QLineEdit)
    qtbot.keyClick(line, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(line, "7")
    finish_typing(window)
    assert first.data() == "7"
    assert table.hasFocus()


def test_what_is_no_text_leaves_the_command_to_others(window: QWidget) -> None:
    window.findChild(QCheckBox).setFocus()
    finish_typing(window)
    assert not edit_text(window, "cut")
    window.findChild(EntryLine).setFocus()
    assert not edit_text(window, "duplicate")
    assert edit_text(window, "cut")
