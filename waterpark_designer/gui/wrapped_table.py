"""A table as it stands on paper: wrapped text, hairlines, headings across the row, numbers to the right.

Rows are presented and measured when they come into sight, so thousands of rows cost what is on screen.
"""

from collections.abc import Hashable, Sequence
from typing import Any

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from waterpark_designer.gui.cell_drawing import cell_height, draw_cell
from waterpark_designer.gui.paper_rows import Column, Index, Row, RowsModel, RowStyle, alignment
from waterpark_designer.gui.theme import colours

LEAST_WORDS = 64


class WrappedTable(QTreeView):
    """A view of rows: arrow keys move, Enter or a double click tells `activated_row`."""

    activated_row = Signal(object)
    current_row = Signal(object)

    def __init__(self, model: RowsModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = model
        self.setModel(model)
        self.setItemDelegate(PaperDelegate(self))
        self.setRootIsDecorated(False)
        self.setItemsExpandable(False)
        self.setIndentation(0)
        self.setWordWrap(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerItem)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        # Trees stand on a panel; a table stands on the paper it is put on.
        self.setStyleSheet("QTreeView { background: transparent; }")
        self.header().setStretchLastSection(False)
        self.header().setSectionsMovable(False)
        self.header().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.header().setMinimumSectionSize(24)

    def show_items(self, items: Sequence[Any], columns: Sequence[Column] | None = None) -> None:
        """Show these items, staying at the row and the scroll position of before."""
        current, place = self.currentIndex(), self.verticalScrollBar().value()
        key = self.rows.key(self.rows.items[current.row()]) if current.isValid() else None
        self.rows.set_items(items, columns)
        self._share_width()
        if key is not None:
            self.go_to(key, current.column())
        self.verticalScrollBar().setValue(place)

    def go_to(self, key: Hashable, column: int = 0) -> bool:
        """Make the row with this key current; tells whether there is one."""
        for number, item in enumerate(self.rows.items):
            if self.rows.key(item) == key:
                self.setCurrentIndex(self.rows.index(number, column))
                return True
        return False

    def item_at_current(self) -> Any:
        """The item of the current row, or None."""
        index = self.currentIndex()
        return self.rows.items[index.row()] if index.isValid() else None

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: N802
        super().currentChanged(current, previous)
        if current.isValid():
            self.current_row.emit(self.rows.items[current.row()])

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802
        # Enter activates on every platform; the view itself leaves it to the platform's custom.
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.state() != self.State.EditingState:
            self._activate(self.currentIndex())
            return
        super().keyPressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        super().mouseDoubleClickEvent(event)
        if self.state() != self.State.EditingState:
            self._activate(self.indexAt(event.position().toPoint()))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802
        super().resizeEvent(event)
        self._share_width()

    def drawRow(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:  # noqa: N802
        row, shades = self.rows.row(index.row()), colours()
        area = QRect(0, option.rect.top(), self.viewport().width(), option.rect.height())
        current = index.row() == self.currentIndex().row()
        if row.style in (RowStyle.HEADING, RowStyle.TOTAL) or current:
            painter.fillRect(area, QColor(shades.accent_soft if current else shades.surface))
        if row.across:
            bold = row.style is RowStyle.HEADING
            draw_cell(painter, area, row.cells[0], self.font(), Qt.AlignmentFlag.AlignLeft, bold)
        else:
            self._draw_cells(painter, area, row)
        if current:
            painter.fillRect(QRect(area.left(), area.top(), 3, area.height()), QColor(shades.accent))
        if row.style is not RowStyle.NOTE:
            painter.setPen(QColor(shades.line))
            painter.drawLine(area.bottomLeft(), area.bottomRight())

    def _draw_cells(self, painter: QPainter, area: QRect, row: Row) -> None:
        for number, (column, cell) in enumerate(zip(self.rows.columns, row.cells, strict=False)):
            place = QRect(self.columnViewportPosition(number), area.top(), self.room(row, number), area.height())
            draw_cell(painter, place, cell, self.font(), alignment(column), row.style is RowStyle.TOTAL)

    def room(self, row: Row, number: int) -> int:
        """Width for a cell; the words of a total run on over the empty cells beside them."""
        width = self.columnWidth(number)
        if row.style is RowStyle.TOTAL and not self.rows.columns[number].number:
            for beside in range(number + 1, len(row.cells)):
                if row.cells[beside].text:
                    break
                width += self.columnWidth(beside)
        return width

    def _activate(self, index: Index) -> None:
        line = index.isValid() and self.rows.flags(index) & Qt.ItemFlag.ItemIsEnabled
        if line and self.state() != self.State.EditingState:
            self.activated_row.emit(self.rows.items[index.row()])

    def _share_width(self) -> None:
        columns = self.rows.columns
        least = [max(column.least, self.header().sectionSizeHint(number)) for number, column in enumerate(columns)]
        room = self.viewport().width()
        for number, column in enumerate(columns):
            # Words can wrap once more; numbers cannot.
            if sum(least) > room and not column.number:
                least[number] = max(min(least[number], LEAST_WORDS), least[number] - (sum(least) - room))
        spare = max(0, room - sum(least))
        shares = sum(column.share for column in columns) or 1.0
        widths = [least[number] + int(spare * column.share / shares) for number, column in enumerate(columns)]
        if columns and spare:
            # What rounding left over: the line below the headings is as long as those below the rows.
            widths[-1] += max(0, room - sum(widths))
        for number, width in enumerate(widths):
            self.setColumnWidth(number, width)
        self.scheduleDelayedItemsLayout()


class PaperDelegate(QStyledItemDelegate):
    """Knows how high a cell is, wrapped to its column; the table draws whole rows itself."""

    def __init__(self, table: WrappedTable) -> None:
        super().__init__(table)
        self._table = table

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802
        row = self._table.rows.row(index.row())
        width = self._table.viewport().width() if row.across else self._table.room(row, index.column())
        cell = row.cells[0] if row.across else self._table.rows.cell(index)
        bold = row.style in (RowStyle.HEADING, RowStyle.TOTAL)
        return QSize(width, cell_height(cell, self._table.font(), width, bold))
