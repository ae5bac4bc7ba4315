"""Prices typed into the schedule: what is taken, what is refused and said, and the totals."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QLineEdit
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from waterpark_designer.documents.table import Column, Number, Row, RowKind, Table, group
from waterpark_designer.gui.cell_drawing import MARGIN
from waterpark_designer.gui.paper_rows import RowStyle
from waterpark_designer.gui.schedule_table import ScheduleTable, on_screen, priced, read_price, shown_columns
from waterpark_designer.model.site import Price, Site
from waterpark_designer.units import COUNT, FLOW, MONEY, UnitSystem, UnreadableQuantity

US = UnitSystem.US
COLUMNS = (
    Column("Tag"),
    Column("Item"),
    Column("Qty", COUNT),
    Column("Duty"),
    Column("Rating"),
    Column("Remarks"),
    Column("Price each", MONEY, unit="$, invented"),
    Column("Price", MONEY, unit="$, invented"),
)


def line(tag: str, quantity: float, each: float | None = None) -> Row:
    prices = ("", "") if each is None else (Number(each, MONEY), Number(each * quantity, MONEY))
    return Row((tag, "Pump", Number(quantity, COUNT), Number(0.0631, FLOW), "", "standby", *prices), node="s", key=tag)


SCHEDULE = Table(
    "Equipment schedule",
    COLUMNS,
    (
        group("River loop", "s"),
        line("P-101", 2, 100.0),
        line("F-101", 3),
        group("Spa loop", "t"),
        line("P-201", 1, 50.5),
        Row(("", "Total of the priced lines", "", "", "", "", "", Number(250.5, MONEY)), RowKind.TOTAL),
    ),
    notes=("Note 1. A value from memory.",),
)


@pytest.fixture
def table(qtbot: QtBot) -> ScheduleTable:
    made = ScheduleTable()
    qtbot.addWidget(made)
    made.resize(1000, 500)
    made.show_table(SCHEDULE, US)
    with qtbot.waitExposed(made):
        made.show()
    return made


def type_price(table: ScheduleTable, qtbot: QtBot, tag: str, text: str) -> None:
    """Go to a line, type over its price, and press Enter."""
    table.setFocus()
    assert table.go_to((RowKind.BODY, "s", tag, tag))
    qtbot.keyClick(table, Qt.Key.Key_F2)
    editor = table.findChild(QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    if not text:
        qtbot.keyClick(editor, Qt.Key.Key_Delete)
    qtbot.keyClick(editor, Qt.Key.Key_Return)


def texts(table: ScheduleTable, number: int) -> list[str]:
    return [cell.text for cell in table.rows.row(number).cells]


def test_it_shows_the_printed_table(table: ScheduleTable) -> None:
    headings = [column.heading for column in table.rows.columns]
    assert headings[-2:] == ["Price each\n($, invented)", "Price\n($, invented)"]
    assert texts(table, 1) == ["P-101", "Pump", "2", "1,000 gpm", "", "standby", "100.00", "200.00"]
    assert table.rows.row(0).style is RowStyle.HEADING
    assert table.rows.row(5).style is RowStyle.TOTAL
    assert table.rows.row(6).cells[0].text == "Note 1. A value from memory."


@pytest.mark.parametrize("typed, amount", [("21900", 21900.0), ("21,900.50", 21900.5), ("3 * 40", 120.0), ("0", 0.0)])
def test_a_price_is_typed_and_given(table: ScheduleTable, qtbot: QtBot, typed: str, amount: float) -> None:
    with qtbot.waitSignal(table.schedule.price_given) as given:
        type_price(table, qtbot, "F-101", typed)
    assert given.args == ["F-101", amount]


def test_typing_on_a_line_begins_its_price_wherever_the_cursor_is(table: ScheduleTable, qtbot: QtBot) -> None:
    table.setFocus()
    table.go_to((RowKind.BODY, "s", "F-101", "F-101"), column=1)
    qtbot.keyClicks(table, "7")
    editor = table.findChild(QLineEdit)
    assert editor is not None and editor.text() == "7"
    with qtbot.waitSignal(table.schedule.price_given) as given:
        qtbot.keyClicks(editor, "5")
        qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert given.args == ["F-101", 75.0]


@pytest.mark.parametrize("typed, said", [("a lot", "cannot be read"), ("-5", "no price"), ("1e12", "no price")])
def test_what_is_no_price_is_said_beside_the_cell(table: ScheduleTable, qtbot: QtBot, typed: str, said: str) -> None:
    with qtbot.assertNotEmitted(table.schedule.price_given):
        type_price(table, qtbot, "F-101", typed)
    qtbot.waitUntil(table.complaint.isVisible)
    assert said in table.complaint.text()
    cell = table.visualRect(table.rows.index(2, table.schedule.price_column))
    place = table.complaint.parentWidget().geometry()
    assert abs(place.top() - cell.bottom()) < cell.height() and place.right() <= table.viewport().width()
    qtbot.keyClick(table, Qt.Key.Key_Up)
    assert not table.complaint.isVisible()


def test_a_blank_takes_the_price_away(table: ScheduleTable, qtbot: QtBot) -> None:
    with qtbot.waitSignal(table.schedule.price_given) as given:
        type_price(table, qtbot, "P-101", "")
    assert given.args == ["P-101", None]
    with qtbot.waitSignal(table.schedule.price_given) as given:
        qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert given.args == ["P-101", None]


def test_escape_leaves_the_price_as_it_was(table: ScheduleTable, qtbot: QtBot) -> None:
    table.setFocus()
    table.go_to((RowKind.BODY, "s", "P-101", "P-101"))
    qtbot.keyClick(table, Qt.Key.Key_F2)
    editor = table.findChild(QLineEdit)
    assert editor.text() == "100"
    with qtbot.assertNotEmitted(table.schedule.price_given):
        qtbot.keyClicks(editor, "9")
        qtbot.keyClick(editor, Qt.Key.Key_Escape)


def test_totals_have_no_price_to_type(table: ScheduleTable, qtbot: QtBot) -> None:
    table.setFocus()
    table.setCurrentIndex(table.rows.index(5, 1))
    qtbot.keyClick(table, Qt.Key.Key_F2)
    with qtbot.assertNotEmitted(table.schedule.price_given):
        qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert table.findChild(QLineEdit) is None


def test_on_screen_each_system_has_its_total(table: ScheduleTable) -> None:
    shown = on_screen(SCHEDULE, "$")
    totals = [(row.cells[1], row.cells[7].value) for row in shown.rows if row.kind is RowKind.TOTAL]
    assert totals == [("Total of River loop", 200.0), ("Total of Spa loop", 50.5), ("Total of the priced lines", 250.5)]
    assert [row.cells[0] for row in shown.rows] == ["River loop", "P-101", "F-101", "", "Spa loop", "P-201", "", ""]
    assert [column.unit for column in shown.columns[-2:]] == ["$", "$"]


def test_a_system_without_a_price_has_no_total() -> None:
    bare = Table("Equipment schedule", COLUMNS, (group("River loop", "s"), line("P-101", 2)))
    assert [row.kind for row in on_screen(bare, "$").rows] == [RowKind.GROUP, RowKind.BODY]


def test_where_it_is_narrow_remarks_go_below_the_item_and_the_price_stays_editable(
    table: ScheduleTable, qtbot: QtBot
) -> None:
    table.resize(560, 500)
    assert [column.heading.partition("\n")[0] for column in table.rows.columns] == [
        "Tag",
        "Item",
        "Qty",
        "Duty",
        "Price each",
        "Price",
    ]
    assert table.rows.row(1).cells[1].below == "standby"
    with qtbot.waitSignal(table.schedule.price_given) as given:
        type_price(table, qtbot, "P-101", "42")
    assert given.args == ["P-101", 42.0]
    table.resize(1000, 500)
    assert len(table.rows.columns) == len(COLUMNS)


def test_columns_without_a_partner_stay_where_they_are() -> None:
    assert shown_columns(["System", "Bags"], narrow=True) == ((0, -1), (1, -1))
    assert shown_columns(["Item", "Duty", "Rating", "Remarks"], narrow=True) == ((0, 3), (1, 2))
    assert len(shown_columns(["Item", "Duty", "Rating", "Remarks"], narrow=False)) == 4


def test_prices_are_read_as_amounts() -> None:
    assert read_price("  ", US) is None
    assert read_price("1,250", US) == 1250.0
    assert read_price("$1,250 ", US) == read_price("1,250 €", US) == 1250.0
    with pytest.raises(UnreadableQuantity, match="amount from 0"):
        read_price("-1", US)


def test_a_price_is_put_in_the_place_of_the_old_one() -> None:
    site = priced(priced(Site(name="Site"), "a/pump", 10.0), "b/pump", 20.0)
    site = priced(site, "a/pump", 30.0)
    assert set(site.prices) == {Price(line="a/pump", amount=30.0), Price(line="b/pump", amount=20.0)}
    assert priced(priced(site, "a/pump", None), "b/pump", None).prices == ()


def test_its_rows_keep_the_rules_of_a_model(table: ScheduleTable, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(table.rows)


def test_no_number_is_broken_however_narrow_the_table(table: ScheduleTable, qtbot: QtBot) -> None:
    total = Row(("", "Total of the priced lines", "", "", "", "", "", Number(1_274_203.0, MONEY)), RowKind.TOTAL)
    table.resize(520, 500)
    table.show_table(Table("Equipment schedule", COLUMNS, (line("P-101", 2, 100.0), total)), US)
    bold = QFont(table.font())
    bold.setBold(True)
    last = len(table.rows.columns) - 1
    needed = QFontMetrics(bold).horizontalAdvance("1,274,203.00") + 2 * MARGIN
    assert table.rows.row(1).cells[last].text == "1,274,203.00"
    assert table.columnWidth(last) >= needed
