"""Where the text of a cell is broken into lines."""

import pytest
from PySide6.QtGui import QFont, QFontMetrics
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.cell_drawing import _laid_out


@pytest.mark.parametrize(
    ("text", "kept"), [("motor of 3.4 A full load", "3.4 A"), ("washed at 84.7 m³/h each", "84.7 m³/h")]
)
def test_a_number_keeps_its_unit(qtbot: QtBot, text: str, kept: str) -> None:
    font, words = QFont(), len(text.split())
    for width in range(QFontMetrics(font).horizontalAdvance(kept) + 2, QFontMetrics(font).horizontalAdvance(text)):
        layout = _laid_out(text, font, width).layout
        lines = [layout.lineAt(number) for number in range(layout.lineCount())]
        shown = [layout.text()[line.textStart() : line.textStart() + line.textLength()] for line in lines]
        assert 1 < len(shown) <= words
        assert any(kept in line.replace("\u00a0", " ").replace("\u2060", "") for line in shown)
