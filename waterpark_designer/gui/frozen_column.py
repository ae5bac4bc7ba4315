"""The first column of a table, standing still while the others scroll under it."""

from typing import Any

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import QAbstractItemDelegate, QAbstractItemView, QFrame, QHeaderView, QTableView, QWidget

from waterpark_designer.gui.theme import role

Index = QModelIndex | QPersistentModelIndex


class FrozenColumn(QTableView):
    """Lies over the first column of a table and shows the same rows."""

    edited = Signal(QAbstractItemDelegate.EndEditHint)
    """A cell was edited; how the editor was left."""

    def __init__(self, table: QTableView) -> None:
        super().__init__(table)
        self._table = table
        self.setModel(table.model())
        self.setSelectionModel(table.selectionModel())
        self._look_like_the_table()
        self._follow_the_table()

    def lay_over(self) -> None:
        """Cover the first column of the table, and its heading."""
        table = self._table
        edge = table.frameWidth()
        heights = table.viewport().height() + table.horizontalHeader().height()
        self.horizontalHeader().setFixedHeight(table.horizontalHeader().height())
        self.setColumnWidth(0, table.columnWidth(0))
        self.setGeometry(table.verticalHeader().width() + edge, edge, table.columnWidth(0) + 1, heights)

    def _look_like_the_table(self) -> None:
        table = self._table
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setFrameShape(QFrame.Shape.NoFrame)
        role(self, "frozen")
        self.verticalHeader().hide()
        self.setShowGrid(table.showGrid())
        self.setWordWrap(table.wordWrap())
        self.verticalHeader().setDefaultSectionSize(table.verticalHeader().defaultSectionSize())
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(table.verticalScrollMode())
        self.setEditTriggers(table.editTriggers())
        self.setSelectionMode(table.selectionMode())
        self.setSelectionBehavior(table.selectionBehavior())
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header.setSectionsClickable(True)
        header.setDefaultAlignment(table.horizontalHeader().defaultAlignment())
        for column in range(1, self.model().columnCount()):
            self.setColumnHidden(column, True)

    def _follow_the_table(self) -> None:
        table, bar = self._table, self.verticalScrollBar()
        table.verticalScrollBar().valueChanged.connect(bar.setValue)
        bar.valueChanged.connect(table.verticalScrollBar().setValue)
        table.horizontalHeader().sectionResized.connect(lambda *_: self.lay_over())
        table.horizontalHeader().geometriesChanged.connect(self.lay_over)
        self.horizontalHeader().sectionClicked.connect(self._sort)

    def _sort(self, _section: int) -> None:
        header = self._table.horizontalHeader()
        ascending = Qt.SortOrder.AscendingOrder
        again = header.sortIndicatorSection() == 0 and header.sortIndicatorOrder() == ascending
        header.setSortIndicator(0, Qt.SortOrder.DescendingOrder if again else ascending)

    def scrollTo(self, index: Index, hint: QAbstractItemView.ScrollHint | None = None) -> None:  # noqa: N802
        """The table scrolls; this follows."""

    def edit(self, *arguments: Any) -> Any:
        return super().edit(*arguments)

    def state(self) -> QAbstractItemView.State:
        return super().state()

    def closeEditor(self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:  # noqa: N802
        super().closeEditor(editor, QAbstractItemDelegate.EndEditHint.NoHint)
        self.edited.emit(hint)
