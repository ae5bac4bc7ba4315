"""Widgets side by side go on in the next line where the width ends."""

from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.flow_layout import FlowLayout


def test_lines_break_where_the_width_ends(qtbot: QtBot) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = FlowLayout(holder, spacing=10)
    boxes = [QLabel() for _ in range(5)]
    for box in boxes:
        box.setFixedSize(100, 20)
        flow.addWidget(box)
    holder.resize(320, 200)
    with qtbot.waitExposed(holder):
        holder.show()
    # Three boxes of 100 and two gaps of 10 are 320 wide.
    assert [(box.x(), box.y()) for box in boxes] == [(0, 0), (110, 0), (220, 0), (0, 30), (110, 30)]
    assert flow.heightForWidth(320) == 50
    assert flow.heightForWidth(319) == 80
    assert flow.heightForWidth(90) == 5 * 20 + 4 * 10
    assert flow.minimumSize().width() == 100
