"""A schedule on screen: the same table values that are printed, with prices that can be typed in."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from PySide6.QtCore import QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHBoxLayout, QLabel, QLineEdit, QWidget

from waterpark_designer.documents import table as printed
from waterpark_designer.gui.cell_drawing import MARGIN
from waterpark_designer.gui.paper_rows import LINE_FLAGS, Cell, Column, Index, Row, RowsModel, RowStyle
from waterpark_designer.gui.theme import role
from waterpark_designer.gui.wrapped_table import PaperDelegate, WrappedTable
from waterpark_designer.model.site import Price, Site
from waterpark_designer.units import MONEY, UnitSystem, UnreadableQuantity

PRICE_EACH, PRICE = "Price each", "Price"
SIGNS_OF_MONEY = "$€£ "
DEAREST = 1e9
STYLES = {printed.RowKind.BODY: RowStyle.LINE, printed.RowKind.TOTAL: RowStyle.TOTAL}
HEADING_LENGTH = 11
LEAST_WIDTHS = {"Item": 100, "Duty": 90, "Body of water": 90, "System": 90, PRICE_EACH: 74, PRICE: 74}
PRICED_FLAGS = LINE_FLAGS | Qt.ItemFlag.ItemIsEditable
SPARE_FOR_NUMBERS = 0.4
NARROW = 760
BELOW = {"Item": "Remarks", "Duty": "Rating"}
"""Columns that go below another where the table is narrow."""


@dataclass(frozen=True, slots=True)
class Note:
    """A note printed under the table."""

    text: str


class ScheduleRows(RowsModel):
    """The rows and notes of a printed table; the cells of the price column can be edited."""

    price_given = Signal(str, object)
    """(key of the schedule line, price of one or None) that was typed."""
    price_refused = Signal(QModelIndex, str)
    """What was typed is no price; says what would be right."""

    def __init__(self) -> None:
        super().__init__((), self._present, _key, _is_line)
        self._table = printed.Table("", (), ())
        self._units = UnitSystem.US
        self._shown: tuple[tuple[int, int], ...] = ()
        self.price_column = -1

    def set_table(self, table: printed.Table, units: UnitSystem, narrow: bool) -> tuple[list[Any], tuple[Column, ...]]:
        """Take a table over; returns its items and columns for the view to show.

        Where it is narrow, what belongs together stands in one column, one below the other.
        """
        self._table, self._units = table, units
        headings = [column.heading for column in table.columns]
        self._shown = shown_columns(headings, narrow)
        self.price_column = next(
            (place for place, (first, _) in enumerate(self._shown) if headings[first] == PRICE_EACH), -1
        )
        columns = tuple(_column(table.columns[first], units) for first, _ in self._shown)
        return [*table.rows, *(Note(note) for note in table.notes)], columns

    def flags(self, index: Index) -> Qt.ItemFlag:
        return PRICED_FLAGS if self._priced(index) else super().flags(index)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role == Qt.ItemDataRole.EditRole and self._priced(index):
            cell = self.items[index.row()].cells[self._shown[index.column()][0]]
            return MONEY.entry_text(cell.value, self._units) if isinstance(cell, printed.Number) else ""
        return super().data(index, role)

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:  # noqa: N802
        if role != Qt.ItemDataRole.EditRole or not self._priced(index):
            return False
        try:
            amount = read_price(str(value), self._units)
        except UnreadableQuantity as error:
            self.price_refused.emit(self.index(index.row(), index.column()), str(error))
            return False
        self.price_given.emit(self.items[index.row()].key, amount)
        return True

    def _priced(self, index: Index) -> bool:
        item = self.items[index.row()] if index.isValid() else None
        line = isinstance(item, printed.Row) and item.kind is printed.RowKind.BODY and bool(item.key)
        return line and index.column() == self.price_column

    def longest(self, place: int) -> str:
        """The longest text in a column on screen, headings and groups apart."""
        first, _ = self._shown[place]
        rows = (row for row in self._table.rows if row.kind is not printed.RowKind.GROUP)
        return max((self._text(row, first) for row in rows), key=len, default="")

    def _present(self, item: printed.Row | Note) -> Row:
        if isinstance(item, Note):
            return Row((Cell(item.text, tone="dim"),), RowStyle.NOTE)
        if item.kind is printed.RowKind.GROUP:
            return Row((Cell(str(item.cells[0])),), RowStyle.HEADING)
        cells = (
            Cell(self._text(item, first), self._text(item, below) if below >= 0 else "") for first, below in self._shown
        )
        return Row(tuple(cells), STYLES[item.kind])

    def _text(self, row: printed.Row, column: int) -> str:
        return printed.cell_text(row.cells[column], self._table.columns[column], self._units)


class ScheduleTable(WrappedTable):
    """The table; typing on a line enters its price, and what is wrong with it stands beside the cell."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self.schedule = ScheduleRows()
        super().__init__(self.schedule, parent)
        self._printed: printed.Table | None = None
        self._units = UnitSystem.US
        self._narrow = False
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.AnyKeyPressed | triggers.DoubleClicked | triggers.EditKeyPressed)
        self.setItemDelegate(_PriceDelegate(self))
        self.complaint = role(QLabel(), "error")
        self.complaint.setTextFormat(Qt.TextFormat.PlainText)
        self._beside = role(QFrame(self.viewport()), "card")
        inside = QHBoxLayout(self._beside)
        inside.setContentsMargins(8, 4, 8, 4)
        inside.addWidget(self.complaint)
        self._beside.hide()
        self.schedule.price_refused.connect(self._complain)
        self.verticalScrollBar().valueChanged.connect(lambda _value: self._beside.hide())
        self.current_row.connect(lambda _row: self._beside.hide())

    def show_table(self, table: printed.Table, units: UnitSystem) -> None:
        """Show a table of a document in the units asked for, staying at the row of before."""
        self._beside.hide()
        narrow = self.viewport().width() < NARROW
        reads_the_same = (units, narrow) == (self._units, self._narrow)
        self._printed, self._units, self._narrow = table, units, narrow
        items, columns = self.schedule.set_table(table, units, narrow)
        columns = tuple(self._fitted(place, column) for place, column in enumerate(columns))
        if not (reads_the_same and self.schedule.replace_items(items, columns)):
            self.show_items(items, columns)

    def _fitted(self, place: int, column: Column) -> Column:
        """A column of numbers as wide as its longest needs in the bold of a total; spare width is for words."""
        if not column.number:
            return column
        bold = QFont(self.font())
        bold.setBold(True)
        needed = QFontMetrics(bold).horizontalAdvance(self.schedule.longest(place)) + 2 * MARGIN + 1
        return replace(column, least=max(column.least, needed), share=column.share * SPARE_FOR_NUMBERS)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        if self._printed is not None and (self.viewport().width() < NARROW) is not self._narrow:
            self.show_table(self._printed, self._units)

    def edit(self, index: Index, *how: Any) -> Any:
        """Edit the price of the row, wherever in the row the keys were pressed."""
        if how and self.schedule.price_column >= 0 and index.isValid():
            index = index.sibling(index.row(), self.schedule.price_column)
        if how and self.model().flags(index) & Qt.ItemFlag.ItemIsEditable:
            self._beside.hide()
        return super().edit(index, *how)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        if event.key() == Qt.Key.Key_Delete and self.state() != self.State.EditingState:
            current = self.currentIndex()
            self.schedule.setData(current.sibling(current.row(), self.schedule.price_column), "")
            return
        super().keyPressEvent(event)

    def _complain(self, index: QModelIndex, message: str) -> None:
        self.complaint.setText(message)
        self._beside.adjustSize()
        # The view closes the editor after it was refused; what is said beside it comes up after that.
        QTimer.singleShot(0, self, lambda: self._place_complaint(index))

    def _place_complaint(self, index: QModelIndex) -> None:
        cell = self.visualRect(index)
        left = max(0, min(cell.right(), self.viewport().width()) - self._beside.width())
        below = cell.top() + self.fontMetrics().height() + 18
        fits = below + self._beside.height() <= self.viewport().height()
        self._beside.move(left, below if fits else cell.top() - self._beside.height())
        self._beside.show()
        self._beside.raise_()


class _PriceDelegate(PaperDelegate):
    """A one-line editor at the top of the cell."""

    def createEditor(self, parent: QWidget, option: Any, index: Index) -> QWidget:  # noqa: N802
        editor = QLineEdit(parent)
        editor.setAlignment(Qt.AlignmentFlag.AlignRight)
        editor.setAccessibleName(PRICE_EACH)
        return editor

    def updateEditorGeometry(self, editor: QWidget, option: Any, index: Index) -> None:  # noqa: N802
        height = min(option.rect.height(), editor.sizeHint().height() + 6)
        editor.setGeometry(option.rect.x(), option.rect.y() + 1, option.rect.width(), height)


def shown_columns(headings: list[str], narrow: bool) -> tuple[tuple[int, int], ...]:
    """(column, column shown below it or -1) for each column on screen."""
    below = {first: second for first, second in BELOW.items() if narrow and {first, second} <= set(headings)}
    return tuple(
        (number, headings.index(below[heading]) if heading in below else -1)
        for number, heading in enumerate(headings)
        if heading not in below.values()
    )


def _column(column: printed.Column, units: UnitSystem) -> Column:
    """A column as it is headed on screen: long headings in lines, the unit in a line of its own."""
    unit, numeric = column.unit_text(units), column.right_aligned
    lines = textwrap.wrap(column.heading, HEADING_LENGTH)
    if unit and unit.casefold() != column.heading.casefold():
        lines.append(f"({unit})")
    return Column("\n".join(lines), column.weight, LEAST_WIDTHS.get(column.heading, 40 if numeric else 52), numeric)


def read_price(text: str, units: UnitSystem) -> float | None:
    """The price typed; None for a blank. Raises UnreadableQuantity, which says what would be right."""
    if not text.strip():
        return None
    amount = MONEY.read(text.strip().strip(SIGNS_OF_MONEY), units)
    if not 0 <= amount <= DEAREST:
        raise UnreadableQuantity(f"{text.strip()[:40]} is no price. Type an amount from 0 to {DEAREST:,.0f}.")
    return amount


def priced(site: Site, line: str, amount: float | None) -> Site:
    """The site with a price for a schedule line, or without one."""
    others = tuple(price for price in site.prices if price.line != line)
    return site.revised(prices=others if amount is None else (*others, Price(line=line, amount=amount)))


def on_screen(table: printed.Table, currency: str) -> printed.Table:
    """The equipment schedule with the total of each system, and only the currency in its headings.

    That prices are invented stands above the table on screen.
    """
    headings = [column.heading for column in table.columns]
    columns = tuple(
        replace(column, unit=currency) if column.measure and column.measure.is_money else column
        for column in table.columns
    )
    totals = _with_totals(table.rows, headings.index(PRICE), columns)
    return replace(table, columns=columns, rows=tuple(totals))


def _with_totals(rows: Iterable[printed.Row], price: int, columns: Sequence[printed.Column]) -> Iterator[printed.Row]:
    title, total = "", None
    for row in rows:
        if row.kind is not printed.RowKind.BODY:
            if total is not None:
                yield _total_row(title, total, price, columns)
            title, total = str(row.cells[0]), None
        else:
            cell = row.cells[price]
            total = (total or 0.0) + cell.value if isinstance(cell, printed.Number) else total
        yield row
    if total is not None:
        yield _total_row(title, total, price, columns)


def _total_row(title: str, total: float, price: int, columns: Sequence[printed.Column]) -> printed.Row:
    cells: list[printed.Cell] = [""] * len(columns)
    cells[1], cells[price] = f"Total of {title}", printed.Number(total, columns[price].measure or MONEY)
    return printed.Row(tuple(cells), printed.RowKind.TOTAL)


def _is_line(item: printed.Row | Note) -> bool:
    return isinstance(item, printed.Row) and item.kind is not printed.RowKind.GROUP


def _key(item: printed.Row | Note) -> tuple[str, ...]:
    if isinstance(item, Note):
        return ("note", item.text)
    return item.kind, item.node, item.key, str(item.cells[0])
