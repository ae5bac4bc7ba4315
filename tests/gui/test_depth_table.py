"""Depths and corners as a table: typed, pasted, emptied, refused."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from waterpark_designer.gui.depth_table import DepthTable
from waterpark_designer.gui.field_spec import specs_of
from waterpark_designer.gui.numbers_model import block_of
from waterpark_designer.model.zones import DepthStation, OutlinePoint
from waterpark_designer.units import FOOT, UnitSystem

US, SI = UnitSystem.US, UnitSystem.SI
TWO = ((0.0, 1.0), (12.0, 1.5))


@pytest.fixture
def depths(qtbot) -> DepthTable:
    return shown(qtbot, DepthTable(tuple(specs_of(DepthStation).values()), "depth"), TWO)


@pytest.fixture
def corners(qtbot) -> DepthTable:
    rows = ((0.0, 0.0, 1.0), (10.0, 0.0, 1.2), (10.0, 6.0, 1.4))
    return shown(qtbot, DepthTable(tuple(specs_of(OutlinePoint).values()), "corner"), rows)


def shown(qtbot, table: DepthTable, rows) -> DepthTable:
    qtbot.addWidget(table)
    table.show_rows(rows, SI)
    with qtbot.waitExposed(table):
        table.show()
    table.activateWindow()
    qtbot.waitUntil(table.isActiveWindow)
    table.view.setFocus()
    return table


def type_cell(qtbot, table: DepthTable, row: int, column: int, text: str) -> None:
    """Type over a cell as one does in a spreadsheet, and press Enter."""
    table.view.setCurrentIndex(table.model.index(row, column))
    qtbot.keyClicks(table.view, text[0])
    editor = table.view.indexWidget(table.view.currentIndex()) or table.view.viewport().focusWidget()
    qtbot.keyClicks(editor, text[1:])
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.view.state() is not table.view.State.EditingState)


def texts(table: DepthTable) -> list[list[str]]:
    model = table.model
    columns = range(model.columnCount())
    return [[model.index(row, column).data() for column in columns] for row in range(model.rowCount())]


def test_shows_values_in_the_unit_of_the_site_with_a_blank_row_below(depths) -> None:
    assert texts(depths) == [["0", "1"], ["12", "1.5"], ["", ""]]
    depths.show_rows(TWO, US)
    assert texts(depths)[1] == ["39.37", "4.92"]
    assert depths.model.headerData(0, Qt.Orientation.Horizontal) == "Distance, ft"


def test_typing_a_cell_hands_over_all_rows_and_goes_down(qtbot, depths) -> None:
    with qtbot.waitSignal(depths.entered) as taken:
        type_cell(qtbot, depths, 0, 1, "18 in")
    assert taken.args[0] == (pytest.approx((0.0, 0.4572)), (12.0, 1.5))
    assert depths.view.currentIndex().row() == 1


def test_blank_row_takes_a_further_one_once_it_is_whole(qtbot, depths) -> None:
    with qtbot.assertNotEmitted(depths.entered):
        type_cell(qtbot, depths, 2, 0, "20")
    assert depths.message.text() == "Row 3, depth: give the depth."
    with qtbot.waitSignal(depths.entered) as taken:
        type_cell(qtbot, depths, 2, 1, "2")
    assert taken.args[0] == (*TWO, (20.0, 2.0))
    assert depths.message.isHidden()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("deep", "Row 1, depth: “deep” cannot be read. Type a number in m, or with its unit."),
        ("25", "Row 1, depth: Depth must be at least 0 and at most 20 m."),
    ],
)
def test_bad_cell_is_named_and_kept_and_nothing_is_handed_over(qtbot, depths, text, message) -> None:
    with qtbot.assertNotEmitted(depths.entered):
        type_cell(qtbot, depths, 0, 1, text)
    assert depths.message.text() == message
    assert texts(depths)[0] == ["0", text]
    depths.show_rows(TWO, SI)
    assert texts(depths)[0] == ["0", text], "the same rows again do not wipe what is typed"
    depths.show_rows(((0.0, 0.9),), SI)
    assert texts(depths) == [["0", "0.9"], ["", ""]]
    assert depths.message.isHidden()


@pytest.mark.parametrize(
    "text",
    [
        "Distance\tDepth\n0\t0.5\n10\t1.1\n",
        "0,0.5\n10,1.1",
        "0;0.5\r\n10;1.1\r\n",
        "0 0.5\n10 1.1",
        "0 m\t500 mm\n10 m\t1.1 m",
    ],
)
def test_pasting_rows_of_any_spreadsheet(qtbot, depths, text) -> None:
    QGuiApplication.clipboard().setText(text)
    with qtbot.waitSignal(depths.entered) as taken:
        qtbot.mouseClick(depths.paste_button, Qt.MouseButton.LeftButton)
    assert taken.args[0] == (pytest.approx((0.0, 0.5)), pytest.approx((10.0, 1.1)))


def test_paste_key_enters_from_the_current_cell_on(qtbot, depths) -> None:
    QGuiApplication.clipboard().setText("0.7\n0.8\n")
    depths.view.setCurrentIndex(depths.model.index(0, 1))
    with qtbot.waitSignal(depths.entered) as taken:
        qtbot.keyClick(depths.view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert taken.args[0] == ((0.0, 0.7), (12.0, 0.8))


def test_paste_over_everything_selected_replaces_it(qtbot, depths) -> None:
    QGuiApplication.clipboard().setText("0\t0.7\n5\t0.8\n9\t0.9")
    depths.view.selectAll()
    with qtbot.waitSignal(depths.entered) as taken:
        qtbot.keyClick(depths.view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert taken.args[0] == ((0.0, 0.7), (5.0, 0.8), (9.0, 0.9))


def test_empty_clipboard_says_so(qtbot, depths) -> None:
    QGuiApplication.clipboard().setText("")
    with qtbot.assertNotEmitted(depths.entered):
        qtbot.mouseClick(depths.paste_button, Qt.MouseButton.LeftButton)
    assert depths.message.text().startswith("The clipboard holds no table.")


def test_corners_pasted_without_depths_keep_those_of_before_and_say_so(qtbot, corners) -> None:
    QGuiApplication.clipboard().setText("0\t0\n8\t0\n8\t5\n0\t5")
    with qtbot.waitSignal(corners.entered) as taken:
        qtbot.mouseClick(corners.paste_button, Qt.MouseButton.LeftButton)
    assert taken.args[0] == ((0.0, 0.0, 1.0), (8.0, 0.0, 1.2), (8.0, 5.0, 1.4), (0.0, 5.0, 1.4))
    assert "Check them" in corners.message.text()


def test_removing_the_selected_row(qtbot, corners) -> None:
    corners.view.setCurrentIndex(corners.model.index(1, 0))
    with qtbot.waitSignal(corners.entered) as taken:
        qtbot.mouseClick(corners.remove_button, Qt.MouseButton.LeftButton)
    assert taken.args[0] == ((0.0, 0.0, 1.0), (10.0, 6.0, 1.4))


def test_delete_empties_cells_and_an_empty_row_goes(qtbot, depths) -> None:
    depths.view.selectRow(1)
    with qtbot.waitSignal(depths.entered) as taken:
        qtbot.keyClick(depths.view, Qt.Key.Key_Delete)
    assert taken.args[0] == ((0.0, 1.0),)


def test_copy_speaks_to_a_spreadsheet(qtbot, depths) -> None:
    depths.show_rows(((0.0, FOOT), (3 * FOOT, 2 * FOOT)), US)
    depths.view.selectRow(1)
    qtbot.keyClick(depths.view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "3\t2"


def test_tab_leaves_the_table(qtbot, depths) -> None:
    depths.view.setCurrentIndex(depths.model.index(0, 0))
    qtbot.keyClick(depths.view, Qt.Key.Key_Tab)
    assert not depths.view.hasFocus()


def test_model_keeps_qts_rules(depths, qtmodeltester) -> None:
    qtmodeltester.check(depths.model)


def test_blocks_of_text() -> None:
    assert block_of("a\tb\n\n1, 2\t3") == [["a", "b"], ["1, 2", "3"]]
    assert block_of("\n \n") == []
