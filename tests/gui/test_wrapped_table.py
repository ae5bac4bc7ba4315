"""A table as on paper: what keys and clicks do, and that only what is seen is made."""

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from waterpark_designer.gui.paper_rows import Cell, Column, Row, RowsModel, RowStyle
from waterpark_designer.gui.wrapped_table import WrappedTable

LONG = "A recirculation pump with a strainer, a standby of the same size and a check valve on each discharge"
COLUMNS = (Column("Item", 3, 60), Column("Price", 1, 60, number=True))


def present(item: str) -> Row:
    style = {"#": RowStyle.HEADING, "=": RowStyle.TOTAL, "~": RowStyle.NOTE}.get(item[0], RowStyle.LINE)
    return Row((Cell(item.strip("#=~")), Cell("12.00" if style is RowStyle.LINE else "")), style)


def is_line(item: str) -> bool:
    return item[0] not in "#~"


@pytest.fixture
def table(qtbot: QtBot) -> WrappedTable:
    made = WrappedTable(RowsModel(COLUMNS, present, lambda item: item, is_line))
    qtbot.addWidget(made)
    made.resize(600, 400)
    made.show_items(["#First system", "pump", "filter", "#Second system", "tank", "=Total of both", "~A note"])
    with qtbot.waitExposed(made):
        made.show()
    return made


def row_text(table: WrappedTable) -> str:
    return str(table.item_at_current())


def test_rows_keep_the_rules_of_a_model(qtmodeltester: ModelTester) -> None:
    model = RowsModel(COLUMNS, present, lambda item: item, is_line)
    model.set_items(["#Heading", "pump", "~note"])
    qtmodeltester.check(model)


def test_arrow_keys_pass_over_headings(table: WrappedTable, qtbot: QtBot) -> None:
    table.setFocus()
    assert table.go_to("filter")
    qtbot.keyClick(table, Qt.Key.Key_Down)
    assert row_text(table) == "tank"
    qtbot.keyClick(table, Qt.Key.Key_Up)
    assert row_text(table) == "filter"


def test_enter_and_double_click_activate_a_line_but_not_a_heading(table: WrappedTable, qtbot: QtBot) -> None:
    table.go_to("filter")
    with qtbot.waitSignal(table.activated_row) as entered:
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert entered.args == ["filter"]
    with qtbot.waitSignal(table.activated_row) as clicked:
        place = table.visualRect(table.rows.index(4, 0)).center()
        qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
        qtbot.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert clicked.args == ["tank"]
    heading = table.visualRect(table.rows.index(0, 0)).topLeft() + QPoint(20, 8)
    with qtbot.assertNotEmitted(table.activated_row):
        qtbot.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=heading)


def test_one_double_click_activates_once(table: WrappedTable, qtbot: QtBot) -> None:
    told: list[object] = []
    table.activated_row.connect(told.append)
    place = table.visualRect(table.rows.index(1, 0)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert told == ["pump"]
    table.setFocus()
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert told == ["pump", "pump"]


def test_it_stays_at_its_row_when_rows_come_before_it(table: WrappedTable) -> None:
    table.go_to("tank", column=1)
    table.show_items(["#First system", "another pump", "pump", "filter", "#Second system", "tank"])
    assert row_text(table) == "tank"
    assert table.currentIndex().column() == 1


def test_text_wraps_where_the_column_is_narrow(table: WrappedTable) -> None:
    table.show_items([LONG])
    wide = table.visualRect(table.rows.index(0, 0)).height()
    table.resize(220, 400)
    table.doItemsLayout()
    assert table.visualRect(table.rows.index(0, 0)).height() > 2 * wide


def test_columns_share_the_width_and_headings_fit(table: WrappedTable) -> None:
    for width in (700, 420):
        table.resize(width, 400)
        taken = sum(table.columnWidth(number) for number in range(2))
        assert taken <= table.viewport().width()
        assert table.columnWidth(1) >= table.header().sectionSizeHint(1)


def test_the_words_of_a_total_run_over_the_empty_cells_beside_them(table: WrappedTable) -> None:
    assert table.room(table.rows.row(5), 0) == table.columnWidth(0) + table.columnWidth(1)
    assert table.room(table.rows.row(1), 0) == table.columnWidth(0)


def test_only_rows_that_are_seen_are_made(qtbot: QtBot) -> None:
    made: list[str] = []

    def noting(item: str) -> Row:
        made.append(item)
        return present(item)

    table = WrappedTable(RowsModel(COLUMNS, noting, lambda item: item, is_line))
    qtbot.addWidget(table)
    table.resize(600, 400)
    table.show_items([f"line {number}" for number in range(20_000)])
    with qtbot.waitExposed(table):
        table.show()
    table.repaint()
    assert 5 < len(made) < 200
