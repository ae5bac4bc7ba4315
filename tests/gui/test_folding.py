"""Sections fold by mouse and key, and say which way they stand."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from waterpark_designer.gui.folding import FoldingSection, FoldMark


@pytest.fixture
def section(qtbot) -> FoldingSection:
    made = FoldingSection("Filters", lambda: QLabel("Medium"), is_open=False)
    qtbot.addWidget(made)
    made.resize(200, 60)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_content_is_made_on_first_opening_and_kept(qtbot, section) -> None:
    assert section.content is None
    qtbot.mouseClick(section.heading, Qt.MouseButton.LeftButton)
    first = section.content
    assert not first.isHidden()
    qtbot.mouseClick(section.heading, Qt.MouseButton.LeftButton)
    assert first.isHidden()
    section.heading.setChecked(True)
    assert section.content is first


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_keys_open_and_a_reader_hears_of_it(qtbot, section, key) -> None:
    assert section.heading.accessibleDescription() == "folded"
    with qtbot.waitSignal(section.opened) as opened:
        qtbot.keyClick(section.heading, key)
    assert opened.args == [True]
    assert section.heading.accessibleDescription() == "open"
    assert section.heading.focusPolicy() & Qt.FocusPolicy.TabFocus


def test_heading_can_be_renamed(section) -> None:
    section.set_title("Zone: <Deep> end")
    assert section.heading.text() == "Zone: <Deep> end"
    assert "&lt;Deep&gt;" in section.heading.toolTip()


def test_mark_has_a_name_and_is_reached_by_key(qtbot) -> None:
    mark = FoldMark("Working of volume")
    qtbot.addWidget(mark)
    mark.show()
    assert mark.accessibleName() == "Working of volume"
    qtbot.keyClick(mark, Qt.Key.Key_Enter)
    assert mark.isChecked()


def test_both_ways_are_painted_apart(qtbot, section) -> None:
    def picture() -> bytes:
        return bytes(section.heading.grab().toImage().constBits())

    section.heading.clearFocus()
    folded = picture()
    section.heading.setChecked(True)
    assert picture() != folded
