"""A message beside a cell of a table: why an entry was not taken."""

from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHBoxLayout, QLabel

from waterpark_designer.gui.theme import role

WIDEST = 340
GAP = 3


class CellMessage(QFrame):
    """Stands under its cell, or above it where there is no room, until it is hidden."""

    def __init__(self, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._view = view
        role(self, "alert")
        self.label = role(QLabel(), "error")
        self.label.setWordWrap(True)
        self.label.setTextFormat(Qt.TextFormat.PlainText)
        self._layout = QHBoxLayout(self)
        self._layout.setContentsMargins(9, 6, 9, 6)
        self._layout.addWidget(self.label)
        self.hide()

    def show_at(self, index: QModelIndex, text: str) -> None:
        """Show a message beside a cell."""
        self.label.setText(text)
        self.setAccessibleName(text)
        wide = min(WIDEST, self._view.width() - 8, self.label.fontMetrics().horizontalAdvance(text) + 30)
        self.resize(wide, self._layout.heightForWidth(wide))
        self.move(self._place(index))
        self.show()
        self.raise_()

    def _place(self, index: QModelIndex) -> QPoint:
        cell = self._view.visualRect(index)
        corner = self._view.viewport().mapTo(self._view, cell.bottomLeft()) + QPoint(0, GAP)
        if corner.y() + self.height() > self._view.height():
            corner.setY(corner.y() - cell.height() - self.height() - 2 * GAP)
        corner.setX(max(4, min(corner.x(), self._view.width() - self.width() - 4)))
        return corner
